"""Everything the many-facet model has to say of a set of ratings, with what rests on too little held back."""

from dataclasses import asdict, dataclass

import numpy as np

from assessments.measurement.limits import Limits
from assessments.measurement.rasch.analysis import Fitted, WeakLink, fitted, link_contrast, weakest_link
from assessments.measurement.rasch.candidate_rows import candidate_rows
from assessments.measurement.rasch.candidates import measures
from assessments.measurement.rasch.connectedness import connection
from assessments.measurement.rasch.design import RaschDesign
from assessments.measurement.rasch.element_rows import draws_for, facet_rows, step_rows
from assessments.measurement.rasch.fit import (
    Expected,
    expected,
)
from assessments.measurement.rasch.link_advice import cheapest_link
from assessments.measurement.rasch.model_choice import choose
from assessments.measurement.rasch.separation import (
    design_effect,
    reliability_by_weights,
    separation,
)
from assessments.measurement.rasch.severity_changes import (
    drift_report,
    interaction_report,
)
from assessments.measurement.resampling import unit_interval
from assessments.measurement.statistic import Statistic, measured, reason, undefined
from curriculum.faults import N_

WEAK_LINK = 0.3


@dataclass(frozen=True, slots=True)
class Asked:
    """Estimator, places of the facets of examiners and of lessons, group of each candidate, session and time.

    `other` holds the same ratings with steps for each criterion where `design` has one set for all, or the reverse.
    """

    estimator: str
    judge: int
    lesson: int | None
    group: np.ndarray
    group_labels: tuple[str, ...]
    session: tuple[tuple[str, ...], np.ndarray] | None = None
    time: np.ndarray | None = None
    draws: int | None = None
    other: RaschDesign | None = None


def rasch_report(
    design: RaschDesign,
    asked: Asked,
    chance: np.random.Generator,
    limits: Limits,
    anyway: bool = False,
) -> dict[str, object]:
    """The answer by its keys; nothing but the islands when the design is not connected."""
    joined = connection(design)
    base = {
        "connected": joined.connected,
        "islands": joined.islands,
        "extra_dimensions": joined.extra_dimensions,
        "estimator": asked.estimator,
    }
    if not joined.connected:
        return base | dict.fromkeys(LATER) | {"withheld": NOT_CONNECTED, "flags": []}
    fit = fitted(design, asked.group, asked.estimator, asked.judge)
    found = expected(design, fit.full, fit.fit_ability)
    effect = design_effect(design, found, asked.lesson) if asked.lesson is not None else float("nan")
    lift = np.sqrt(effect) if np.isfinite(effect) else 1.0
    link = weakest_link(design, fit, asked.judge)
    flags = [*fit.flags, *([WEAKLY_LINKED] if link.error > WEAK_LINK else [])]
    flags += [REPEATED] if _is_repeated(design) else []
    flags += [] if draws_for(design, asked.draws) or asked.draws == 0 else [NO_RANGES]
    guard = (limits, anyway)
    return base | {
        "log_likelihood": fit.log_likelihood,
        "sigma": fit.marginal.sigma if fit.marginal else None,
        "sigma_se": fit.marginal.sigma_error if fit.marginal else None,
        "means": _means(fit, asked),
        "nodes": fit.marginal.nodes if fit.marginal else None,
        "parameters": fit.marginal.parameters if fit.marginal else None,
        "model_advice": _advice(design, fit, asked, limits),
        "facets": facet_rows(design, fit, found, asked.judge, (chance, asked.draws), guard),
        "steps": step_rows(design, fit, guard),
        "candidates": candidate_rows(design, fit, found, (asked.judge, asked.lesson), lift, guard),
        "reliability": _reliability(design, fit, lift, chance),
        "design_effect": _design_effect(effect, found, asked.lesson is not None),
        "interactions": interaction_report(design, fit, found, asked.judge, limits, anyway),
        "drift": drift_report(design, fit, found, asked, limits, anyway),
        "weakest_link": {
            "sides": link.sides,
            "se": link.error,
            "advice": _link_advice(design, fit, found, asked, link),
        },
        "correction": fit.joint.shrink,
        "withheld": None,
        "flags": flags,
    }


def _advice(design: RaschDesign, fit: Fitted, asked: Asked, limits: Limits) -> dict[str, object] | None:
    if fit.marginal is None or asked.other is None:
        return None
    found = choose(design, fit.marginal, asked.other, asked.group, limits.steps.withhold["ratings_a_step"])
    return {
        "advised": found.advised,
        "bic_rating_scale": found.rating_scale,
        "bic_partial_credit": found.partial_credit,
        "fewest_ratings_in_a_step": found.least_in_a_step,
        "withheld": found.why_not,
    }


def _link_advice(design, fit: Fitted, found: Expected, asked: Asked, link: WeakLink) -> dict[str, object] | None:
    if link.error <= WEAK_LINK:
        return None
    own = design.block(asked.judge)
    covariance = fit.covariance[own, own]
    advice = cheapest_link(design, found, covariance, link_contrast(covariance), asked.judge)
    return None if advice is None else asdict(advice)


def _means(fit: Fitted, asked: Asked) -> dict[str, object] | None:
    if fit.marginal is None:
        return None
    pairs = zip(asked.group_labels, fit.marginal.means, fit.marginal.mean_errors, strict=True)
    return {label: {"estimate": mean, "se": error} for label, mean, error in pairs}


def _is_repeated(design: RaschDesign) -> bool:
    return len(np.unique(design.candidate * len(design.elements) + design.cell)) < len(design.cell)


def _reliability(design: RaschDesign, fit: Fitted, lift: float, chance) -> dict[str, object]:
    ability = fit.fit_ability
    known = np.isfinite(ability)
    error = fit.found.error
    if fit.estimator == "conditional":
        error = measures(design, fit.full, weighted=False).error
    estimate, error = ability[known], error[known]
    whole = separation(estimate, error)
    ends = unit_interval(
        reliability_by_weights(estimate, error),
        np.ones(len(estimate), int),
        whole.reliability,
        chance,
    )
    statistic = measured(whole.reliability, *ends, len(estimate))
    facets = {
        facet.name: _row(separation(fit.full[design.block(place)], fit.errors[design.block(place)]))
        for place, facet in enumerate(design.facets)
    }
    shown = {
        "estimate": statistic.estimate,
        "low": statistic.low,
        "high": statistic.high,
        "n": statistic.n,
    }
    adjusted = separation(estimate, lift * error).reliability
    more = {
        "separation": whole.index,
        "strata": whole.strata,
        "adjusted": adjusted,
        "facets": facets,
    }
    return shown | {"withheld": statistic.withheld, "flags": list(statistic.flags)} | more


def _row(found) -> dict[str, object]:
    return {
        "reliability": found.reliability,
        "separation": found.index,
        "chi_square": found.chi_square,
        "df": found.freedom,
        "p": found.chance,
    }


def _design_effect(effect: float, found: Expected, named: bool) -> Statistic:
    if not np.isfinite(effect):
        return undefined(len(found.rows), NO_LESSONS if named else NOT_NAMED)
    return measured(effect, None, None, len(found.rows))


LATER = (
    "log_likelihood",
    "sigma",
    "means",
    "facets",
    "steps",
    "candidates",
    "reliability",
    "design_effect",
    "interactions",
    "drift",
)
NOT_CONNECTED = reason(
    "not-connected",
    N_("the ratings fall apart into islands that nothing links; compare within an island only, or add a link"),
)
WEAKLY_LINKED = reason(
    "weak-link",
    N_("two sides of the examiners are compared through few shared performances (error above 0.3 logits)"),
)
NO_RANGES = reason(
    "no-ranges", N_("for so many ratings it is not drawn how far infit and outfit may lie from 1 by chance")
)
REPEATED = reason(
    "repeated", N_("some ratings share the candidate and every facet with another; each counts as a rating of its own")
)
NOT_NAMED = reason("no-lesson", N_("needs to be told which facet's ratings share a lesson (--lesson)"))
NO_LESSONS = reason("one-lesson", N_("needs candidates with two exercises or more"))
