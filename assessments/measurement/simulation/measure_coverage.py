"""Do intervals of candidates' measures hold the truth, also when a good or bad day enters every rating of a lesson?

Expected without a lesson effect: 95 % (Warm 1989, Psychometrika 54: 427-450). With one, intervals that take ratings
for independent are too narrow; those that allow for shared lessons should not be. The whole scale also shrinks, as
in any logistic model in which something that varies is left out (Zeger, Liang & Albert 1988, Biometrics 44: 1049).
"""

import numpy as np

from assessments.measurement.rasch.analysis import fitted
from assessments.measurement.rasch.candidates import adjusted_scores
from assessments.measurement.rasch.fit import expected
from assessments.measurement.rasch.separation import design_effect, separation
from assessments.measurement.simulation.drawn_ratings import (
    RatingPlan,
    RatingTruth,
    category_chances,
    draw_ratings,
    even_truth,
    paired_plan,
    rated,
)
from assessments.measurement.simulation.study import Drawn, Measure, Study, covers
from curriculum.faults import N_

CANDIDATES, EXAMINERS, EXERCISES, CRITERIA = 90, 6, 4, 3
STEPS = [[-1.2, 0.1, 1.1]]
SPREADS = {"none": 0.0, "some": 0.7}
REACH = 1.959963984540054


def once(chance: np.random.Generator) -> Drawn:
    plan = paired_plan(CANDIDATES, EXAMINERS, EXERCISES, CRITERIA)
    truth = even_truth(EXAMINERS, EXERCISES, CRITERIA, STEPS)
    ability = chance.normal(0, 1.2, CANDIDATES)
    found: dict[str, np.ndarray] = {}
    for name, spread in SPREADS.items():
        day = spread * chance.standard_normal((CANDIDATES, EXERCISES))[plan.candidate, plan.exercise]
        ratings = draw_ratings(category_chances(plan, ability, truth, -day), chance)
        found |= {f"{name}/{key}": value for key, value in _looked_at(plan, truth, ability, ratings).items()}
    return found


def _looked_at(plan: RatingPlan, truth: RatingTruth, ability: np.ndarray, ratings: np.ndarray) -> Drawn:
    design = rated(plan, ratings)
    fit = fitted(design, np.zeros(CANDIDATES, np.int64), "marginal", 0)
    who, own = fit.found, design.block(0)
    effect = design_effect(design, expected(design, fit.full, fit.fit_ability), 1)
    lift = np.sqrt(effect)
    adjusted, adjusted_error = adjusted_scores(design, fit.full, who, 0)
    fair = _fair(truth, ability)
    severity, error = fit.full[own], fit.errors[own]
    true_share = np.corrcoef(who.estimate, ability)[0, 1] ** 2
    return {
        "stretch": np.vstack([truth.severity, severity]),
        "severities": covers(severity - REACH * error, severity + REACH * error, truth.severity),
        "plain": covers(who.estimate - REACH * who.error, who.estimate + REACH * who.error, ability),
        "lifted": covers(who.estimate - REACH * lift * who.error, who.estimate + REACH * lift * who.error, ability),
        "fair": covers(
            adjusted - REACH * lift * adjusted_error, adjusted + REACH * lift * adjusted_error, fair
        ),
        "reliability": np.array([separation(who.estimate, lift * who.error).reliability - true_share]),
    }  # fmt: skip


def _fair(truth: RatingTruth, ability: np.ndarray) -> np.ndarray:
    """The mean rating that an examiner of average severity would give on the whole blueprint."""
    who, exercise, criterion = (part.ravel() for part in np.indices((len(ability), EXERCISES, CRITERIA)))
    nobody = RatingTruth(np.zeros(1), truth.exercise, truth.criterion, truth.steps)
    chances = category_chances(RatingPlan(who, np.zeros_like(who), exercise, criterion), ability, nobody)
    return (chances @ np.arange(chances.shape[1])).reshape(len(ability), -1).mean(axis=1)


DAYS = {"none": N_("every rating on its own"), "some": N_("good and bad days, spread 7 tenths of a logit")}
ROWS = (
    ("stretch", "slope", N_("{days}: severities found for 1 logit of true severity"), 0.97, 1.03),
    ("severities", "share", N_("{days}: 95 % intervals of severities that hold the truth"), 0.93, 0.97),
    ("plain", "share", N_("{days}: 95 % intervals of measures, ratings taken for independent, that hold the truth"), 0.93, 0.97),
    ("lifted", "share", N_("{days}: 95 % intervals of measures, allowing for lessons, that hold the truth"), 0.93, 0.97),
    ("fair", "share", N_("{days}: 95 % intervals of adjusted scores that hold the truth"), 0.93, 0.97),
    ("reliability", "mean", N_("{days}: reported reliability less the true one"), -0.02, 0.02),
)  # fmt: skip
WIDER = {("some", "plain"): (0.70, 0.82)}
STUDY = Study(
    "measures",
    N_("Intervals of severities, candidates' measures and adjusted scores, 90 candidates, 24 ratings each"),
    once,
    tuple(
        Measure(f"{name}/{key}", kind, text, *WIDER.get((name, key), ends), {"days": words})
        for name, words in DAYS.items()
        for key, kind, text, *ends in ROWS
    ),
    200,
)
