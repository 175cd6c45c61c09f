"""How often does the drift alert ring without drift, and how often with one? The same of examiner by criterion.

False discoveries are meant to stay at 5 per cent (Benjamini & Hochberg 1995, JRSS B 57: 289-300); power is wanted at
80 per cent (Cohen 1988, Statistical Power Analysis, 2.4). A control chart with lambda 0.1 and 3 sigma is left once in
about 840 ratings without drift (Lucas & Saccucci 1990, Technometrics 32: 1-12): in 25 per cent of charts of 240 ratings.
"""

import numpy as np

from assessments.measurement.rasch.analysis import fitted
from assessments.measurement.rasch.drift import severity_slopes
from assessments.measurement.rasch.fit import expected
from assessments.measurement.rasch.interactions import screen
from assessments.measurement.simulation.drawn_ratings import (
    category_chances,
    draw_ratings,
    even_truth,
    paired_plan,
    rated,
)
from assessments.measurement.simulation.study import Drawn, Measure, Study
from curriculum.faults import N_

CANDIDATES, EXAMINERS, EXERCISES, CRITERIA = 120, 6, 2, 3
STEPS = [[-1.2, 0.1, 1.1]]
DRIFTER = 2
SIZES = {"0": 0.0, "0.5": 0.5, "1": 1.0, "1.5": 1.5}
ENOUGH = 0.8


def once(chance: np.random.Generator) -> Drawn:
    """Candidates in random order; examiner 3 grows harsher by so many logits from first to last, or on one criterion."""
    plan = paired_plan(CANDIDATES, EXAMINERS, EXERCISES, CRITERIA)
    truth = even_truth(EXAMINERS, EXERCISES, CRITERIA, STEPS)
    ability = chance.normal(0, 1.2, CANDIDATES)
    time = plan.candidate / (CANDIDATES - 1)
    mine = plan.examiner == DRIFTER
    found: dict[str, np.ndarray] = {}
    for name, size in SIZES.items():
        design = rated(plan, draw_ratings(category_chances(plan, ability, truth, size * (time - 0.5) * mine), chance))
        slope = _slopes(design, plan, time)
        if not size:
            found["slope/false"] = np.array([slope.stands_out.any()])
            found["chart/false"] = slope.outside > 0
        else:
            found[f"slope/{name}"] = slope.stands_out[DRIFTER : DRIFTER + 1]
            found[f"chart/{name}"] = slope.outside[DRIFTER : DRIFTER + 1] > 0
            found[f"others/{name}"] = np.delete(slope.stands_out, DRIFTER)
        harsher = size * (mine & (plan.criterion == 2))
        out = _pairs(rated(plan, draw_ratings(category_chances(plan, ability, truth, harsher), chance)), plan)
        if not size:
            found["pairs/false"] = np.array([out.any()])
        else:
            found[f"pairs/{name}"] = np.array([out[DRIFTER * CRITERIA + 2]])
    return found


def _slopes(design, plan, time: np.ndarray):
    fit = fitted(design, np.zeros(CANDIDATES, np.int64), "joint", 0)
    found = expected(design, fit.full, fit.fit_ability)
    return severity_slopes(design, fit.joint, 0, time, found)


def _pairs(design, plan) -> np.ndarray:
    fit = fitted(design, np.zeros(CANDIDATES, np.int64), "joint", 0)
    return screen(design, fit.full, fit.found.estimate, plan.examiner, plan.criterion, fit.joint).stands_out


FOUND = {size: value for size, value in SIZES.items() if value}
SLOPE = N_("one examiner drifts by {size} logits from first to last: the slope alert finds it")
CHART = N_("one examiner drifts by {size} logits from first to last: the control chart leaves its limits")
PAIR = N_("one examiner is harsher by {size} logits on one criterion: the pair stands out")
STUDY = Study(
    "drift",
    N_("Alerts for drift and for interactions, 6 examiners, 240 ratings each"),
    once,
    (
        Measure("slope/false", "share", N_("no drift: sets in which the slope alert rings for anyone"), 0.0, 0.05),
        *(Measure(f"slope/{size}", "share", SLOPE, ENOUGH, 1.0, {"size": value}) for size, value in FOUND.items()),
        Measure("others/1", "share", N_("one examiner drifts by 1 logit: alert for one of the others"), 0.0, 0.05),
        Measure("chart/false", "share", N_("no drift: control charts that leave their limits at some time"), 0.0, 0.25),
        *(Measure(f"chart/{size}", "share", CHART, ENOUGH, 1.0, {"size": value}) for size, value in FOUND.items()),
        Measure("pairs/false", "share", N_("no interaction: sets in which any pair stands out"), 0.0, 0.05),
        *(Measure(f"pairs/{size}", "share", PAIR, ENOUGH, 1.0, {"size": value}) for size, value in FOUND.items()),
    ),
    300,
)  # fmt: skip
