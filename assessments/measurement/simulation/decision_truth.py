"""Are the estimates of decision consistency what two parallel exams would show?

True shares are drawn, so the truth is a plain mean over many of them: of both passing or both failing, and of the
result being right (Livingston & Lewis 1995, J Educ Meas 32: 179-197, define both).
"""

from dataclasses import astuple

import numpy as np
from scipy.special import bdtrc, ndtr

from assessments.measurement.huynh import huynh, kr21
from assessments.measurement.livingston_lewis import livingston_lewis
from assessments.measurement.peng_subkoviak import from_scores
from assessments.measurement.rudner import rudner
from assessments.measurement.simulation.study import Drawn, Measure, Study
from assessments.measurement.true_scores import Decisions
from curriculum.faults import N_

CANDIDATES, TASKS, CUT = 200, 40, 24
A, B, LEAST, MOST = 3.0, 2.5, 0.2, 0.95
SPREAD, ERROR, MEASURE_CUT = 1.0, 0.4, -0.3
MANY = 200_000


def _exams() -> tuple[float, float]:
    """Consistency and accuracy of an exam of 40 tasks, the truth by a fine grid of the beta distribution."""
    grid = (np.arange(MANY) + 0.5) / MANY
    weight = grid ** (A - 1) * (1 - grid) ** (B - 1)
    share = LEAST + (MOST - LEAST) * grid
    passing = bdtrc(CUT - 1, TASKS, share)
    right = np.where(share >= CUT / TASKS, passing, 1 - passing)
    return tuple(float(np.average(value, weights=weight)) for value in (passing**2 + (1 - passing) ** 2, right))


def _measures() -> tuple[float, float]:
    grid = np.linspace(-6, 6, 40_001)
    weight = np.exp(-(grid**2) / 2)
    passing = ndtr((SPREAD * grid - MEASURE_CUT) / ERROR)
    right = np.where(SPREAD * grid >= MEASURE_CUT, passing, 1 - passing)
    return tuple(float(np.average(value, weights=weight)) for value in (passing**2 + (1 - passing) ** 2, right))


EXAM, MEASURED = _exams(), _measures()


def once(chance: np.random.Generator) -> Drawn:
    share = LEAST + (MOST - LEAST) * chance.beta(A, B, CANDIDATES)
    scores = chance.binomial(TASKS, share).astype(float)
    reliability = kr21(scores, TASKS)
    found = _compared("livingston-lewis", livingston_lewis(scores, CUT, TASKS, reliability), EXAM)
    found |= _compared("huynh", huynh(scores, CUT, TASKS, None), EXAM)
    found |= _compared("normal", from_scores(scores, CUT, reliability), EXAM)
    measures = SPREAD * chance.standard_normal(CANDIDATES) + ERROR * chance.standard_normal(CANDIDATES)
    return found | _compared("rudner", rudner(measures, np.full(CANDIDATES, ERROR), MEASURE_CUT), MEASURED)


def _compared(name: str, decided: Decisions, truth: tuple[float, float]) -> dict[str, np.ndarray]:
    agreement, _, accuracy, *_ = astuple(decided)
    away = {"agreement": agreement - truth[0], "accuracy": accuracy - truth[1], "usual": agreement - truth[0]}
    return {f"{name}/{key}": np.array([value]) for key, value in away.items()}


NAMES = {
    "livingston-lewis": N_("four-parameter beta (Livingston & Lewis)"),
    "huynh": N_("beta-binomial (Huynh)"),
    "normal": N_("normal approximation (Peng & Subkoviak)"),
    "rudner": N_("from measures and their errors (Rudner)"),
}
AGREEMENT = N_("{method}: error of consistency on average")
ACCURACY = N_("{method}: error of accuracy on average")
USUAL = N_("{method}: usual error of consistency (root mean square)")


def _rows() -> tuple[Measure, ...]:
    found = []
    for name, words in NAMES.items():
        found.append(Measure(f"{name}/agreement", "mean", AGREEMENT, -0.01, 0.01, {"method": words}))
        if name != "normal":
            found.append(Measure(f"{name}/accuracy", "mean", ACCURACY, -0.01, 0.01, {"method": words}))
        found.append(Measure(f"{name}/usual", "size", USUAL, 0.0, 0.03, {"method": words}))
    return tuple(found)


STUDY = Study("consistency", N_("Decision consistency, 200 candidates"), once, _rows(), 1000)
