"""Do the three likelihoods find severities and steps again, and do their errors tell how far off they are?

What is expected: consistent estimators neither stretch nor shift (Andersen 1972, JRSS B 34: 42-54; Bock & Aitkin 1981,
Psychometrika 46: 443-459); joint estimates are stretched by L / (L - 1), L ratings a candidate (Wright & Douglas 1977,
Appl Psychol Meas 1: 281-295).
"""

import numpy as np

from assessments.measurement.rasch.analysis import start_from
from assessments.measurement.rasch.conditional import conditional_fit
from assessments.measurement.rasch.design import RaschDesign
from assessments.measurement.rasch.joint import joint_fit
from assessments.measurement.rasch.marginal import marginal_fit
from assessments.measurement.simulation.drawn_ratings import (
    category_chances,
    draw_ratings,
    even_truth,
    paired_plan,
    rated,
)
from assessments.measurement.simulation.study import Drawn, Measure, Study, covers
from curriculum.faults import N_

CANDIDATES, EXAMINERS, EXERCISES, CRITERIA = 150, 6, 2, 3
LENGTH = 2 * EXERCISES * CRITERIA
MODELS = {
    "rating-scale": ([[-1.2, 0.1, 1.1]], None, N_("rating-scale steps")),
    "partial-credit": (
        [[-1.2, 0.1, 1.1], [-0.6, -0.2, 0.8], [-1.6, 0.5, 1.1]],
        "criterion",
        N_("partial-credit steps"),
    ),
}
ESTIMATORS = {
    "joint": N_("joint likelihood"),
    "corrected": N_("joint likelihood, corrected"),
    "marginal": N_("marginal likelihood"),
    "conditional": N_("conditional likelihood"),
}
HARSH = 0.75
REACH = 1.959963984540054


def once(chance: np.random.Generator) -> Drawn:
    """One set of candidates before both models, fitted by every estimator."""
    found: dict[str, np.ndarray] = {}
    plan = paired_plan(CANDIDATES, EXAMINERS, EXERCISES, CRITERIA)
    ability = chance.normal(0, 1.2, CANDIDATES)
    for model, (steps, steps_of, _) in MODELS.items():
        truth = even_truth(EXAMINERS, EXERCISES, CRITERIA, steps)
        design = rated(plan, draw_ratings(category_chances(plan, ability, truth), chance), steps_of)
        for name, (full, errors) in _fits(design).items():
            found |= {f"{model}/{name}/{key}": value for key, value in _looked_at(design, truth, full, errors).items()}
    return found


def _fits(design: RaschDesign) -> dict[str, tuple[np.ndarray, np.ndarray]]:
    everyone = np.zeros(len(design.candidates), np.int64)
    joint = joint_fit(design)
    fits = {
        "joint": (joint.full, joint.covariance),
        "corrected": (joint.full * joint.shrink, joint.covariance * joint.shrink**2),
    }
    marginal = marginal_fit(design, everyone, start_from(design, everyone, joint))
    conditional = conditional_fit(design, joint.full * joint.shrink)
    fits |= {
        "marginal": (marginal.full, marginal.covariance),
        "conditional": (conditional.full, conditional.covariance),
    }
    return {name: (full, np.sqrt(np.diag(covariance))) for name, (full, covariance) in fits.items()}


def _looked_at(design: RaschDesign, truth, full: np.ndarray, errors: np.ndarray) -> dict[str, np.ndarray]:
    own = design.block(0)
    estimate, error, steps = full[own], errors[own], full[design.element_count :]
    away = estimate - truth.severity
    return {
        "stretch": np.vstack([truth.severity, estimate]),
        "harshest": away[-1:],
        "rmse": away,
        "cover": covers(estimate - REACH * error, estimate + REACH * error, truth.severity),
        "steps": np.vstack([truth.steps.ravel(), steps]),
        "steps rmse": steps - truth.steps.ravel(),
    }


def _measures() -> tuple[Measure, ...]:
    found = []
    for model, (_, _, words) in MODELS.items():
        for name, said in ESTIMATORS.items():
            middle = LENGTH / (LENGTH - 1) if name == "joint" else 1.0
            low = 0.85 if name == "joint" else 0.93
            rows = (
                ("stretch", "slope", STRETCH, middle - 0.03, middle + 0.03),
                ("harshest", "mean", HARSHEST, HARSH * (middle - 1) - 0.025, HARSH * (middle - 1) + 0.025),
                ("rmse", "size", RMSE, 0.0, 0.12),
                ("cover", "share", COVER, low, 0.97),
                ("steps", "slope", STEPS, middle - 0.03, middle + 0.03),
                ("steps rmse", "size", STEPS_RMSE, 0.0, 0.20),
            )
            found += [
                Measure(
                    f"{model}/{name}/{key}", kind, text, *ends, {"model": words, "estimator": said, "severity": HARSH}
                )
                for key, kind, text, *ends in rows
            ]
    return tuple(found)


STRETCH = N_("{model}, {estimator}: severities found for 1 logit of true severity")
HARSHEST = N_("{model}, {estimator}: error of the harshest examiner on average (truth {severity} logits)")
RMSE = N_("{model}, {estimator}: usual error of a severity (root mean square, logits)")
COVER = N_("{model}, {estimator}: 95 % intervals of severities that hold the truth")
STEPS = N_("{model}, {estimator}: steps found for 1 logit of true step")
STEPS_RMSE = N_("{model}, {estimator}: usual error of a step (root mean square, logits)")
STUDY = Study(
    "recovery", N_("Severities and steps of the many-facet Rasch model, 150 candidates, 12 ratings each"), once,
    _measures(), 100,
)  # fmt: skip
