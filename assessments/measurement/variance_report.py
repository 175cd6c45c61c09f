"""Everything a generalizability study has to say, with intervals, and with what rests on too little held back."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from assessments.measurement.generalizability import (
    Decision,
    decision,
    observed_shares,
    planned_shares,
)
from assessments.measurement.jackknife import phi_jackknife
from assessments.measurement.limits import Limits
from assessments.measurement.statistic import NO_VARIATION, Statistic, measured, reason
from assessments.measurement.variance import analogous_components
from assessments.measurement.variance_design import VarianceDesign
from assessments.measurement.variance_intervals import bootstrap, satterthwaite
from assessments.measurement.variance_reml import restricted_components
from curriculum.faults import N_

FAR_APART = 0.2
FIGURES = (
    "g_coefficient",
    "phi",
    "phi_cut",
    "raw_phi_cut",
    "sem_absolute",
    "sem_relative",
    "relative_error",
    "absolute_error",
)


@dataclass(frozen=True, slots=True)
class Question:
    """What is asked: the estimator, plans (facet: effective number), fixed facets, the cut, who judges."""

    method: str = "anova"
    plans: Sequence[Mapping[int, float]] = ()
    fixed: Sequence[int] = ()
    cut: float | None = None
    judge: int = 1
    shown_plans: Sequence[Mapping[str, object]] = field(default_factory=tuple)


def variance_report(
    design: VarianceDesign,
    question: Question,
    chance: np.random.Generator,
    limits: Limits,
    anyway: bool = False,
) -> dict[str, object]:
    """Components, coefficients of the design as it was, and of every plan."""
    analogous = analogous_components(design)
    raw, likelihood, flags = analogous, None, []
    if question.method == "reml":
        raw, likelihood = restricted_components(design, analogous)
        if np.any(np.abs(raw - analogous) > FAR_APART * np.maximum(np.abs(raw), 0.05 * raw.sum())):
            flags.append(METHODS_DIFFER)
    if (raw < 0).any():
        flags.append(NEGATIVE)
    if design.cells < len(design.scores):
        flags.append(REPEATED)
    shares = [
        observed_shares(design),
        *(planned_shares(design, plan) for plan in question.plans),
    ]
    components = np.maximum(raw, 0)
    ends, draws = bootstrap(design, components, _figures(design, question, shares), chance)
    guard = _Guard(design, question, limits, anyway)
    answers = [
        _answer(
            decision(design, components, share, question.fixed, question.cut),
            guard,
            ends,
            place,
            len(design.effects),
        )
        for place, share in enumerate(shares)
    ]
    spans = satterthwaite(design) if design.balanced and question.method == "anova" else ends.T[: len(design.effects)]
    details = [guard.component(place, components[place], spans[place]) for place in range(len(components))]
    names = [effect.name for effect in design.effects]
    return {
        "method": question.method,
        "balanced": design.balanced,
        "components": {name: detail.estimate for name, detail in zip(names, details, strict=True)},
        "raw_components": {
            name: None if detail.withheld else raw[place]
            for place, (name, detail) in enumerate(zip(names, details, strict=True))
        },
        "component_details": dict(zip(names, details, strict=True)),
        "analogous_components": dict(zip(names, analogous, strict=True)) if METHODS_DIFFER in flags else None,
        "shares": _shares(names, details),
        "log_likelihood": likelihood,
        **answers[0],
        "phi_jackknife": guard.figure(_left_out(design, question, components, shares[0], chance), False),
        "plans": [{"plan": plan, **answer} for plan, answer in zip(question.shown_plans, answers[1:], strict=True)],
        "mean": float(design.scores.mean()),
        "bootstrap_draws": draws,
        "flags": flags,
    }


def _left_out(design, question: Question, components, share: np.ndarray, chance) -> Statistic:
    """Phi with its interval by leaving out; the plan stays what it is, and the components come of mean squares."""

    def phi(smaller: VarianceDesign, found: np.ndarray) -> float:
        return decision(smaller, found, share, question.fixed).phi

    return phi_jackknife(design, question.judge, phi(design, components), phi, chance)


def _figures(design: VarianceDesign, question: Question, shares: Sequence[np.ndarray]):
    def figures(components: np.ndarray, scores: np.ndarray) -> np.ndarray:
        drawn = replace(design, scores=scores)
        found = [decision(drawn, components, share, question.fixed, question.cut) for share in shares]
        return np.concatenate([components, *(_numbers(one) for one in found)])

    return figures


def _numbers(one: Decision) -> np.ndarray:
    return np.array([0.0 if (value := getattr(one, name)) is None else value for name in FIGURES])


def _answer(one: Decision, guard: "_Guard", ends: np.ndarray, place: int, effects: int) -> dict[str, object]:
    start = effects + place * len(FIGURES)
    found = {}
    for number, (name, value) in enumerate(zip(FIGURES, _numbers(one), strict=True)):
        if name.endswith("phi_cut") and one.phi_cut is None:
            found[name] = None
            continue
        relative = name in ("g_coefficient", "sem_relative", "relative_error")
        found[name] = guard.figure(measured(value, *ends[:, start + number], guard.scores), relative)
    return found


def _shares(names: Sequence[str], details: Sequence[Statistic]) -> dict[str, float | None]:
    known = [detail.estimate for detail in details]
    total = sum(value for value in known if value is not None)
    whole = total > 0 and None not in known
    return {name: value / total if whole else None for name, value in zip(names, known, strict=True)}


@dataclass(frozen=True, slots=True)
class _Guard:
    design: VarianceDesign
    question: Question
    limits: Limits
    anyway: bool

    @property
    def scores(self) -> int:
        return len(self.design.scores)

    def component(self, place: int, value: float, span: Sequence[float]) -> Statistic:
        low, high = (max(0.0, end) for end in span)
        effect = self.design.effects[place]
        return self._applied(
            measured(value, low, high, effect.levels),
            self.question.judge in effect.factors,
        )

    def figure(self, statistic: Statistic, relative: bool) -> Statistic:
        if statistic.estimate is None and np.ptp(self.design.scores) == 0:
            return statistic.held_back(NO_VARIATION)
        return self._applied(statistic, not relative)

    def _applied(self, statistic: Statistic, of_judges: bool) -> Statistic:
        counts = {"candidates": self.design.objects}
        judge = frozenset({self.question.judge})
        judges = [effect for effect in self.design.effects[:-1] if effect.facets and judge <= effect.factors]
        if of_judges and judges:
            counts["examiners"] = judges[0].levels
            return self.limits.examiner_variance.applied(statistic, self.anyway, **counts)
        return self.limits.candidate_variance.applied(statistic, self.anyway, **counts)


METHODS_DIFFER = reason(
    "methods-differ",
    N_("the two methods differ by more than a fifth; both are shown (analogous_components, components)"),
)
REPEATED = reason(
    "repeated", N_("some scores share the object and every facet with another; each counts as a score of its own")
)
NEGATIVE = reason("negative", N_("a negative estimate counts as 0; it is kept in raw_components"))
