"""The pass mark that a season's own global grades speak for, beside the one in use.

Borderline regression block by block (Wood, Humphrey-Murto, Norman 2006), the candidates drawn whole for its error; the
middle total of the exams that were borderline overall, and the total where a grade above borderline is as likely as one
below (both Livingston & Zieky 1982).
"""

import numpy as np

from assessments.measurement.borderline_group import borderline_group
from assessments.measurement.borderline_regression import BACKWARDS, SUSPECT_R2, TOO_GOOD, exam_cut
from assessments.measurement.contrasting_groups import contrasting_groups
from assessments.measurement.limits import Limits
from assessments.measurement.statistic import Statistic, measured, reason
from assessments.practicals.specification import Practical
from assessments.season.gathered import Gathered, block_weights
from curriculum.faults import N_

BORDERLINE = "borderline"
NEAR = 0.5
NO_BORDERLINE = reason("no-borderline", N_("none of the overall grades of this practical is called borderline"))
LOOSE = reason("loose-grades", N_("marks and overall grades go together only loosely"))


def season_pass_marks(
    practical: Practical, gathered: Gathered, chance: np.random.Generator, limits: Limits
) -> dict[str, object]:
    """`regression`, `group` and `contrast` in per cent, `r2` the mean over blocks, `se` the regression's error.

    `totals` are the totals, in per cent, of the exams that count, least first.
    Exams count whose every block has a mark and a grade; the two examiners' marks and grades are averaged.
    """
    if BORDERLINE not in practical.grades:
        held = Statistic(None, n=len(gathered.exams), withheld=NO_BORDERLINE)
        return {"regression": held, "group": held, "contrast": held, "r2": None, "se": None, "totals": []}
    place = practical.grades.index(BORDERLINE)
    weights = block_weights(practical)
    marks = _means(gathered, gathered.mark, gathered.marks)
    grades = _means(gathered, gathered.grade, gathered.grade[:, 3])
    whole = np.isfinite(marks).all(axis=1) & np.isfinite(grades).all(axis=1)
    scores = marks[whole] * np.array([weights[block] for block in gathered.blocks]) / 100
    grades, n = grades[whole], int(whole.sum())
    counts = {"candidates": n, "grades_used": len(np.unique(gathered.grade[:, 3]))}
    cut, error = exam_cut(scores, grades, place, chance) if n else (measured(0.0, None, None, 0), np.nan)
    r2, slopes = _fit(scores, grades)
    shown = limits.borderline_regression.applied(cut, **counts)
    if shown.estimate is not None:
        loose, close = r2 < limits.least_r2, r2 > SUSPECT_R2
        applies = ((loose, LOOSE), (close, TOO_GOOD), (slopes.min(initial=0) < 0, BACKWARDS))
        shown = shown.flagged(*(caution for holds, caution in applies if holds))
    totals, means = scores.sum(axis=1), grades.sum(axis=1) / len(gathered.blocks) - place
    return {
        "regression": shown,
        "group": _group(totals, means, chance, limits),
        "contrast": _contrast(totals, means, limits),
        "r2": r2,
        "se": error,
        "totals": np.sort(totals),
    }


def _means(gathered: Gathered, codes: np.ndarray, values: np.ndarray) -> np.ndarray:
    """(exams, blocks) means over examiners, nan where there is none; columns 0 and 2 of `codes` say which."""
    shape = (len(gathered.exams), len(gathered.blocks))
    total, number = np.zeros(shape), np.zeros(shape)
    np.add.at(total, (codes[:, 0], codes[:, 2]), values)
    np.add.at(number, (codes[:, 0], codes[:, 2]), 1)
    with np.errstate(invalid="ignore"):
        return total / np.where(number > 0, number, np.nan)


def _fit(scores: np.ndarray, grades: np.ndarray) -> tuple[float, np.ndarray]:
    """Mean over blocks of squared correlation, and each block's slope; a block without variation has none."""
    if not len(scores):
        return float("nan"), np.zeros(0)
    x, y = grades - grades.mean(axis=0), scores - scores.mean(axis=0)
    with np.errstate(divide="ignore", invalid="ignore"):
        slope = (x * y).sum(axis=0) / (x**2).sum(axis=0)
        share = slope**2 * (x**2).sum(axis=0) / (y**2).sum(axis=0)
    known = np.isfinite(share)
    return float(share[known].mean()) if known.any() else float("nan"), slope[known]


def _group(totals: np.ndarray, means: np.ndarray, chance: np.random.Generator, limits: Limits) -> Statistic:
    """Borderline overall: the mean of an exam's grades lies nearest to it; `means` counts from borderline."""
    near = np.abs(means) < NEAR
    found = borderline_group(totals, near, chance).cut
    number = int(near.sum())
    if found.withheld:
        found = measured(0.0, None, None, number)
    return limits.borderline_group.applied(found, borderline_candidates=number)


def _contrast(totals: np.ndarray, means: np.ndarray, limits: Limits) -> Statistic:
    """Exams clearly above borderline against those clearly below; what is borderline belongs to neither."""
    clear = np.abs(means) >= NEAR
    above = means[clear] > 0
    smaller = int(min(above.sum(), (~above).sum()))
    found = contrasting_groups(totals[clear], above).cut if smaller else measured(0.0, None, None, 0)
    return limits.contrasting_groups.applied(found, candidates_in_the_smaller_group=smaller)
