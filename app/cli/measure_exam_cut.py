"""`throughline measure cut-score --exercise COLUMN`: an exam's pass mark as the sum of its exercises' pass marks."""

import argparse

import numpy as np

from app.cli.measure_options import UNIT_NAMES, role
from app.files.measurement import Table
from assessments.measurement.borderline_regression import borderline_regression, exam_cut
from assessments.measurement.limits import DEFAULT_LIMITS
from curriculum.faults import N_, Fault, RefusedError


def exam_regression(
    options: argparse.Namespace, table: Table, borderline: float, chance: np.random.Generator
) -> dict[str, object]:
    """The exam's cut with an error that knows that the same candidates sat every exercise, and each exercise's own.

    Candidates without a mark and a grade in every exercise are left out and counted.
    """
    exercises, scores, grades = _by_candidate(options, table)
    whole = np.isfinite(scores).all(axis=1) & np.isfinite(grades).all(axis=1)
    scores, grades = scores[whole], grades[whole]
    own = [borderline_regression(*pair, borderline, chance) for pair in zip(scores.T, grades.T, strict=True)]
    cut, error = exam_cut(scores, grades, borderline, chance)
    used = min((len(np.unique(column)) for column in grades.T), default=0)
    counts = {"candidates": len(scores), "grades_used": used}
    limits = DEFAULT_LIMITS.borderline_regression
    shown = limits.applied(cut, options.anyway, **counts)
    each = [
        {
            "id": name,
            "cut": limits.applied(one.cut, options.anyway, candidates=len(scores), grades_used=len(np.unique(column))),
            "se": one.se,
            "slope": one.slope,
            "r2": one.r2,
        }
        for name, one, column in zip(exercises, own, grades.T, strict=True)
    ]
    held = shown.estimate is None
    return {
        "cut": shown,
        "se": None if held else error,
        "exercises": [{"id": one["id"], "cut": one["cut"]} if one["cut"].estimate is None else one for one in each],
        "left_out": int((~whole).sum()),
        **counts,
    }


def _by_candidate(options: argparse.Namespace, table: Table) -> tuple[tuple[str, ...], np.ndarray, np.ndarray]:
    """The exercises' names; scores and grades, each (candidates, exercises), nan where there is none."""
    exercises, column = table.complete_codes(options.exercise)
    unit = role(options, "unit", table, UNIT_NAMES)
    candidates, row = table.complete_codes(unit)
    if len(exercises) < 2:
        sentence = N_("holds one exercise only: leave this option out")
        raise RefusedError([Fault("one-exercise", sentence, {}, options.exercise, None, table.source)])
    table.refuse_repeated(row * len(exercises) + column, unit)
    shape = len(candidates), len(exercises)
    scores, grades = np.full(shape, np.nan), np.full(shape, np.nan)
    scores[row, column] = table.numbers(role(options, "score", table))
    grades[row, column] = table.numbers(role(options, "grade", table, ("global_grade",)))
    return exercises, scores, grades
