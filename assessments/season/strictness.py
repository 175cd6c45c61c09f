"""Severity of a season's examiners in marks, candidates freed from it, hardness of blocks and criteria, and drift."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields

import numpy as np

from assessments.measurement.limits import Limits
from assessments.measurement.rasch.analysis import fitted
from assessments.measurement.rasch.design import RaschDesign, rasch_design
from assessments.measurement.rasch.fit import expected
from assessments.measurement.rasch.report import Asked, rasch_report
from assessments.measurement.rasch.severity_changes import NO_ANCHORS
from assessments.measurement.resampling import DRAWS
from assessments.measurement.rudner import rudner
from assessments.measurement.statistic import Statistic, measured, reason
from assessments.measurement.true_scores import Decisions
from assessments.practicals.specification import Practical
from assessments.season.drift_chart import Chart, drift_charts
from assessments.season.gathered import Gathered
from assessments.season.leanings import season_leanings
from assessments.season.scale import MarkScale, mark_scale
from curriculum.faults import N_, Fault, RefusedError

ALONE = reason("one-examiner", N_("needs two examiners or more"))
CUT_OUT_OF_REACH = reason("cut-out-of-reach", N_("nobody reaches the pass mark, or everybody does"))
FEW_NEAR = reason("few-near", N_("fewer than 10 candidates lie near the pass mark"))
UNDETERMINED = reason("undetermined", N_("the exams are too unlike each other to tell these effects apart"))
LEAST_NEAR = 10
DRIFT_RATINGS = 20


@dataclass(frozen=True, slots=True)
class _Season:
    practical: Practical
    gathered: Gathered
    design: RaschDesign
    report: Mapping[str, object]
    scale: MarkScale
    cut: float | None
    charts: list[Chart]


def season_strictness(
    practical: Practical, gathered: Gathered, chance: np.random.Generator, limits: Limits
) -> dict[str, object]:
    """`examiners`, `candidates`, `tasks`, `leanings`, `consistency`; or `withheld`, and `islands` where nothing links examiners.

    Everything is in marks: severity is what an examiner takes off (above 0: milder) a candidate at the pass mark.
    """
    if len(gathered.examiners) < 2 or not len(gathered.rating):
        return _held(ALONE)
    try:
        design = season_design(practical, gathered)
        asked = season_asked(gathered, design)
        report = rasch_report(design, asked, chance, limits)
        if not report["connected"]:
            return _held(report["withheld"], report["islands"].get("examiner"))
        fit = fitted(design, asked.group, "marginal", asked.judge)
    except (RefusedError, np.linalg.LinAlgError, FloatingPointError) as refusal:
        return _held(refusal.faults[0] if isinstance(refusal, RefusedError) else UNDETERMINED)
    scale = mark_scale(practical, design, fit.full)
    seen = expected(design, fit.full, fit.fit_ability)
    exam, who = gathered.rating[seen.rows, 0], gathered.rating[seen.rows, 1]
    charts = drift_charts(exam, who, len(gathered.examiners), seen.residual, seen.moments.variance)
    season = _Season(practical, gathered, design, report, scale, scale.ability_at(float(practical.cut.at)), charts)
    return {
        "withheld": None,
        "flags": list(report["flags"]),
        "islands": None,
        "examiners": [_examiner(season, place, limits) for place in range(len(gathered.examiners))],
        "candidates": _candidates(season),
        "map": limits.difficulty.applied(
            measured(0.0, None, None, len(gathered.exams)), candidates=len(gathered.exams)
        ),
        "tasks": _tasks(season),
        "leanings": season_leanings(
            design, fit.joint, report["design_effect"].estimate or 1.0, scale, season.cut, limits
        ),
        "consistency": _consistency(season, chance, limits),
        "drift_flags": [NO_ANCHORS],
    }


def season_design(practical: Practical, gathered: Gathered) -> RaschDesign:
    """The season's ratings as the model sees them: `examiner`, then `block` and `criterion` where there are several."""
    codes = gathered.rating
    facets = [("examiner", gathered.examiners, codes[:, 1])]
    for name, labels, column in (("block", gathered.blocks, 2), ("criterion", gathered.criteria, 3)):
        used, own = np.unique(codes[:, column], return_inverse=True)
        if len(used) > 1:
            facets.append((name, [labels[place] for place in used], own))
    lengths = {len(one.scale.levels()) for one in practical.criteria if one.id in gathered.criteria}
    steps_of = "criterion" if len(lengths) > 1 else None
    return rasch_design((gathered.exams, codes[:, 0]), facets, codes[:, 4], steps_of)


def season_asked(gathered: Gathered, design: RaschDesign) -> Asked:
    """How a season is reckoned: by the marginal likelihood, all candidates one group."""
    names = [facet.name for facet in design.facets]
    lesson = names.index("block") if "block" in names else None
    return Asked("marginal", 0, lesson, np.zeros(len(gathered.exams), np.int64), ("all",))


def _examiner(season: _Season, place: int, limits: Limits) -> dict[str, object]:
    row = season.report["facets"]["examiner"][place]
    own = season.gathered.rating[season.gathered.rating[:, 1] == place]
    exams, per_exam = np.unique(own[:, 0], return_counts=True)
    ratings_a_day = np.bincount(season.gathered.days[exams], per_exam)
    days = {
        "sessions": int(np.count_nonzero(ratings_a_day >= DRIFT_RATINGS)),
        "ratings_a_session": int(ratings_a_day.max(initial=0)),
    }
    chart = season.charts[place]
    drift = limits.drift.applied(measured(float(chart.values[-1]), None, None, len(exams)), **days)
    if row["withheld"] is not None:
        drift = drift.held_back(row["withheld"])
    return {
        "id": row["id"],
        "exams": len(exams),
        "partners": len(season.gathered.partners(place)),
        "severity": _in_marks(season, row),
        "erratic": bool(row["fit_alert"]) if row["fit_alert"] is not None else _unfit(row),
        "fit_known": row["infit"] is not None and row["withheld"] is None,
        "drift": drift,
        "chart": {
            "days": season.gathered.days[chart.exams],
            "places": (chart.exams + 0.5) / len(season.gathered.exams),
            "values": chart.values,
            "limits": chart.limits,
            "outside": chart.outside,
        },
    }


def _unfit(row: Mapping[str, object]) -> bool:
    return row["infit"] is not None and not 0.7 <= row["infit"] <= 1.3


def _in_marks(season: _Season, row: Mapping[str, object]) -> Statistic:
    """What the severity adds to a total at the pass mark (below 0: stricter), with its interval."""
    if row["withheld"] is not None:
        return Statistic(None, n=row["n"], withheld=row["withheld"])
    if season.cut is None:
        return Statistic(None, n=row["n"], withheld=CUT_OUT_OF_REACH)
    fair = season.scale.marks(season.cut)
    value, high, low = (season.scale.marks(season.cut, row[key]) - fair for key in ("estimate", "low", "high"))
    return Statistic(value, low, high, int(row["n"]), None, tuple(row["flags"]))


def _candidates(season: _Season) -> list[dict[str, object]]:
    """By exam: the total as marked, the total that examiners of average strictness would give, and its error.

    Where one examiner's severity rests on too little, no candidate's score can be freed from severities.
    """
    rows = []
    freed = all(row["withheld"] is None for row in season.report["facets"]["examiner"])
    for place, row in enumerate(season.report["candidates"]):
        known = freed and row["estimate"] is not None
        rows.append(
            {
                "exam": row["id"],
                "candidate": season.gathered.candidates[place],
                "raw": float(season.gathered.totals[place]),
                "even": season.scale.marks(row["estimate"]) if known else None,
                "error": season.scale.slope(row["estimate"]) * row["se_adjusted"] if known else None,
            }
        )
    return rows


def _tasks(season: _Season) -> list[dict[str, object]]:
    """Where each block and criterion lies: the total of a candidate who is expected to reach the pass mark on it."""
    found = []
    cut = float(season.practical.cut.at)
    for kind, labels in (("block", season.scale.block), ("criterion", season.scale.criterion)):
        for id in dict.fromkeys(labels.tolist()):
            at = season.scale.ability_at(cut, labels == id)
            found.append({"kind": kind, "id": id, "at": None if at is None else season.scale.marks(at)})
    return found


def _consistency(season: _Season, chance: np.random.Generator, limits: Limits) -> dict[str, Statistic]:
    """The same side of the pass mark twice, and wrongly on either side, were severities evened out."""
    rows = [row for row in season.report["candidates"] if row["estimate"] is not None]
    names = [one.name for one in fields(Decisions)]
    if season.cut is None or not rows:
        return dict.fromkeys(names, Statistic(None, n=len(rows), withheld=CUT_OUT_OF_REACH))
    ability, error = (np.array([row[key] for row in rows]) for key in ("estimate", "se_adjusted"))
    found = rudner(ability, error, season.cut)
    drawn = chance.integers(len(rows), size=(DRAWS, len(rows)))
    again = np.array([_figures(rudner(ability[one], error[one], season.cut), names) for one in drawn])
    low, high = np.nanquantile(again, (0.025, 0.975), axis=0)
    near = int(np.count_nonzero(np.abs(ability - season.cut) <= error))
    answer = {}
    for at, name in enumerate(names):
        statistic = measured(getattr(found, name), low[at], high[at], len(rows))
        shown = limits.consistency.applied(statistic, candidates=len(rows))
        few = near < LEAST_NEAR and shown.estimate is not None
        answer[name] = shown.flagged(FEW_NEAR) if few else shown
    return answer


def _figures(found: Decisions, names: Sequence[str]) -> list[float]:
    return [getattr(found, name) for name in names]


def _held(why: Fault, islands: object = None) -> dict[str, object]:
    return {"withheld": why, "flags": [], "islands": islands}
