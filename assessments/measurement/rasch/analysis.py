"""One analysis: the rank test first, then a fit by the estimator asked for, checked against another."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from assessments.measurement.rasch.candidates import Measures, measures
from assessments.measurement.rasch.conditional import conditional_fit
from assessments.measurement.rasch.design import RaschDesign
from assessments.measurement.rasch.joint import JointFit, joint_fit
from assessments.measurement.rasch.marginal import MarginalFit, Start, marginal_fit
from assessments.measurement.statistic import reason
from curriculum.faults import N_, Fault, RefusedError


@dataclass(frozen=True, slots=True)
class Fitted:
    """Parameters (full,) with covariance, and candidates' measures given them.

    `fit_ability` (candidates,) are the measures that fit statistics are taken at. `corrected` (full,) are joint
    estimates times (L - 1) / L, of which `joint` holds the uncorrected ones. `flags` are cautions on the whole.
    """

    estimator: str
    full: np.ndarray
    covariance: np.ndarray
    log_likelihood: float
    found: Measures
    fit_ability: np.ndarray
    likelihood_ability: np.ndarray
    joint: JointFit
    marginal: MarginalFit | None
    flags: tuple[Fault, ...]

    @property
    def corrected(self) -> np.ndarray:
        return self.joint.full * self.joint.shrink

    @property
    def errors(self) -> np.ndarray:
        return np.sqrt(np.maximum(np.diag(self.covariance), 0))


def fitted(design: RaschDesign, group: np.ndarray, estimator: str, judge: int) -> Fitted:
    """Fit a connected design; `group` (candidates,) matters to the marginal likelihood alone.

    `RefusedError` when the ratings do not determine the parameters.
    """
    try:
        return _fitted(design, group, estimator, judge)
    except np.linalg.LinAlgError as error:
        raise RefusedError([UNDETERMINED]) from error


def _fitted(design: RaschDesign, group: np.ndarray, estimator: str, judge: int) -> Fitted:
    joint = joint_fit(design)
    flags = [WEAK_PRIOR] if design.prior().any() and estimator != "conditional" else []
    if design.skipped:
        flags.append(
            reason(
                "unused",
                N_("nobody used {categories}; steps are counted without"),
                categories=", ".join(design.skipped),
            )
        )
    marginal = None
    if estimator == "marginal":
        marginal = marginal_fit(design, group, start_from(design, group, joint))
        full, covariance, value = (
            marginal.full,
            marginal.covariance,
            marginal.log_likelihood,
        )
        if joint.determined and _apart(design, marginal, joint, judge):
            flags.append(UNEVEN)
    elif estimator == "conditional":
        answer = conditional_fit(design, joint.full * joint.shrink)
        full, covariance, value = answer.full, answer.covariance, answer.log_likelihood
    elif not joint.determined:
        raise np.linalg.LinAlgError("the joint likelihood has no maximum")
    else:
        full, covariance, value = joint.full, joint.covariance, joint.log_likelihood
    found = measures(design, full)
    likelihood = measures(design, full, weighted=False).estimate
    ability = likelihood if estimator == "conditional" else found.estimate
    return Fitted(
        estimator,
        full,
        covariance,
        value,
        found,
        ability,
        likelihood,
        joint,
        marginal,
        tuple(flags),
    )


def start_from(design: RaschDesign, group: np.ndarray, joint: JointFit) -> Start:
    """A start for the marginal likelihood from the corrected joint one."""
    full = joint.full * joint.shrink
    found = measures(design, full)
    size = np.bincount(group)
    means = np.bincount(group, found.estimate) / size
    spread = np.mean((found.estimate - means[group]) ** 2) - np.mean(found.error**2)
    return Start(full, means, float(np.sqrt(max(spread, 0.25))), float(found.error.min()))


def _apart(design: RaschDesign, marginal: MarginalFit, joint: JointFit, judge: int) -> bool:
    """Does any contrast of two examiners differ by more than two errors from the corrected joint estimate?"""
    own = design.block(judge)
    away = (marginal.full - joint.full * joint.shrink)[own]
    covariance = marginal.covariance[own, own]
    variance = np.diag(covariance)[:, None] + np.diag(covariance) - 2 * covariance
    return bool((np.abs(away[:, None] - away) > 2 * np.sqrt(np.maximum(variance, 1e-12)) + 1e-3).any())


@dataclass(frozen=True, slots=True)
class WeakLink:
    """The two sides whose mean severities are least well compared, and the error of their difference."""

    sides: tuple[Sequence[str], Sequence[str]]
    error: float


def link_contrast(covariance: np.ndarray) -> np.ndarray:
    """(examiners,) mean severity of the one side less that of the other, along the direction that is known least."""
    ahead = np.linalg.eigh(covariance)[1][:, -1] > 0
    return np.where(ahead, 1 / max(ahead.sum(), 1), -1 / max((~ahead).sum(), 1))


def weakest_link(design: RaschDesign, fit: Fitted, judge: int) -> WeakLink:
    """Split the examiners along the direction of severity that is known least (first eigenvector)."""
    own = design.block(judge)
    covariance, labels = fit.covariance[own, own], design.facets[judge].labels
    contrast = link_contrast(covariance)
    ahead = contrast > 0
    sides = tuple(
        [label for label, side in zip(labels, ahead, strict=True) if side == which] for which in (True, False)
    )
    return WeakLink(sides, float(np.sqrt(contrast @ covariance @ contrast)))


UNDETERMINED = reason(
    "undetermined",
    N_("these ratings do not determine every severity and step; too few candidates lie between bottom and top"),
)
WEAK_PRIOR = reason(
    "weak-prior",
    N_(
        "an element with fewer than 20 ratings, or with none but top or bottom ones, is held near the average (a normal prior with mean 0 and spread 1 logit)"
    ),
)
UNEVEN = reason(
    "uneven",
    N_("candidates were not spread evenly over examiners: severities differ from those that assume nothing about it"),
)
