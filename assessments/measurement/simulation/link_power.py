"""Does the test of connectedness find plans that fall apart, and only those; does it say when a link is weak?

The second opinion is the rank of the whole table of candidates and elements (Searle 1971, Linear Models, 7.4).
"""

import numpy as np

from assessments.measurement.rasch.analysis import fitted, weakest_link
from assessments.measurement.rasch.connectedness import connection
from assessments.measurement.rasch.design import RaschDesign
from assessments.measurement.rasch.report import WEAK_LINK
from assessments.measurement.simulation.drawn_ratings import (
    RatingPlan,
    category_chances,
    draw_ratings,
    even_truth,
    plan_of_pairs,
    rated,
)
from assessments.measurement.simulation.study import Drawn, Measure, Study
from curriculum.faults import N_, RefusedError

CANDIDATES, TEAM, EXERCISES, CRITERIA = 60, 3, 2, 3
STEPS = [[-1.2, 0.1, 1.1]]


def once(chance: np.random.Generator) -> Drawn:
    truth = even_truth(2 * TEAM, EXERCISES, CRITERIA, STEPS)
    ability = chance.normal(0, 1.2, CANDIDATES)
    found: dict[str, np.ndarray] = {}
    for shared in (0, 1, 15):
        plan = plan_of_pairs(_teams(shared, chance), EXERCISES, CRITERIA)
        design = rated(plan, draw_ratings(category_chances(plan, ability, truth), chance))
        joined = connection(design).connected
        found[f"joined/{shared}"] = np.array([joined == (shared > 0)])
        if joined:
            found[f"weak/{shared}"] = np.array([_is_told(design)])
    sparse = _sparse(chance)
    found["rank"] = np.array([connection(sparse).extra_dimensions == _missing_rank(sparse)])
    found["sparse"] = np.array([not connection(sparse).connected])
    return found


def _is_told(design: RaschDesign) -> bool:
    """Is the link said to be weak? A refusal says it too: the one who is shared may reach nothing but the bottom."""
    try:
        fit = fitted(design, np.zeros(CANDIDATES, np.int64), "joint", 0)
    except RefusedError:
        return True
    return weakest_link(design, fit, 0).error > WEAK_LINK


def _teams(shared: int, chance: np.random.Generator) -> np.ndarray:
    """Pairs within two teams of three; `shared` candidates are seen by one examiner of each."""
    pairs = np.array([chance.choice(TEAM, 2, replace=False) + TEAM * (place % 2) for place in range(CANDIDATES)])
    for place in range(shared):
        pairs[place] = chance.integers(TEAM), TEAM + chance.integers(TEAM)
    return pairs


def _sparse(chance: np.random.Generator) -> RaschDesign:
    """Nine candidates, each seen by chance on two of eight exercises by one of four pairs of examiners."""
    pairs = np.arange(8).reshape(4, 2)[chance.integers(0, 4, 9)]
    exercises = np.array([chance.choice(8, 2, replace=False) for _ in range(9)])
    candidate, place, turn = (part.ravel() for part in np.indices((9, 2, 2)))
    swapped = np.where(chance.random(9) < 0.4, chance.integers(0, 8, 9), pairs[:, 1])
    pairs[:, 1] = np.where(swapped == pairs[:, 0], pairs[:, 1], swapped)
    codes = (pairs[candidate, place], exercises[candidate, turn])
    examiner, exercise = (np.unique(code, return_inverse=True)[1] for code in codes)
    return rated(RatingPlan(candidate, examiner, exercise, np.zeros_like(candidate)), np.arange(len(candidate)) % 4)


def _missing_rank(design: RaschDesign) -> int:
    people, width = len(design.candidates), design.element_count
    table = np.zeros((len(design.cell), people + width))
    table[np.arange(len(table)), design.candidate] = 1
    for column in design.elements[design.cell].T:
        table[np.arange(len(table)), people + column] = 1
    return people + width - int(np.linalg.matrix_rank(table)) - len(design.facets)


STUDY = Study(
    "links",
    N_("The test of connectedness: two teams of three examiners, 60 candidates"),
    once,
    (
        Measure("joined/0", "share", N_("teams that share nobody: found to fall apart"), 1.0, 1.0),
        Measure("joined/1", "share", N_("teams that share one candidate: found to hold together"), 1.0, 1.0),
        Measure("joined/15", "share", N_("teams that share 15 candidates: found to hold together"), 1.0, 1.0),
        Measure("rank", "share", N_("sparse plans by chance: as many islands as the rank of the whole table says"), 1.0, 1.0),
        Measure("sparse", "share", N_("sparse plans by chance: found to fall apart, so that the check has both kinds"), 0.3, 0.95),
        Measure("weak/1", "share", N_("teams that share one candidate: the weak link is told"), 0.95, 1.0),
        Measure("weak/15", "share", N_("teams that share 15 candidates: told as weak by mistake"), 0.0, 0.05),
    ),
    300,
)  # fmt: skip
