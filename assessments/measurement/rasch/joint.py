"""Joint maximum likelihood: all parameters at once, the candidates eliminated by a Schur complement.

Estimates are stretched by about L / (L - 1), L ratings a candidate (Wright & Douglas 1977, Appl Psychol Meas 1:
281-295), hence `shrink`.
"""

from dataclasses import dataclass

import numpy as np

from assessments.measurement.rasch.design import RaschDesign
from assessments.measurement.rasch.probabilities import (
    probabilities,
    reached,
    spread_over_parameters,
    thresholds,
)

MOST_ROUNDS = 60
CLOSE = 1e-9
SMALL = 1e-9


@dataclass(frozen=True, slots=True)
class JointFit:
    """`full` (full,) parameters, `covariance` (full, full), `ability` (candidates,) nan for all-top or all-bottom.

    `determined` is False where the candidates that take part do not tell every parameter: only all-top or all-bottom
    ones link two sides. Parameters then say nothing across these.
    """

    full: np.ndarray
    covariance: np.ndarray
    ability: np.ndarray
    log_likelihood: float
    shrink: float
    determined: bool = True


def joint_fit(design: RaschDesign) -> JointFit:
    """Newton's method on the joint likelihood; all-top and all-bottom candidates take no part."""
    raw, highest = design.raw(), design.highest()
    inside = (raw > 0) & (raw < highest)
    if not inside.any():
        raise np.linalg.LinAlgError("every candidate is at the bottom or the top")
    rows = np.flatnonzero(inside[design.candidate])
    person = (np.cumsum(inside) - 1)[design.candidate[rows]]
    prior = design.prior()
    observed = design.observed(rows)
    score = raw[inside]
    ability = np.log(score / (highest[inside] - score))
    free = np.zeros(design.contrast.shape[1])
    value, state = joint_state(design, rows, person, design.contrast @ free, ability, prior)
    for _ in range(MOST_ROUNDS):
        move, move_ability, decrement = _newton(design, state, observed, score, prior, design.contrast @ free)
        size = 1.0
        for _ in range(30):
            trial, trial_ability = free + size * move, ability + size * move_ability
            found, fresh = joint_state(design, rows, person, design.contrast @ trial, trial_ability, prior)
            if found >= value - 1e-9 * abs(value):
                break
            size /= 2
        free, ability, value, state = trial, trial_ability, found, fresh
        if decrement < CLOSE:
            break
    full = design.contrast @ free
    system = reduced_information(design, state, prior)[0]
    determined = _is_determined(system)
    inverse = np.linalg.inv(system) if determined else np.linalg.pinv(system, hermitian=True)
    everyone = np.full(len(design.candidates), np.nan)
    everyone[inside] = ability
    length = len(rows) / inside.sum()
    penalty = 0.5 * float(prior @ full**2)
    return JointFit(
        full,
        design.contrast @ inverse @ design.contrast.T,
        everyone,
        value + penalty,
        1 - 1 / length,
        determined,
    )


def _is_determined(system: np.ndarray) -> bool:
    scale = 1 / np.sqrt(np.maximum(np.diag(system), SMALL))
    return bool(np.linalg.eigvalsh(scale[:, None] * system * scale).min(initial=1.0) > SMALL)


def joint_state(design, rows, person, full, ability, prior):
    psi = thresholds(design, full)[design.cell[rows]]
    chances = probabilities(psi, ability[person])
    value = float(np.log(chances[np.arange(len(rows)), design.category[rows]]).sum())
    return value - 0.5 * float(prior @ full**2), (rows, person, chances, len(ability))


def _pieces(design: RaschDesign, state):
    rows, person, chances, people = state
    cell = design.cell[rows]
    reach = reached(chances)
    size, count, k = design.contrast.shape[0], design.element_count, design.steps
    mean = reach.sum(axis=1)
    once = with_steps(reach)
    variance = once.sum(axis=1)
    met = np.zeros((people, size))
    for column in design.elements.T:
        met[:, :count] += np.bincount(person * count + column[cell], variance, people * count).reshape(people, count)
    base = person * len(design.groups) + design.group[cell]
    groups = len(design.groups)
    for step in range(k):
        met[:, count + step :: k] = np.bincount(base, once[:, step], people * groups).reshape(people, groups)
    return cell, reach, variance, met, mean


def with_steps(reach: np.ndarray) -> np.ndarray:
    """Covariance (n, K) of a rating's category with having reached each step, from P(X >= h) (n, K)."""
    once = np.empty_like(reach)
    mean = reach.sum(axis=1)
    tail = np.cumsum(reach[:, ::-1], axis=1)[:, ::-1]
    for step in range(reach.shape[1]):
        once[:, step] = (step + 1) * reach[:, step] + (tail[:, step] - reach[:, step]) - mean * reach[:, step]
    return once


def _cell_covariance(design: RaschDesign, cell: np.ndarray, reach: np.ndarray) -> np.ndarray:
    k, cells = design.steps, len(design.elements)
    covariance = np.empty((cells, k, k))
    for one in range(k):
        for other in range(one, k):
            value = reach[:, other] - reach[:, one] * reach[:, other]
            covariance[:, one, other] = covariance[:, other, one] = np.bincount(cell, value, cells)
    return covariance


def reduced_information(design, state, prior):
    cell, reach, variance, met, mean = _pieces(design, state)
    total = np.bincount(state[1], variance, state[3])
    info = spread_over_parameters(design, _cell_covariance(design, cell, reach)) + np.diag(prior)
    met = met @ design.contrast
    return (
        design.contrast.T @ info @ design.contrast - met.T @ (met / total[:, None]),
        met,
        total,
        (cell, reach, mean),
    )


def _newton(design, state, observed, score, prior, full):
    system, met, total, (cell, reach, mean) = reduced_information(design, state, prior)
    expected = np.zeros((len(design.elements), design.steps))
    for step in range(design.steps):
        expected[:, step] = np.bincount(cell, reach[:, step], len(design.elements))
    gradient = design.contrast.T @ (observed + design.gather(expected) - prior * full)
    of_ability = score - np.bincount(state[1], mean, state[3])
    right = gradient + met.T @ (of_ability / total)
    try:
        move = np.linalg.solve(system, right)
    except np.linalg.LinAlgError:
        move = np.linalg.lstsq(system, right, rcond=None)[0]
    move_ability = (of_ability + met @ move) / total
    limit = max(1.0, np.abs(move).max(initial=0), np.abs(move_ability).max(initial=0) / 2)
    return (
        move / limit,
        move_ability / limit,
        float(right @ move + of_ability @ (of_ability / total)),
    )
