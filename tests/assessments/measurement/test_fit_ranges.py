"""How far infit and outfit may lie from 1 by chance, by drawing from the fitted model."""

import numpy as np
import pytest

from assessments.measurement.limits import DEFAULT_LIMITS
from assessments.measurement.rasch import element_rows, fit
from assessments.measurement.rasch.analysis import fitted
from assessments.measurement.rasch.fit import expected, fit_ranges, mean_squares
from assessments.measurement.rasch.report import Asked, rasch_report
from assessments.measurement.simulation.drawn_ratings import (
    category_chances,
    draw_ratings,
    even_truth,
    paired_plan,
    rated,
)

PLAN, TRUTH = paired_plan(60, 6, 3, 2), even_truth(6, 3, 2, [[-1.2, 0.1, 1.1]])


def drawn(seed: int):
    chance = np.random.default_rng(seed)
    design = rated(PLAN, draw_ratings(category_chances(PLAN, chance.normal(0, 1.2, 60), TRUTH), chance))
    return design, fitted(design, np.zeros(60, int), "joint", 0)


def test_measuring_from_nearby_gives_the_ranges_of_measuring_to_the_end(monkeypatch):
    design, found = drawn(1)

    def ranges():
        return np.array(fit_ranges(design, found.full, found.found.estimate, np.random.default_rng(2), 40))

    quick = ranges()
    monkeypatch.setattr(fit, "NEAR", 1e-10)
    assert quick == pytest.approx(ranges(), abs=1e-3)


def test_where_the_model_holds_nineteen_of_twenty_examiners_lie_within():
    """What a 95 % range says; 20 sets of 6 examiners, so that chance alone gives 114 of 120 give or take 2."""
    inside = []
    for seed in range(20):
        design, found = drawn(seed)
        low, high = fit_ranges(design, found.full, found.found.estimate, np.random.default_rng(seed), 60)[1][:, :6]
        seen = expected(design, found.full, found.fit_ability)
        outfit = mean_squares(design.elements[design.cell, 0][seen.rows], 6, seen).outfit
        inside += list((low <= outfit) & (outfit <= high))
    assert 0.88 <= np.mean(inside) <= 0.995


@pytest.mark.parametrize(("most", "asked", "told"), [(1, None, True), (1, 0, False), (1, 5, False), (900, None, False)])
def test_ranges_that_are_not_drawn_are_told_of_unless_nobody_wants_them(monkeypatch, most, asked, told):
    monkeypatch.setattr(element_rows, "MOST_RATINGS_FOR_RANGES", most)
    design, _ = drawn(1)
    wanted = Asked("joint", 0, None, np.zeros(60, int), ("all",), draws=asked)
    found = rasch_report(design, wanted, np.random.default_rng(1), DEFAULT_LIMITS)
    row = found["facets"]["examiner"][0]
    assert ("no-ranges" in {flag.code for flag in found["flags"]}) is told
    assert ("infit_range" in row) is (row["fit_alert"] is not None) is (not told and asked != 0)
