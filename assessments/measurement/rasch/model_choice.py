"""One set of steps for all, or steps for each criterion: which the ratings speak for, by BIC.

Schwarz (1978, Annals of Statistics 6: 461-464): -2 log-likelihood + parameters x log(candidates); the smaller is
advised. Only marginal likelihoods may be compared so. Steps that few ratings rest on are noise, so steps for each
criterion are advised only where every step of each has ratings enough on both sides.
"""

from dataclasses import dataclass

import numpy as np

from assessments.measurement.rasch.analysis import start_from
from assessments.measurement.rasch.design import RaschDesign
from assessments.measurement.rasch.joint import joint_fit
from assessments.measurement.rasch.marginal import MarginalFit, marginal_fit
from assessments.measurement.statistic import reason
from curriculum.faults import N_, Fault

RATING_SCALE, PARTIAL_CREDIT = "rating-scale", "partial-credit"


@dataclass(frozen=True, slots=True)
class ModelChoice:
    """BIC of both models and the one advised; `why_not` says why nothing is compared."""

    advised: str | None
    rating_scale: float | None
    partial_credit: float | None
    least_in_a_step: int
    why_not: Fault | None = None


def bic(log_likelihood: float, parameters: int, candidates: int) -> float:
    return -2 * log_likelihood + parameters * float(np.log(candidates))


def ratings_in_steps(design: RaschDesign) -> int:
    """The fewest ratings that any step of any group has on one of its sides."""
    owner = design.group[design.cell]
    counts = [np.bincount(design.category[owner == group], minlength=top + 1) for group, top in enumerate(design.top)]
    return int(min(count[: top + 1].min() for count, top in zip(counts, design.top, strict=True)))


def choose(design: RaschDesign, fit: MarginalFit, other: RaschDesign, group: np.ndarray, least: float) -> ModelChoice:
    """`design` with its marginal `fit`, and the same ratings designed with the other steps."""
    credit = design if len(design.groups) > len(other.groups) else other
    fewest = ratings_in_steps(credit)
    if fewest < least:
        why = reason("few-in-a-step", FEW, found=fewest, least=f"{least:g}")
        return ModelChoice(RATING_SCALE, None, None, fewest, why)
    try:
        again = marginal_fit(other, group, start_from(other, group, joint_fit(other)))
    except np.linalg.LinAlgError:
        return ModelChoice(None, None, None, fewest, NO_FIT)
    people = len(design.candidates)
    own = bic(fit.log_likelihood, fit.parameters, people), bic(again.log_likelihood, again.parameters, people)
    scale, partial = own if credit is other else own[::-1]
    return ModelChoice(RATING_SCALE if scale <= partial else PARTIAL_CREDIT, scale, partial, fewest)


FEW = N_("a step rests on {found} ratings; steps for each criterion need {least} at least")
NO_FIT = reason("no-fit", N_("the other model can't be fitted to these ratings"))
