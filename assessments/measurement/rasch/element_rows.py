"""A row for each examiner, exercise and criterion, and for each step: estimate, error, fit, or why none is shown."""

import numpy as np

from assessments.measurement.rasch.analysis import Fitted
from assessments.measurement.rasch.candidate_rows import REACH, WIDE, shown
from assessments.measurement.rasch.design import RaschDesign
from assessments.measurement.rasch.fit import Expected, fit_ranges, mean_squares
from assessments.measurement.statistic import measured, reason
from curriculum.faults import N_

UNFIT = (0.7, 1.3)
# 200 sets take about 7 seconds of processor at 100,000 ratings, half a second at 10,000.
DRAWS, MOST_RATINGS_FOR_RANGES = 200, 100_000

HELD = reason("held", N_("held near the average by a weak prior, since few or only extreme ratings tell of it"))


def facet_rows(design: RaschDesign, fit: Fitted, found: Expected, judge: int, drawing, guard) -> dict[str, object]:
    """Of each facet by its name a row an element; `drawing` is the chance and how many sets are asked for (or None).

    `guard` is the limits, and whether to show what rests on too little.
    """
    chance, asked = drawing
    draws = draws_for(design, asked)
    ranges = fit_ranges(design, fit.full, fit.found.estimate, chance, draws) if draws else None
    return {
        facet.name: _elements(design, fit, found, place, place == judge, ranges, guard)
        for place, facet in enumerate(design.facets)
    }


def draws_for(design: RaschDesign, asked: int | None) -> int:
    """How many sets to draw for the ranges of fit."""
    if asked is not None:
        return asked
    return DRAWS if len(design.cell) <= MOST_RATINGS_FOR_RANGES else 0


def _elements(design, fit: Fitted, found: Expected, place: int, judges: bool, ranges, guard) -> list[dict[str, object]]:
    limits, anyway = guard
    block = design.block(place)
    size = block.stop - block.start
    all_codes = design.elements[design.cell, place] - block.start
    ratings = np.bincount(all_codes, minlength=size)
    people = np.bincount(np.unique(design.candidate * size + all_codes) % size, minlength=size)
    fits = mean_squares(all_codes[found.rows], size, found)
    prior = design.prior()
    rows = []
    for number, label in enumerate(design.facets[place].labels):
        value, error = fit.full[block][number], fit.errors[block][number]
        statistic = measured(value, value - REACH * error, value + REACH * error, ratings[number])
        statistic = limits.severity.applied(statistic, anyway, ratings=ratings[number], candidates=people[number])
        if judges and error > limits.most_severity_error and statistic.withheld is None:
            statistic = statistic.flagged(WIDE)
        held = bool(prior[block.start + number]) and fit.estimator != "conditional"
        row = {"id": label, **shown(statistic.flagged(HELD) if held else statistic, error), "held_by_prior": held}
        if fit.estimator == "joint":
            row["corrected"] = fit.corrected[block][number] if statistic.withheld is None else None
        rows.append(row | _fit_row(fits, number, ranges, block.start + number, guard))
    return rows


def _fit_row(fits, number: int, ranges, place: int, guard) -> dict[str, object]:
    limits, anyway = guard
    row: dict[str, object] = {}
    alert = False
    for name, values, t in (
        ("infit", fits.infit, fits.infit_t),
        ("outfit", fits.outfit, fits.outfit_t),
    ):
        statistic = measured(values[number], None, None, fits.ratings[number])
        statistic = limits.fit.applied(statistic, anyway, ratings=fits.ratings[number])
        row[name] = statistic.estimate
        row[f"{name}_t"] = t[number] if statistic.withheld is None else None
        if ranges is not None:
            low, high = ranges[name == "outfit"][:, place]
            row[f"{name}_range"] = [low, high]
            value = statistic.estimate
            alert |= value is not None and not low <= value <= high and not UNFIT[0] <= value <= UNFIT[1]
    return row | {"fit_alert": alert if ranges is not None else None}


def step_rows(design: RaschDesign, fit: Fitted, guard) -> list[dict[str, object]]:
    limits, anyway = guard
    count, k = design.element_count, design.steps
    rows = []
    owner = design.group[design.cell]
    for group, label in enumerate(design.groups):
        used = np.bincount(design.category[owner == group], minlength=k + 1)
        for step in range(design.top[group]):
            place = count + group * k + step
            value, error = fit.full[place], fit.errors[place]
            least = int(min(used[step], used[step + 1]))
            ends = (value - REACH * error, value + REACH * error) if error else (None, None)
            statistic = measured(value, *ends, least)
            statistic = limits.steps.applied(statistic, anyway, ratings_a_step=least)
            row = {"id": label, "step": step + 1, **shown(statistic, error)}
            if fit.estimator == "joint":
                row["corrected"] = fit.corrected[place] if statistic.withheld is None else None
            rows.append(row)
    return rows
