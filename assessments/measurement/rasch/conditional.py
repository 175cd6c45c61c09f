"""Conditional maximum likelihood: given each candidate's raw score, so that no ability enters at all.

Andersen (1972, JRSS B 34: 42-54). The chance of a raw score over any set of cells is taken from its characteristic
function at an ability near the candidate's own (it cancels), which is exact and serves every pattern of cells alike.
"""

from dataclasses import dataclass

import numpy as np

from assessments.measurement.rasch.candidates import measures
from assessments.measurement.rasch.design import RaschDesign
from assessments.measurement.rasch.joint import joint_state, reduced_information
from assessments.measurement.rasch.probabilities import probabilities, thresholds

MOST_ROUNDS = 100
CLOSE = 1e-10
# Points of a block, so that what is worked on stays near the processor. No matrix products: their threads wait for one
# another longer than such small ones take.
BLOCK = 20_000
WIDEST = 20.0


@dataclass(frozen=True, slots=True)
class ConditionalFit:
    """Parameters and covariance (full, full), and the conditional log-likelihood."""

    full: np.ndarray
    covariance: np.ndarray
    log_likelihood: float


class _Problem:
    def __init__(self, design: RaschDesign):
        raw, highest = design.raw(), design.highest()
        inside = (raw > 0) & (raw < highest)
        self.design = design
        self.rows = np.flatnonzero(inside[design.candidate])
        self.person = (np.cumsum(inside) - 1)[design.candidate[self.rows]]
        self.inside = inside
        self.observed = design.observed(self.rows)
        self.blocks = _alike(design, inside, raw)
        self.length = len(self.rows) / max(1, inside.sum())

    def evaluate(self, full: np.ndarray) -> tuple[float, np.ndarray]:
        """Log-likelihood and its gradient (free,)."""
        design = self.design
        ability = measures(design, full, weighted=False).estimate
        psi = thresholds(design, full)
        own = probabilities(psi[design.cell[self.rows]], ability[design.candidate[self.rows]])
        value = float(np.log(own[np.arange(len(self.rows)), design.category[self.rows]]).sum())
        expected = np.zeros((len(design.elements), design.steps))
        for cells, scores, people, number in self.blocks:
            value -= _of_block(psi[cells], scores, ability[people], number, cells, expected)
        return value, design.contrast.T @ (self.observed + design.gather(expected))

    def curvature(self, full: np.ndarray) -> np.ndarray:
        ability = measures(self.design, full, weighted=False).estimate[self.inside]
        prior = np.zeros(len(full))
        state = joint_state(self.design, self.rows, self.person, full, ability, prior)[1]
        return reduced_information(self.design, state, prior)[0] * self.length / max(self.length - 1, 1)


def _alike(design: RaschDesign, inside: np.ndarray, raw: np.ndarray):
    """Candidates of the same cells and score once each, in blocks of as many cells (rows, length).

    A block is cells, scores (rows,), one candidate of each, and their numbers.
    """
    order = np.lexsort((design.cell, design.candidate))
    ends = np.cumsum(np.bincount(design.candidate, minlength=len(inside)))
    found: dict[int, dict[tuple[bytes, int], list[int]]] = {}
    for person in np.flatnonzero(inside):
        cells = design.cell[order[(ends[person - 1] if person else 0) : ends[person]]]
        found.setdefault(len(cells), {}).setdefault((cells.tobytes(), int(raw[person])), []).append(int(person))
    blocks = []
    for length, own in found.items():
        cells = np.frombuffer(b"".join(key for key, _ in own), design.cell.dtype).reshape(-1, length)
        scores, number = np.array([score for _, score in own]), np.array([len(those) for those in own.values()], float)
        people, each = np.array([those[0] for those in own.values()]), max(1, BLOCK // (length * 64))
        for start in range(0, len(scores), each):
            part = slice(start, start + each)
            blocks.append((cells[part], scores[part], people[part], number[part]))
    return blocks


def _of_block(psi, scores, ability, number, cells, expected) -> float:
    """Log-chance of these scores; what is expected of each cell's steps is added to `expected` (cells, K)."""
    people, length, width = psi.shape
    flat = probabilities(psi.reshape(-1, width), np.repeat(ability, length))
    k = np.arange(width)
    variance = ((flat @ k**2) - (flat @ k) ** 2).reshape(people, length).sum(axis=1)
    points = min(length * (width - 1) + 1, int(20 * np.sqrt(variance.max())) + 32)
    step = int(np.lcm(4, width))
    points = -(-points // step) * step
    angle = 2 * np.pi * (np.arange(points // 2) + 0.5) / points
    turn = np.exp(1j * np.outer(k, angle))
    each = sum(flat[:, place, None] * one for place, one in enumerate(turn)).reshape(people, length, -1)
    whole = np.prod(each, axis=1) * np.exp(-1j * np.outer(scores, angle))
    chance = whole.real.sum(axis=1)
    share = number / chance
    ratio = (whole[:, None, :] / each).reshape(people * length, -1)
    given = flat * np.stack([(ratio * one).real.sum(axis=1) for one in turn], axis=1)
    reached = np.cumsum(given[:, :0:-1], axis=1)[:, ::-1] * np.repeat(share, length)[:, None]
    for column in range(width - 1):
        expected[:, column] += np.bincount(cells.ravel(), reached[:, column], len(expected))
    return float(number @ np.log(chance * 2 / points))


def conditional_fit(design: RaschDesign, start: np.ndarray) -> ConditionalFit:
    """Fit from `start` (full,); all-top and all-bottom candidates say nothing and are left out."""
    problem = _Problem(design)
    if _extreme(design, problem.rows):
        raise np.linalg.LinAlgError("the conditional likelihood has no maximum")
    free = np.linalg.lstsq(design.contrast, start, rcond=None)[0]
    value, gradient = problem.evaluate(design.contrast @ free)
    info = problem.curvature(design.contrast @ free)
    for _ in range(MOST_ROUNDS):
        move = np.linalg.solve(info, gradient)
        if gradient @ move < CLOSE:
            break
        for _ in range(30):
            found, slope = problem.evaluate(design.contrast @ (free + move))
            if found >= value - 1e-11 * abs(value):
                break
            move = move / 2
        free, value, gradient = free + move, found, slope
    inverse = np.linalg.inv(_information(problem, free))
    if not (np.diag(inverse) < WIDEST**2).all() or (np.diag(inverse) <= 0).any():
        raise np.linalg.LinAlgError("the conditional likelihood has no maximum")
    return ConditionalFit(design.contrast @ free, design.contrast @ inverse @ design.contrast.T, value)


def _extreme(design: RaschDesign, rows: np.ndarray) -> bool:
    """Has some element nothing but bottom or top ratings from the candidates that count?"""
    cell = design.cell[rows]
    for column in design.elements.T:
        got = np.bincount(column[cell], design.category[rows], design.element_count)[np.unique(column)]
        most = np.bincount(column[cell], design.top[design.group[cell]], design.element_count)[np.unique(column)]
        if ((got == 0) | (got == most)).any():
            return True
    return False


def _information(problem: _Problem, free: np.ndarray) -> np.ndarray:
    """Observed information by central differences of the gradient."""
    size, step = len(free), 1e-4
    info = np.empty((size, size))
    for place in range(size):
        away = np.zeros(size)
        away[place] = step
        ahead = problem.evaluate(problem.design.contrast @ (free + away))[1]
        behind = problem.evaluate(problem.design.contrast @ (free - away))[1]
        info[place] = (behind - ahead) / (2 * step)
    return (info + info.T) / 2
