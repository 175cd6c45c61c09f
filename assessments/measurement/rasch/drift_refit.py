"""A change of one examiner's severity with time, fitted together with everything else by the joint likelihood."""

from dataclasses import replace

import numpy as np

from assessments.measurement.rasch.design import RaschDesign
from assessments.measurement.rasch.joint import JointFit, joint_fit
from assessments.measurement.rasch.probabilities import (
    moments,
    probabilities,
    thresholds,
)

MOST_ROUNDS = 12


def drift_refit(design: RaschDesign, covariate: np.ndarray) -> tuple[float, float, JointFit]:
    """The coefficient of `covariate` (n,) in the location of each rating, its error, and the fit about it.

    Newton's method on the profile likelihood: its slope is that of the joint likelihood at the best of all else.
    """
    key, cell_first, cell = np.unique(
        np.column_stack([design.cell, covariate]),
        axis=0,
        return_index=True,
        return_inverse=True,
    )
    old = design.cell[cell_first]
    finer = replace(
        design,
        cell=cell.ravel(),
        elements=design.elements[old],
        group=design.group[old],
    )
    worth = key[:, 1]
    gamma, step = 0.0, 0.1
    fit, slope = _profile(finer, worth, gamma)
    curve = 1.0
    for _ in range(MOST_ROUNDS):
        ahead, other = _profile(finer, worth, gamma + step)
        curve = max((slope - other) / step, 1e-9)
        gamma, step, fit, slope = (
            gamma + step,
            float(np.clip(other / curve, -1, 1)),
            ahead,
            other,
        )
        if abs(step) < 1e-6:
            break
    return gamma + step, float(1 / np.sqrt(curve)), fit


def _profile(design: RaschDesign, worth: np.ndarray, gamma: float) -> tuple[JointFit, float]:
    moved = replace(design, offset=gamma * worth)
    fit = joint_fit(moved)
    rows = np.flatnonzero(np.isfinite(fit.ability)[design.candidate])
    psi = thresholds(moved, fit.full)[moved.cell[rows]]
    mean = moments(probabilities(psi, fit.ability[moved.candidate[rows]])).mean
    return fit, float(np.sum((mean - moved.category[rows]) * worth[moved.cell[rows]]))
