"""Do the 95 % intervals of agreement hold the true value in 95 of 100 sets?

The truth of a coefficient is what it comes to over all units there could be, from the chances themselves.
"""

import numpy as np
from scipy.special import ndtr

from assessments.measurement import weights
from assessments.measurement.bland_altman import mark_differences
from assessments.measurement.fleiss import fleiss_kappa
from assessments.measurement.gwet import agreement_coefficient
from assessments.measurement.intraclass import complete_forms, mean_squares
from assessments.measurement.kappa import kappa
from assessments.measurement.krippendorff_alpha import alpha
from assessments.measurement.simulation.study import Drawn, Measure, Study, covers
from assessments.measurement.statistic import Statistic
from curriculum.faults import N_

CATEGORIES = 4
BOUNDS = np.array([-np.inf, -1.0, 0.1, 1.2, np.inf])
NOISE = 0.6
SEVERITY = np.array([-0.3, 0.0, 0.4])
SPREADS = {"unit": 1.0, "examiner": 0.3, "rest": 0.6}
KAPPAS = {"kappa": weights.identity, "kappa_linear": weights.linear, "kappa_quadratic": weights.quadratic}


def chances(quality: np.ndarray, severity: float) -> np.ndarray:
    """P (n, categories) that an examiner so severe puts a unit of `quality` (n,) in each category."""
    return np.diff(ndtr((BOUNDS - (quality - severity)[:, None]) / NOISE), axis=1)


def _truth() -> dict[str, float]:
    quality = np.linspace(-8, 8, 4001)
    share = np.exp(-(quality**2) / 2)
    each = [chances(quality, severity) for severity in SEVERITY]
    share /= share.sum()
    tables = {(a, b): each[a].T @ (share[:, None] * each[b]) for a in range(3) for b in range(3) if a != b}
    found = {key: _beyond(tables[0, 1], make(CATEGORIES)) for key, make in KAPPAS.items()}
    mean = sum(tables.values()) / len(tables)
    margin = mean.sum(axis=0)
    found["fleiss"] = (np.trace(mean) - margin @ margin) / (1 - margin @ margin)
    two = tables[0, 1]
    for key, table in (("ac1", weights.identity(CATEGORIES)), ("ac2", weights.quadratic(CATEGORIES))):
        half = (two.sum(axis=0) + two.sum(axis=1)) / 2
        by_chance = table.sum() / (CATEGORIES * (CATEGORIES - 1)) * (half * (1 - half)).sum()
        found[key] = ((two * table).sum() - by_chance) / (1 - by_chance)
    place = np.cumsum(margin) - margin / 2
    level = np.arange(CATEGORIES)
    for metric, distance in (
        ("nominal", 1.0 - np.eye(CATEGORIES)),
        ("ordinal", (place[:, None] - place) ** 2),
        ("interval", (level[:, None] - level) ** 2.0),
    ):
        found[f"alpha_{metric}"] = 1 - (mean * distance).sum() / (margin @ distance @ margin)
    unit, examiner, rest = (SPREADS[name] ** 2 for name in ("unit", "examiner", "rest"))
    found["icc_1_1"] = found["icc_a_1"] = unit / (unit + examiner + rest)
    found["icc_c_1"] = unit / (unit + rest)
    return found


def _beyond(table: np.ndarray, weight: np.ndarray) -> float:
    expected = table.sum(axis=1) @ weight @ table.sum(axis=0)
    return float(((table * weight).sum() - expected) / (1 - expected))


TRUTH = _truth()


def once(chance: np.random.Generator) -> Drawn:
    found: dict[str, np.ndarray] = {}
    for units in (40, 150):
        codes = _drawn(units, chance)
        table = np.bincount(codes[:, 0] * CATEGORIES + codes[:, 1], minlength=CATEGORIES**2)
        table = table.reshape(CATEGORIES, CATEGORIES)
        for key, make in KAPPAS.items():
            found[f"{key}/{units}"] = _held(kappa(table, make(CATEGORIES), chance)[0], TRUTH[key])
        pair = _counts(codes[:, :2])
        for key, make in (("ac1", weights.identity), ("ac2", weights.quadratic)):
            found[f"{key}/{units}"] = _held(agreement_coefficient(pair, make(CATEGORIES))[0], TRUTH[key])
        found[f"fleiss/{units}"] = _held(fleiss_kappa(_counts(codes))[0], TRUTH["fleiss"])
        gaps = _counts(np.where(chance.random(codes.shape) < 0.2, -1, codes))
        for metric in ("nominal", "ordinal", "interval"):
            key = f"alpha_{metric}"
            found[f"{key}/{units}"] = _held(alpha(gaps, metric, np.arange(CATEGORIES), chance), TRUTH[key])
    return found | _marks(chance)


def _drawn(units: int, chance: np.random.Generator) -> np.ndarray:
    quality = chance.standard_normal(units)
    marks = quality[:, None] - SEVERITY + NOISE * chance.standard_normal((units, len(SEVERITY)))
    return np.searchsorted(BOUNDS[1:-1], marks)


def _counts(codes: np.ndarray) -> np.ndarray:
    return np.stack([(codes == category).sum(axis=1) for category in range(CATEGORIES)], axis=1)


def _marks(chance: np.random.Generator) -> Drawn:
    units, examiners = 40, 6
    quality = SPREADS["unit"] * chance.standard_normal((units, 1))
    noise = SPREADS["rest"] * chance.standard_normal((units, examiners))
    crossed = quality + SPREADS["examiner"] * chance.standard_normal(examiners) + noise
    nested = quality + SPREADS["examiner"] * chance.standard_normal((units, examiners)) + noise
    forms = complete_forms(mean_squares(crossed))
    found = {f"{key}/40": _held(forms[key], TRUTH[key]) for key in ("icc_a_1", "icc_c_1")}
    found["icc_1_1/40"] = _held(complete_forms(mean_squares(nested))["icc_1_1"], TRUTH["icc_1_1"])
    mean, sd = 1.5, 4.0
    first = chance.normal(30, 8, units)
    marks = mark_differences(first, first - chance.normal(mean, sd, units))
    found["bias/40"] = _held(marks.bias, mean)
    found["limits/40"] = np.concatenate([_held(marks.low, mean - 1.96 * sd), _held(marks.high, mean + 1.96 * sd)])
    return found


def _held(statistic: Statistic, truth: float) -> np.ndarray:
    return covers(statistic.low, statistic.high, truth)


NAMES = {
    "kappa": N_("Cohen's kappa"),
    "kappa_linear": N_("kappa, linear weights"),
    "kappa_quadratic": N_("kappa, quadratic weights"),
    "ac1": N_("AC1"),
    "ac2": N_("AC2, quadratic weights"),
    "fleiss": N_("Fleiss' kappa, three examiners"),
    "alpha_nominal": N_("Krippendorff's alpha, nominal, a fifth of ratings missing"),
    "alpha_ordinal": N_("Krippendorff's alpha, ordinal, a fifth of ratings missing"),
    "alpha_interval": N_("Krippendorff's alpha, interval, a fifth of ratings missing"),
    "icc_a_1": N_("intraclass correlation, severity counting, six examiners"),
    "icc_c_1": N_("intraclass correlation, ranking only, six examiners"),
    "icc_1_1": N_("intraclass correlation, other examiners for each unit"),
    "bias": N_("mean difference of marks"),
    "limits": N_("limits of the differences of marks"),
}
HOLDS = N_("{what}, {units} units: 95 % intervals that hold the truth")
KEYS = [f"{key}/{units}" for key in list(NAMES)[:9] for units in (40, 150)] + [f"{key}/40" for key in list(NAMES)[9:]]
STUDY = Study(
    "agreement",
    N_("Intervals of agreement, four categories"),
    once,
    tuple(
        Measure(key, "share", HOLDS, 0.93, 0.97, {"what": NAMES[key.split("/")[0]], "units": int(key.split("/")[1])})
        for key in KEYS
    ),
    600,
)
