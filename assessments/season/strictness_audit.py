"""A season's strictness reckoned a second way, which assumes nothing of how able the candidates are."""

import numpy as np

from assessments.measurement.limits import Limits
from assessments.measurement.rasch.analysis import fitted
from assessments.measurement.rasch.conditional_audit import conditional_audit
from assessments.measurement.rasch.connectedness import connection
from assessments.measurement.rasch.report import NOT_CONNECTED
from assessments.measurement.statistic import reason
from assessments.practicals.specification import Practical
from assessments.season.gathered import Gathered
from assessments.season.scale import mark_scale
from assessments.season.strictness import ALONE, UNDETERMINED, season_asked, season_design
from curriculum.faults import N_, Fault, RefusedError

NOBODY = reason("nobody", N_("no examiner has exams enough yet"))


def strictness_audit(practical: Practical, gathered: Gathered, limits: Limits) -> dict[str, object]:
    """`withheld`, or None and `examiners`: `id`, `logits` and `error` of the difference, `marks`, `apart`.

    Only examiners whose strictness is shown. `marks` is what the second way adds to a total at the pass mark, None
    where nobody is expected to reach it.
    """
    if len(gathered.examiners) < 2 or not len(gathered.rating):
        return _held(ALONE)
    try:
        design = season_design(practical, gathered)
        if not connection(design).connected:
            return _held(NOT_CONNECTED)
        asked = season_asked(gathered, design)
        fit = fitted(design, asked.group, asked.estimator, asked.judge)
        found = conditional_audit(design, fit.marginal, asked.judge)
    except (RefusedError, np.linalg.LinAlgError, FloatingPointError) as refusal:
        return _held(refusal.faults[0] if isinstance(refusal, RefusedError) else UNDETERMINED)
    severity = fit.full[design.block(asked.judge)]
    scale = mark_scale(practical, design, fit.full)
    cut = scale.ability_at(float(practical.cut.at))
    rows = []
    for place in np.flatnonzero(np.isfinite(found.difference) & _enough(gathered, limits)):
        away = found.difference[place]
        marks = None
        if cut is not None:
            marks = scale.marks(cut, severity[place] + away) - scale.marks(cut, severity[place])
        rows.append(
            {
                "id": gathered.examiners[place],
                "logits": away,
                "error": found.error[place],
                "marks": marks,
                "apart": bool(found.apart[place]),
            }
        )
    return {"withheld": None, "examiners": rows} if rows else _held(NOBODY)


def _enough(gathered: Gathered, limits: Limits) -> np.ndarray:
    """(examiners,) whether each has the ratings and exams that a strictness takes to be shown."""
    size = len(gathered.examiners)
    ratings = np.bincount(gathered.rating[:, 1], minlength=size)
    pairs = np.unique(gathered.rating[:, :2], axis=0)
    exams = np.bincount(pairs[:, 1], minlength=size)
    least = limits.severity.withhold
    return (ratings >= least["ratings"]) & (exams >= least["candidates"])


def _held(why: Fault) -> dict[str, object]:
    return {"withheld": why, "examiners": []}
