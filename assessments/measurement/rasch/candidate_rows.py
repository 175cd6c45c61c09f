"""Candidates as reported: measures, adjusted scores, and the cautions that belong to each."""

import numpy as np

from assessments.measurement.rasch.analysis import Fitted
from assessments.measurement.rasch.candidates import adjusted_scores, measures
from assessments.measurement.rasch.design import RaschDesign
from assessments.measurement.rasch.fit import Expected, mean_squares
from assessments.measurement.statistic import Statistic, measured, reason
from curriculum.faults import N_

REACH = 1.959963984540054


def candidate_rows(design, fit: Fitted, found: Expected, places, lift: float, guard) -> list[dict[str, object]]:
    """One row a candidate; `places` are those of the facets of examiners and of lessons, `lift` what errors grow by."""
    limits, anyway = guard
    judge, lesson = places
    who = fit.found
    adjusted, adjusted_error = adjusted_scores(design, fit.full, who, judge)
    fits = mean_squares(design.candidate[found.rows], len(design.candidates), found)
    corrected = measures(design, fit.corrected).estimate if fit.estimator == "joint" else None
    lessons = _lessons(design, lesson)
    rows = []
    for number, label in enumerate(design.candidates):
        error = who.error[number]
        statistic = measured(
            who.estimate[number],
            who.estimate[number] - REACH * lift * error,
            who.estimate[number] + REACH * lift * error,
            who.ratings[number],
        )
        statistic = limits.candidate_measure.applied(statistic, anyway, ratings=who.ratings[number])
        known = statistic.withheld is None
        if known:
            cautions = (
                (who.at_limit[number], AT_LIMIT),
                (error > limits.most_candidate_error, WIDE),
            )
            cautions += ((lessons is not None and lessons[number] < 2, ONE_LESSON),)
            statistic = statistic.flagged(*(caution for applies, caution in cautions if applies))
        row = {"id": label, **shown(statistic, error), "raw": who.raw[number]}
        row |= {
            "adjusted": adjusted[number] if known else None,
            "at_limit": bool(who.at_limit[number]),
        }
        row |= {
            "adjusted_se": lift * adjusted_error[number],
            "se_adjusted": lift * error,
        }
        row |= {"maximum_likelihood": fit.likelihood_ability[number]}
        row |= {"infit": fits.infit[number], "outfit": fits.outfit[number]}
        if corrected is not None:
            row["corrected"] = corrected[number] if known else None
        rows.append(row)
    return rows


def _lessons(design: RaschDesign, lesson: int | None) -> np.ndarray | None:
    if lesson is None:
        return None
    size = design.element_count
    pairs = np.unique(design.candidate * size + design.elements[design.cell, lesson])
    return np.bincount(pairs // size, minlength=len(design.candidates))


def shown(statistic: Statistic, error: float) -> dict[str, object]:
    """A parameter as a row: what `Statistic` holds, and its standard error."""
    return {
        "estimate": statistic.estimate,
        "se": error if statistic.withheld is None else None,
        "low": statistic.low,
        "high": statistic.high,
        "n": statistic.n,
        "withheld": statistic.withheld,
        "flags": list(statistic.flags),
    }


WIDE = reason("wide", N_("known only roughly; read it with its interval"))
AT_LIMIT = reason("at-limit", N_("at the end of what this exam can measure"))
ONE_LESSON = reason("one-lesson", N_("rests on one exercise only"))
