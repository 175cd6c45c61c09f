"""Marginal maximum likelihood: candidates of each group are normal about a mean of their own, with one spread.

Bock & Aitkin (1981, Psychometrika 46: 443-459) for the likelihood; Louis (1982, JRSS B 44: 226-233) for the
observed information, with which Newton's method works on the likelihood itself. Nodes are equally spaced, and as
close as the best-measured candidate asks (trapezoid rule: its error falls as exp(-2 pi^2 se^2 / h^2)).
"""

from dataclasses import dataclass

import numpy as np
from scipy.linalg import LinAlgError, cho_factor, cho_solve
from scipy.sparse import csr_matrix

from assessments.measurement.rasch.design import RaschDesign
from assessments.measurement.rasch.probabilities import (
    spread_over_parameters,
    thresholds,
)

FEWEST_NODES, MOST_NODES = 41, 401
REACH = 6.5
MOST_ROUNDS = 60
MOST_GRIDS = 8
CLOSE = 1e-9
SEEN = 1e-10
LEAST_SIGMA = 0.02


@dataclass(frozen=True, slots=True)
class Start:
    """Where to begin: parameters (full,), a mean for each group, sigma, and the smallest standard error."""

    full: np.ndarray
    means: np.ndarray
    sigma: float
    least_error: float


@dataclass(frozen=True, slots=True)
class MarginalFit:
    """Parameters and covariance (full, full), means (groups,) with errors, sigma with its error."""

    full: np.ndarray
    covariance: np.ndarray
    means: np.ndarray
    mean_errors: np.ndarray
    sigma: float
    sigma_error: float
    log_likelihood: float
    parameters: int
    nodes: int


class _Problem:
    def __init__(self, design: RaschDesign, group: np.ndarray, nodes: np.ndarray):
        cells = len(design.elements)
        self.design, self.group, self.nodes = design, group, nodes
        self.groups = int(group.max()) + 1
        ones = np.ones(len(design.cell))
        self.counts = csr_matrix((ones, (design.candidate, design.cell)), (len(design.candidates), cells))
        self.counts_by_cell = self.counts.T.tocsr()
        self.raw, self.observed, self.prior = (
            design.raw(),
            design.observed(),
            design.prior(),
        )
        steps = design.element_count + design.group[:, None] * design.steps + np.arange(design.steps)
        self.columns = np.hstack([design.elements, steps])

    def split(self, free: np.ndarray) -> tuple[np.ndarray, np.ndarray, float]:
        size = self.design.contrast.shape[1]
        return (
            self.design.contrast @ free[:size],
            free[size:-1],
            float(np.exp(free[-1])),
        )

    def expectations(self, free: np.ndarray) -> tuple[float, np.ndarray, np.ndarray]:
        """Penalised log-likelihood, each candidate's weights on the nodes, and log-partition's parts."""
        full, means, sigma = self.split(free)
        psi = thresholds(self.design, full)
        constant = np.bincount(
            self.design.candidate,
            psi[self.design.cell, self.design.category],
            len(self.raw),
        )
        weights = np.exp(psi[:, None, :] + self.nodes[:, None] * np.arange(psi.shape[1]))
        total = weights.sum(axis=2)
        weights /= total[:, :, None]
        reach = [weights[:, :, step:].sum(axis=2) for step in range(1, psi.shape[1])]
        apart = (self.nodes - means[self.group][:, None]) / sigma
        log = self.raw[:, None] * self.nodes + constant[:, None] - self.counts @ np.log(total) - 0.5 * apart**2
        top = log.max(axis=1, keepdims=True)
        posterior = np.exp(log - top)
        mass = posterior.sum(axis=1, keepdims=True)
        spacing = (self.nodes[1] - self.nodes[0]) / (sigma * np.sqrt(2 * np.pi))
        value = float(np.sum(top + np.log(mass * spacing))) - 0.5 * float(self.prior @ full**2)
        return value, posterior / mass, reach

    def newton(self, free: np.ndarray, posterior: np.ndarray, reach: list[np.ndarray]):
        """Gradient, and the observed information by Louis's identity."""
        full, means, sigma = self.split(free)
        design, contrast = self.design, self.design.contrast
        expected = self.counts_by_cell @ posterior
        apart = self.nodes - means[self.group][:, None]
        first, second = (
            np.sum(posterior * apart, axis=1),
            np.sum(posterior * apart**2, axis=1),
        )
        by_group = np.bincount(self.group, first, self.groups)
        reached = np.column_stack([np.sum(expected * part, axis=1) for part in reach])
        of_full = contrast.T @ (self.observed + design.gather(reached) - self.prior * full)
        gradient = np.concatenate([of_full, by_group / sigma**2, [np.sum(second) / sigma**2 - len(self.raw)]])
        size = len(of_full)
        info = np.zeros((len(free), len(free)))
        covariance = np.empty((len(expected), design.steps, design.steps))
        for one in range(design.steps):
            for other in range(one, design.steps):
                part = np.sum(expected * (reach[other] - reach[one] * reach[other]), axis=1)
                covariance[:, one, other] = covariance[:, other, one] = part
        info[:size, :size] = contrast.T @ (spread_over_parameters(design, covariance) + np.diag(self.prior)) @ contrast
        place = np.arange(size, size + self.groups)
        info[place, place] = np.bincount(self.group, minlength=self.groups) / sigma**2
        info[place, -1] = info[-1, place] = 2 * by_group / sigma**2
        info[-1, -1] = 2 * np.sum(second) / sigma**2
        return gradient, info - self._missing(posterior, reach, apart, sigma), info

    def _missing(self, posterior, reach, apart, sigma) -> np.ndarray:
        size, people = self.design.contrast.shape[1], len(self.raw)
        width = size + self.groups + 1
        mean = np.zeros((people, width))
        square = np.zeros((width, width))
        full_size, cells = self.design.contrast.shape[0], len(self.design.elements)
        pointer = np.arange(0, self.columns.size + 1, self.columns.shape[1])
        facets = len(self.design.facets)
        data = np.empty(self.columns.shape)
        for node in range(len(self.nodes)):
            rows = np.flatnonzero(posterior[:, node] > SEEN)
            if not len(rows):
                continue
            data[:, facets:] = np.column_stack([part[:, node] for part in reach])
            data[:, :facets] = data[:, facets:].sum(axis=1)[:, None]
            table = csr_matrix((data.ravel(), self.columns.ravel(), pointer), (cells, full_size))
            score = np.zeros((len(rows), width))
            score[:, :size] = (self.counts[rows] @ table).toarray() @ self.design.contrast
            score[np.arange(len(rows)), size + self.group[rows]] = apart[rows, node] / sigma**2
            score[:, -1] = apart[rows, node] ** 2 / sigma**2
            weight = posterior[rows, node][:, None]
            mean[rows] += weight * score
            score *= np.sqrt(weight)
            square += score.T @ score
        return square - mean.T @ mean


def marginal_fit(design: RaschDesign, group: np.ndarray, start: Start) -> MarginalFit:
    """Fit; `group` (candidates,) integers from 0. The covariance is the inverse observed information."""
    free = np.concatenate([_free(design, start.full), start.means, [np.log(max(start.sigma, 0.1))]])
    for _ in range(MOST_GRIDS):
        problem = _Problem(design, group, _nodes(start, free))
        free, info, value = _climb(problem, free)
        if _fine(problem.nodes, _nodes(start, free)):
            break
    inverse = np.linalg.pinv(info)
    full, means, sigma = problem.split(free)
    size = design.contrast.shape[1]
    covariance = design.contrast @ inverse[:size, :size] @ design.contrast.T
    errors = np.sqrt(np.maximum(np.diag(inverse), 0))
    value += 0.5 * float(problem.prior @ full**2)
    return MarginalFit(
        full,
        covariance,
        means,
        errors[size:-1],
        sigma,
        float(errors[-1] * sigma),
        value,
        len(free),
        len(problem.nodes),
    )


def _free(design: RaschDesign, full: np.ndarray) -> np.ndarray:
    return np.linalg.lstsq(design.contrast, full, rcond=None)[0]


def _nodes(start: Start, free: np.ndarray) -> np.ndarray:
    sigma = max(float(np.exp(free[-1])), LEAST_SIGMA)
    means = free[-1 - len(start.means) : -1]
    low, high = means.min() - REACH * sigma, means.max() + REACH * sigma
    finest = 1 / np.sqrt(1 / start.least_error**2 + 1 / sigma**2)
    number = int(np.clip(np.ceil((high - low) / (0.95 * finest)), FEWEST_NODES, MOST_NODES))
    return np.linspace(low, high, number)


def _fine(used: np.ndarray, wanted: np.ndarray) -> bool:
    """Do the nodes reach nearly as far, and lie nearly as close, as the answer asks?"""
    far = used[-1] - used[0] > 0.85 * (wanted[-1] - wanted[0])
    return far and used[1] - used[0] < 1.15 * (wanted[1] - wanted[0])


def _climb(problem: _Problem, free: np.ndarray) -> tuple[np.ndarray, np.ndarray, float]:
    value, posterior, reach = problem.expectations(free)
    info = np.eye(len(free))
    for _ in range(MOST_ROUNDS):
        gradient, info, complete = problem.newton(free, posterior, reach)
        if not (np.isfinite(gradient).all() and np.isfinite(info).all()):
            raise LinAlgError("the marginal likelihood has no maximum")
        move = _solve(info, complete, gradient)
        if gradient @ move < CLOSE:
            break
        move *= min(1.0, 1.0 / np.abs(move).max())
        for _ in range(30):
            trial = free + move
            trial[-1] = max(trial[-1], np.log(LEAST_SIGMA))
            found = problem.expectations(trial)
            if found[0] >= value - 1e-10 * abs(value):
                break
            move = move / 2
        stalled = found[0] - value < 1e-9 and trial[-1] <= np.log(LEAST_SIGMA)
        free, (value, posterior, reach) = trial, found
        if stalled:
            break
    return free, info, value


def _solve(info: np.ndarray, complete: np.ndarray, gradient: np.ndarray) -> np.ndarray:
    for matrix in (info, complete):
        try:
            return cho_solve(cho_factor(matrix), gradient)
        except LinAlgError:
            continue
    return gradient / np.abs(np.diag(complete)).max()
