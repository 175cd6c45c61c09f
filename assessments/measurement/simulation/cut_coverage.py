"""Do the intervals of a pass mark hold the mark that is right by how the data were drawn?"""

import numpy as np
from scipy.special import expit

from assessments.measurement.angoff import angoff
from assessments.measurement.borderline_group import borderline_group
from assessments.measurement.borderline_regression import borderline_regression
from assessments.measurement.contrasting_groups import contrasting_groups
from assessments.measurement.simulation.study import Drawn, Measure, Study, covers
from curriculum.faults import N_

GRADES = np.array([1, 2, 3, 4, 5])
SHARES = np.array([0.08, 0.22, 0.35, 0.25, 0.10])
AT_NOUGHT, A_GRADE, SPREAD, BORDERLINE = 10.0, 6.0, 4.0, 2
CUT = AT_NOUGHT + A_GRADE * BORDERLINE


def once(chance: np.random.Generator) -> Drawn:
    found: dict[str, np.ndarray] = {}
    for candidates in (30, 60):
        grades = chance.choice(GRADES, candidates, p=SHARES)
        scores = AT_NOUGHT + A_GRADE * grades + SPREAD * chance.standard_normal(candidates)
        answer = borderline_regression(scores, grades.astype(float), BORDERLINE, chance)
        found[f"regression/{candidates}"] = covers(answer.cut.low, answer.cut.high, CUT)
        found[f"regression error/{candidates}"] = np.array([answer.cut.estimate - CUT])
    grades = chance.choice(GRADES, 100, p=SHARES)
    scores = AT_NOUGHT + A_GRADE * grades + SPREAD * chance.standard_normal(100)
    group = borderline_group(scores, grades == BORDERLINE, chance)
    found["group/100"] = covers(group.cut.low, group.cut.high, CUT)
    scores = chance.normal(25, 8, 120)
    competent = chance.random(120) < expit((scores - 22) / 3)
    contrast = contrasting_groups(scores, competent).cut
    found["contrasting/120"] = covers(contrast.low, contrast.high, 22.0)
    judges = 0.6 + 0.05 * chance.standard_normal((10, 1)) + ELEMENTS + 0.1 * chance.standard_normal((10, len(ELEMENTS)))
    judged = angoff(judges).cut
    found["angoff/10"] = covers(judged.low, judged.high, 0.6 * len(ELEMENTS) + ELEMENTS.sum())
    return found


ELEMENTS = np.linspace(-0.2, 0.2, 20)
HOLDS = N_("{method}, {number} {whom}: 95 % intervals of the pass mark that hold the truth")
CANDIDATES, JUDGES = N_("candidates"), N_("judges")
METHODS = {
    "regression": (N_("borderline regression"), (30, 60), CANDIDATES),
    "group": (N_("borderline group, middle mark"), (100,), CANDIDATES),
    "contrasting": (N_("contrasting groups"), (120,), CANDIDATES),
    "angoff": (N_("Angoff"), (10,), JUDGES),
}
ERROR = N_("borderline regression, {number} candidates: usual error of the pass mark (root mean square, marks)")
STUDY = Study(
    "cut-scores",
    N_("Intervals of pass marks"),
    once,
    (
        *(
            Measure(f"{key}/{n}", "share", HOLDS, 0.93, 0.97, {"method": words, "number": n, "whom": whom})
            for key, (words, numbers, whom) in METHODS.items()
            for n in numbers
        ),
        Measure("regression error/30", "size", ERROR, 0.0, 1.2, {"number": 30}),
        Measure("regression error/60", "size", ERROR, 0.0, 0.85, {"number": 60}),
    ),
    1000,
)
