"""Category probabilities, moments."""

from dataclasses import dataclass

import numpy as np

from assessments.measurement.rasch.design import RaschDesign


@dataclass(frozen=True, slots=True)
class Moments:
    """Of each rating (n,): mean, variance, third and fourth central moments of its category."""

    mean: np.ndarray
    variance: np.ndarray
    third: np.ndarray
    fourth: np.ndarray


def thresholds(design: RaschDesign, full: np.ndarray) -> np.ndarray:
    """psi (cells, K + 1): the part of a category's log-weight that is not category times ability; -inf if unused."""
    steps = design.step_table(full)[design.group]
    psi = np.zeros((len(design.elements), design.steps + 1))
    psi[:, 1:] = -np.cumsum(steps + design.location(full)[:, None], axis=1)
    psi[np.arange(design.steps + 1) > design.top[design.group][:, None]] = -np.inf
    return psi


def probabilities(psi: np.ndarray, ability: np.ndarray) -> np.ndarray:
    """P (n, K + 1) from psi (n, K + 1) and ability (n,)."""
    weight = psi + ability[:, None] * np.arange(psi.shape[1])
    weight -= weight.max(axis=1, keepdims=True)
    np.exp(weight, out=weight)
    weight /= weight.sum(axis=1, keepdims=True)
    return weight


def reached(chances: np.ndarray) -> np.ndarray:
    """P(X >= h), h = 1..K, from P(X = k); (n, K)."""
    return np.cumsum(chances[:, :0:-1], axis=1)[:, ::-1]


def moments(chances: np.ndarray) -> Moments:
    """Central moments of the category."""
    k = np.arange(chances.shape[1])
    raw = [chances @ k.astype(float) ** power for power in (1, 2, 3, 4)]
    mean = raw[0]
    variance = raw[1] - mean**2
    third = raw[2] - 3 * mean * raw[1] + 2 * mean**3
    fourth = raw[3] - 4 * mean * raw[2] + 6 * mean**2 * raw[1] - 3 * mean**4
    return Moments(mean, variance, third, fourth)


def spread_over_parameters(design: RaschDesign, covariance: np.ndarray) -> np.ndarray:
    """Information (full, full) from a covariance of steps summed in every cell (cells, K, K)."""
    size, count, k = design.contrast.shape[0], design.element_count, design.steps
    info = np.zeros((size, size))
    once = covariance.sum(axis=2)
    whole = once.sum(axis=1)
    for one in design.elements.T:
        for other in design.elements.T:
            info[:count, :count] += np.bincount(one * count + other, whole, count * count).reshape(count, count)
        cross = np.zeros((count, len(design.groups), k))
        np.add.at(cross, (one, design.group), once)
        info[:count, count:] += cross.reshape(count, -1)
    info[count:, :count] = info[:count, count:].T
    for group in range(len(design.groups)):
        own = slice(count + group * k, count + (group + 1) * k)
        info[own, own] = covariance[design.group == group].sum(axis=0)
    return info
