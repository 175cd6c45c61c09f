"""What one extra term would come to, with everything else free to give way: a step of Newton's method from the fit.

Rao (1948, Proc Camb Phil Soc 44: 50-57), the score test: slope of the joint likelihood along the term over the
information left when candidates, elements and steps have taken their part. A screen that holds them fixed finds
terms too small, because the candidates' measures have taken in part of what it looks for.

Joint estimates are stretched by L / (L - 1), L ratings a candidate, and so is the variance of the slope over its
information (Neyman & Scott 1948, Econometrica 16: 1-32); both are taken back here.
"""

import numpy as np

from assessments.measurement.rasch.design import RaschDesign
from assessments.measurement.rasch.joint import JointFit, joint_state, reduced_information, with_steps
from assessments.measurement.rasch.probabilities import moments, reached

LEAST_SHARE = 1e-6


def one_step(
    design: RaschDesign, joint: JointFit, term: np.ndarray, terms: int, worth: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Extra severity (terms,) a unit of `worth` (n,) for the ratings of each `term` (n,), and its error.

    Each term is taken alone. nan where the ratings leave nothing to tell the term by.
    """
    prior = design.prior()
    inside = np.isfinite(joint.ability)
    rows = np.flatnonzero(inside[design.candidate])
    person = (np.cumsum(inside) - 1)[design.candidate[rows]]
    state = joint_state(design, rows, person, joint.full, joint.ability[inside], prior)[1]
    system, met, total, _ = reduced_information(design, state, prior)
    chances, people, cell = state[2], state[3], design.cell[rows]
    found = moments(chances)
    term, worth = term[rows], worth[rows]
    slope = -np.bincount(term, worth * (design.category[rows] - found.mean), terms)
    with_people = _spread(person, people, term, terms, worth * found.variance)
    with_free = design.contrast.T @ _with_parameters(design, cell, term, terms, worth, chances, found.variance)
    with_free -= met.T @ (with_people / total[:, None])
    own = np.bincount(term, worth**2 * found.variance, terms)
    left = own - np.sum(with_people**2 / total[:, None], axis=0)
    left -= np.sum(with_free * np.linalg.solve(system, with_free), axis=0)
    left = np.where(left > LEAST_SHARE * np.maximum(own, 1e-12), left, np.nan)
    return slope / left * joint.shrink, np.sqrt(joint.shrink / left)


def _with_parameters(design: RaschDesign, cell, term, terms: int, worth, chances, variance) -> np.ndarray:
    """Information shared by each parameter (full,) and each term."""
    count, k = design.element_count, design.steps
    shared = np.zeros((design.contrast.shape[0], terms))
    for column in design.elements.T:
        shared[:count] += _spread(column[cell], count, term, terms, worth * variance)
    once = with_steps(reached(chances))
    group = design.group[cell]
    for step in range(k):
        shared[count + step :: k] = _spread(group, len(design.groups), term, terms, worth * once[:, step])
    return shared


def _spread(row: np.ndarray, rows: int, column: np.ndarray, columns: int, of: np.ndarray) -> np.ndarray:
    return np.bincount(row * columns + column, of, rows * columns).reshape(rows, columns)
