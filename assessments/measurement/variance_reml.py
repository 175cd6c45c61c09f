"""Variance components by restricted maximum likelihood, for any design, never negative.

Average-information updates (Gilmour, Thompson & Cullis 1995, Biometrics 51: 1440-1450) of the likelihood of
Patterson & Thompson (1971, Biometrika 58: 545-554). Effects that hold the object make one block a candidate;
all others, and the mean, are joined by Woodbury's identity, so that no matrix of all scores is ever made.
"""

from dataclasses import dataclass

import numpy as np
from scipy.linalg import cho_factor, cho_solve

from assessments.measurement.variance_design import OBJECT, VarianceDesign

MOST_ROUNDS = 200
CLOSE = 1e-10


@dataclass(frozen=True, slots=True)
class _Step:
    likelihood: float
    gradient: np.ndarray
    information: np.ndarray


def restricted_components(design: VarianceDesign, start: np.ndarray) -> tuple[np.ndarray, float]:
    """Components (effects,) and the restricted log-likelihood. `start` (effects,), any sign."""
    spread = float(np.var(design.scores))
    if spread == 0:
        return np.zeros(len(design.effects)), np.nan
    blocks = _blocks(design)
    now = np.maximum(start, 0.02 * spread)
    step = _step(design, blocks, now)
    for _ in range(MOST_ROUNDS):
        move = _move(now, step)
        better = np.max(np.abs(move)) >= CLOSE * spread
        if better:
            now, step, better = _forward(design, blocks, now, move, step)
        if not better:
            now, step, better = _to_nought(design, blocks, now, step)
        if not better:
            break
    return now, step.likelihood


def _to_nought(design, blocks, now, step):
    """Drop the component that the likelihood gains most by dropping; Newton's steps may not find that by themselves."""
    worth = np.where(now[:-1] > 0, step.gradient[:-1] * now[:-1], 0)
    for place in np.flatnonzero(worth < -1e-9):
        trial = now.copy()
        trial[place] = 0
        found = _step(design, blocks, trial)
        if found.likelihood > step.likelihood:
            return trial, found, True
    return now, step, False


def _move(now: np.ndarray, step: _Step) -> np.ndarray:
    free = (now > 0) | (step.gradient > 0)
    move = np.zeros_like(now)
    while free.any():
        info = step.information[np.ix_(free, free)]
        move[:] = 0
        move[free] = np.linalg.lstsq(info, step.gradient[free], rcond=1e-12)[0]
        stuck = free & (now == 0) & (move < 0)
        if not stuck.any():
            break
        free &= ~stuck
    least = -now
    least[-1] *= 0.9
    return np.maximum(move, least)


def _forward(design, blocks, now, move, step):
    for _ in range(40):
        trial = now + move
        trial[trial < 1e-9 * trial.sum()] = 0
        if trial[-1] > 0:
            found = _step(design, blocks, trial)
            if found.likelihood >= step.likelihood - 1e-12 * abs(step.likelihood):
                return trial, found, True
        move = move / 2
    return now, step, False


def _blocks(design: VarianceDesign) -> list[np.ndarray]:
    codes = next(effect for effect in design.effects if OBJECT in effect.factors).codes
    order = np.argsort(codes, kind="stable")
    return np.split(order, np.flatnonzero(np.diff(codes[order])) + 1)


def _step(design: VarianceDesign, blocks: list[np.ndarray], now: np.ndarray) -> _Step:
    y = design.scores - design.scores.mean()
    n = len(y)
    joined = [place for place, effect in enumerate(design.effects[:-1]) if not effect.of_object]
    u = _joined_columns(design, joined)
    wu, wy, log_det, traces = _candidate_blocks(design, blocks, now, u, y)
    scale = np.concatenate(
        [
            [1.0],
            *(np.full(design.effects[place].levels, now[place] ** 0.5) for place in joined),
        ]
    )
    uwu = u.T @ wu
    system = scale[:, None] * uwu * scale
    system[np.diag_indices_from(system)] += np.concatenate([[0.0], np.ones(len(scale) - 1)])
    factor = cho_factor(system, lower=True)
    log_det += 2 * np.sum(np.log(np.diag(factor[0])))
    inner = scale[:, None] * cho_solve(factor, np.diag(scale))
    py = wy - wu @ (inner @ (u.T @ wy))
    worked, gradient = [], np.empty(len(now))
    for place, effect in enumerate(design.effects):
        part = wu if place == len(now) - 1 else _totals(effect.codes, effect.levels, wu)
        first = traces[place] if place not in joined else float(np.trace(_own(part, u, effect, design, joined, place)))
        trace = first - float(np.sum((part @ inner) * part))
        mine = py if place == len(now) - 1 else np.bincount(effect.codes, py, effect.levels)[effect.codes]
        worked.append(mine)
        gradient[place] = -0.5 * (trace - py @ mine)
    information = _average_information(design, blocks, now, u, wu, inner, worked)
    return _Step(-0.5 * (log_det + y @ py + (n - 1) * np.log(2 * np.pi)), gradient, information)


def _joined_columns(design: VarianceDesign, joined: list[int]) -> np.ndarray:
    columns = [np.ones((len(design.scores), 1))]
    columns += [np.eye(design.effects[place].levels)[design.effects[place].codes] for place in joined]
    return np.hstack(columns)


def _own(part, u, effect, design, joined, place) -> np.ndarray:
    start = 1 + sum(design.effects[other].levels for other in joined if other < place)
    return part[:, start : start + effect.levels]


def _totals(codes: np.ndarray, levels: int, values: np.ndarray) -> np.ndarray:
    order = np.argsort(codes, kind="stable")
    starts = np.searchsorted(codes[order], np.arange(levels))
    return np.add.reduceat(values[order], starts, axis=0)


def _inverse(design: VarianceDesign, rows: np.ndarray, now: np.ndarray) -> tuple[np.ndarray, list[np.ndarray]]:
    same = []
    block = now[-1] * np.eye(len(rows))
    for place, effect in enumerate(design.effects[:-1]):
        if effect.of_object:
            alike = effect.codes[rows][:, None] == effect.codes[rows]
            block += now[place] * alike
            same.append((place, alike))
    return block, same


def _candidate_blocks(design, blocks, now, u, y):
    wu, wy = np.empty_like(u), np.empty_like(y)
    traces = np.zeros(len(now))
    log_det = 0.0
    for rows in blocks:
        block, same = _inverse(design, rows, now)
        factor = cho_factor(block, lower=True)
        log_det += 2 * np.sum(np.log(np.diag(factor[0])))
        weight = cho_solve(factor, np.eye(len(rows)))
        wu[rows], wy[rows] = weight @ u[rows], weight @ y[rows]
        for place, alike in same:
            traces[place] += weight[alike].sum()
        traces[-1] += np.trace(weight)
    return wu, wy, log_det, traces


def _average_information(design, blocks, now, u, wu, inner, worked) -> np.ndarray:
    right = np.column_stack(worked)
    weighted = np.empty_like(right)
    for rows in blocks:
        weighted[rows] = np.linalg.solve(_inverse(design, rows, now)[0], right[rows])
    return 0.5 * (right.T @ (weighted - wu @ (inner @ (u.T @ weighted))))
