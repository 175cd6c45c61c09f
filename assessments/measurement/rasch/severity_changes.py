"""Interactions and drift as reported: a screen, what stands out fitted again, and what rests on too little."""

import numpy as np

from assessments.measurement.limits import Limits
from assessments.measurement.rasch.analysis import Fitted
from assessments.measurement.rasch.design import RaschDesign
from assessments.measurement.rasch.drift import severity_slopes
from assessments.measurement.rasch.drift_refit import drift_refit
from assessments.measurement.rasch.fit import Expected
from assessments.measurement.rasch.interactions import refit, screen
from assessments.measurement.statistic import measured, reason
from curriculum.faults import N_

PLAIN = measured(0.0, None, None, 0)
REACH = 1.959963984540054
MOST_RATINGS_FOR_REFIT = 200_000


def interaction_report(
    design: RaschDesign,
    fit: Fitted,
    found: Expected,
    judge: int,
    limits: Limits,
    anyway: bool,
) -> list[dict[str, object]]:
    """Every pair of examiner and other element, those that stand out first by their size."""
    rows = []
    names = [facet.name for facet in design.facets]
    for place, facet in enumerate(design.facets):
        if place != judge:
            other = design.elements[design.cell, place] - design.block(place).start
            rows += _pairs(
                design,
                fit,
                judge,
                other,
                (names[judge], facet.name),
                facet.labels,
                (limits.bias_term, anyway),
                lambda ratings: {"ratings": ratings},
            )
    return sorted(rows, key=lambda row: (not row["stands_out"], -abs(row["t"] or 0)))


def _pairs(design, fit: Fitted, judge: int, other, names, labels, guard, counted) -> list[dict[str, object]]:
    limit, anyway = guard
    one = design.elements[design.cell, judge] - design.block(judge).start
    ability = fit.found.estimate
    seen = screen(design, fit.full, ability, one, other, fit.joint)
    enough = np.array([limit.applied(PLAIN, anyway, **counted(n)).withheld is None for n in seen.ratings])
    out = seen.stands_out & enough
    again = _refit(design, one, other, seen, out)
    rows = []
    for number in range(len(seen.bias)):
        value, error = seen.bias[number], seen.error[number]
        statistic = measured(value, value - REACH * error, value + REACH * error, seen.ratings[number])
        statistic = limit.applied(statistic, anyway, **counted(seen.ratings[number]))
        shown = statistic.withheld is None
        row = {
            names[0]: design.facets[judge].labels[seen.one[number]],
            names[1]: labels[seen.other[number]],
        }
        row |= {
            "facets": list(names),
            "estimate": statistic.estimate,
            "low": statistic.low,
            "high": statistic.high,
        }
        row |= {
            "se": error if shown else None,
            "t": seen.t[number] if shown else None,
            "n": statistic.n,
        }
        row |= {
            "one_step": {"estimate": seen.one_step[number], "se": seen.one_step_error[number]} if shown else None,
            "p_adjusted": seen.chance[number] if shown else None,
            "stands_out": bool(out[number]),
        }
        row |= {
            "refit": again.get(number),
            "withheld": statistic.withheld,
            "flags": list(statistic.flags),
        }
        rows.append(row)
    return rows


def _refit(design: RaschDesign, one, other, seen, out) -> dict[int, dict[str, float]]:
    pairs = _apart(seen, out)
    if not len(pairs) or len(design.cell) > MOST_RATINGS_FOR_REFIT:
        return {}
    width = int(other.max()) + 1
    place = np.zeros((int(one.max()) + 1) * width, np.int64)
    place[seen.one[pairs] * width + seen.other[pairs]] = np.arange(1, len(pairs) + 1)
    term = place[one * width + other]
    try:
        bias, error, _ = refit(design, term, tuple(str(pair) for pair in pairs))
    except np.linalg.LinAlgError:
        return {}
    return {int(pair): {"estimate": bias[k], "se": error[k]} for k, pair in enumerate(pairs)}


def _apart(seen, out: np.ndarray) -> np.ndarray:
    """The pairs to fit again, the clearest first: never all of an examiner or of an element, which severity would equal."""
    strength = np.abs(np.nan_to_num(seen.one_step / seen.one_step_error))
    chosen: list[int] = []
    for pair in np.flatnonzero(out)[np.argsort(-strength[out])]:
        places = [(codes, codes[pair]) for codes in (seen.one, seen.other)]
        room = all(np.sum(codes == own) - 1 > np.sum(codes[chosen] == own) for codes, own in places)
        if room:
            chosen.append(int(pair))
    return np.array(sorted(chosen), np.int64)


def drift_report(
    design: RaschDesign,
    fit: Fitted,
    found: Expected,
    asked,
    limits: Limits,
    anyway: bool,
):
    """Slopes of severity on time for each examiner, and examiner by session; `withheld` when neither is given."""
    if asked.time is None and asked.session is None:
        return {"slopes": [], "sessions": [], "withheld": NO_TIME, "flags": []}
    slopes = _slopes(design, fit, found, asked) if asked.time is not None else []
    sessions = []
    if asked.session is not None:
        labels, codes = asked.session
        names = (design.facets[asked.judge].name, "session")

        def counted(ratings: int) -> dict[str, int]:
            return {"sessions": len(labels), "ratings_a_session": ratings}

        sessions = _pairs(design, fit, asked.judge, codes, names, labels, (limits.drift, anyway), counted)
    return {
        "slopes": slopes,
        "sessions": sessions,
        "withheld": None,
        "flags": [NO_ANCHORS],
    }


def _slopes(design: RaschDesign, fit: Fitted, found: Expected, asked) -> list[dict[str, object]]:
    codes = design.elements[design.cell, asked.judge] - design.block(asked.judge).start
    slope = severity_slopes(design, fit.joint, asked.judge, asked.time, found)
    rows = []
    for number, label in enumerate(design.facets[asked.judge].labels):
        row = {
            "id": label,
            "estimate": slope.slope[number],
            "se": slope.error[number],
            "t": slope.t[number],
        }
        row |= {
            "total": slope.total[number],
            "one_step": {"total": slope.one_step[number], "total_se": slope.one_step_error[number]},
            "p_adjusted": slope.chance[number],
            "stands_out": bool(slope.stands_out[number]),
        }
        row |= {"chart": slope.chart[number], "chart_limit": slope.chart_limit[number]}
        row |= {
            "outside": slope.outside[number],
            "refit": _slope_refit(design, asked, codes == number)
            if slope.stands_out[number] or abs(slope.t[number]) > REACH
            else None,
        }
        rows.append(row)
    return rows


def _slope_refit(design: RaschDesign, asked, mine: np.ndarray) -> dict[str, float] | None:
    if len(design.cell) > MOST_RATINGS_FOR_REFIT:
        return None
    start, span = asked.time.min(), max(float(np.ptp(asked.time)), 1e-12)
    value, error, _ = drift_refit(design, mine * (asked.time - start) / span)
    return {
        "estimate": value / span,
        "se": error / span,
        "total": value,
        "total_se": error,
    }


NO_TIME = reason("no-time", N_("needs the session or the time of each rating"))
NO_ANCHORS = reason(
    "no-anchors",
    N_("without recorded lessons that are marked again in every session, drift can't be told from a change of cohort"),
)
