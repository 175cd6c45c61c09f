"""Small tables as printed in the papers that the methods come from."""

import numpy as np

# Cohen J (1968) Psychol Bull 70:213-220: two judges, three categories, 200 cases; and its table of disagreement.
COHEN = np.array([[88, 10, 2], [14, 40, 6], [18, 10, 12]])
COHEN_DISAGREEMENT = np.array([[0, 1, 3], [1, 0, 6], [3, 6, 0]])

# Shrout PE, Fleiss JL (1979) Psychol Bull 86:420-428, table 2: six targets, four judges.
SHROUT_FLEISS = np.array([[9, 2, 5, 8], [6, 1, 3, 2], [8, 4, 6, 8], [7, 1, 2, 6], [10, 5, 6, 9], [6, 2, 4, 7]], float)

# Fleiss JL (1971) Psychol Bull 76:378-382, table 1: 30 patients, 6 raters each, 5 diagnoses.
FLEISS = np.array(
    [
        [int(cell) for cell in row]
        for row in [
            "00060",
            "03003",
            "01401",
            "00006",
            "03030",
            "20400",
            "00402",
            "20310",
            "20040",
            "00006",
            "10050",
            "11040",
            "03300",
            "10050",
            "02031",
            "00501",
            "30012",
            "51000",
            "02040",
            "10203",
            "00006",
            "01050",
            "02013",
            "20040",
            "10041",
            "05010",
            "40002",
            "02040",
            "10500",
            "00006",
        ]
    ]
)

# Krippendorff K (2011) Computing Krippendorff's Alpha-Reliability, section C: 12 units, 4 observers; . is missing.
KRIPPENDORFF = np.array(
    [
        [np.nan if cell == "." else float(cell) for cell in row]
        for row in ["11.1", "2232", "3333", "3333", "2222", "1234", "4444", "1121", "2222", ".555", "..11", "..3."]
    ]
)

# Gwet KL (2014) Handbook of Inter-Rater Reliability, 4th ed.: two abstractors, three kinds of pregnancy, 100 cases.
GWET = np.array([[13, 0, 0], [0, 20, 7], [0, 4, 56]])

# Bland JM, Altman DG (1986) Lancet i:307-310, table: first reading of 17 people on two peak-flow meters, l/min.
LARGE_METER = np.array([494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427], float)
SMALL_METER = np.array([512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451], float)


def counted(table: np.ndarray, categories: np.ndarray) -> np.ndarray:
    """(units, categories) counts from (units, examiners) ratings with nan where missing."""
    return (table[:, :, None] == categories).sum(axis=1)


def units_of(square: np.ndarray) -> np.ndarray:
    """(units, categories) counts from a square table of two examiners."""
    q = len(square)
    a, b = np.indices(square.shape)
    kinds = np.eye(q, dtype=int)[a.ravel()] + np.eye(q, dtype=int)[b.ravel()]
    return np.repeat(kinds, square.ravel(), axis=0)


# Bland & Altman (1999) Stat Methods Med Res 8:135-160, table 4: subject, radionuclide ventriculography, impedance
# cardiography; 60 pairs of 12 subjects whose true value changes from pair to pair.
SUBJECTS_TWO_METHODS = np.array(
    [
        (1, 7.83, 6.57), (1, 7.42, 5.62), (1, 7.89, 6.90), (1, 7.12, 6.57), (1, 7.88, 6.35), (2, 6.16, 4.06),
        (2, 7.26, 4.29), (2, 6.71, 4.26), (2, 6.54, 4.09), (3, 4.75, 4.71), (3, 5.24, 5.50), (3, 4.86, 5.08),
        (3, 4.78, 5.02), (3, 6.05, 6.01), (3, 5.42, 5.67), (4, 4.21, 4.14), (4, 3.61, 4.20), (4, 3.72, 4.61),
        (4, 3.87, 4.68), (4, 3.92, 5.04), (5, 3.13, 3.03), (5, 2.98, 2.86), (5, 2.85, 2.77), (5, 3.17, 2.46),
        (5, 3.09, 2.32), (5, 3.12, 2.43), (6, 5.92, 5.90), (6, 6.42, 5.81), (6, 5.92, 5.70), (6, 6.27, 5.76),
        (7, 7.13, 5.09), (7, 6.62, 4.63), (7, 6.58, 4.61), (7, 6.93, 5.09), (8, 4.54, 4.72), (8, 4.81, 4.61),
        (8, 5.11, 4.36), (8, 5.29, 4.20), (8, 5.39, 4.36), (8, 5.57, 4.20), (9, 4.48, 3.17), (9, 4.92, 3.12),
        (9, 3.97, 2.96), (10, 4.22, 4.35), (10, 4.65, 4.62), (10, 4.74, 3.16), (10, 4.44, 3.53), (10, 4.50, 3.53),
        (11, 6.78, 7.20), (11, 6.07, 6.09), (11, 6.52, 7.00), (11, 6.42, 7.10), (11, 6.41, 7.40), (11, 5.76, 6.80),
        (12, 5.06, 4.50), (12, 4.72, 4.20), (12, 4.90, 3.80), (12, 4.80, 3.80), (12, 4.90, 4.20), (12, 5.10, 4.50),
    ]
)  # fmt: skip
