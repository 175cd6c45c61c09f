import numpy as np
import pytest

from assessments.measurement.intraclass import FORMS, complete_forms, intraclass, mean_squares
from assessments.measurement.ratings import Ratings
from tests.assessments.measurement.published_tables import SHROUT_FLEISS


def ratings_of(table: np.ndarray) -> Ratings:
    unit, examiner = np.nonzero(~np.isnan(table))
    names = tuple(f"examiner {place}" for place in range(table.shape[1]))
    values = table[unit, examiner]
    return Ratings(unit, examiner, np.zeros_like(unit), len(table), names, (), values)


def test_mean_squares_are_those_of_shrout_and_fleiss():
    # Shrout & Fleiss (1979) table 3: between targets 11.24, within 6.26, judges 32.49, residual 1.02.
    m = mean_squares(SHROUT_FLEISS)
    assert (m.units, m.within, m.examiners, m.residual) == pytest.approx((11.24, 6.26, 32.49, 1.02), abs=0.005)


def test_the_six_forms_are_those_of_shrout_and_fleiss():
    # Shrout & Fleiss (1979) table 4.
    printed = {"icc_1_1": 0.17, "icc_a_1": 0.29, "icc_c_1": 0.71, "icc_1_k": 0.44, "icc_a_k": 0.62, "icc_c_k": 0.91}
    found = intraclass(ratings_of(SHROUT_FLEISS), SHROUT_FLEISS.ravel())
    assert {form: found[form].estimate for form in FORMS} == pytest.approx(printed, abs=0.005)


@pytest.mark.parametrize(
    ("form", "low", "high"),
    [("icc_1_1", -0.13293, 0.72256), ("icc_a_1", 0.01879, 0.76108), ("icc_c_1", 0.34246, 0.94586)],
)
def test_intervals_are_those_of_mcgraw_and_wong(form, low, high):
    # McGraw & Wong (1996), recomputed for Shrout & Fleiss's table with R psych 2.2.
    found = intraclass(ratings_of(SHROUT_FLEISS), SHROUT_FLEISS.ravel())[form]
    assert (found.low, found.high) == pytest.approx((low, high), abs=5e-6)


def test_a_table_with_gaps_gives_what_the_full_one_would_when_nothing_is_missing():
    # Complete data: expected sums of squares and mean squares are the same equations.
    from_squares = complete_forms(mean_squares(SHROUT_FLEISS))
    padded = np.vstack([SHROUT_FLEISS, np.full((1, 4), np.nan)])
    ratings = ratings_of(padded)
    with_gap = intraclass(ratings, ratings.values)
    for form in FORMS:
        assert with_gap[form].estimate == pytest.approx(from_squares[form].estimate, abs=1e-9)
        assert with_gap[form].low is None
        assert with_gap[form].flags[0].code == "gaps"


def test_gaps_at_random_leave_the_estimate_near_the_truth():
    # Variances 4 (units), 1 (examiners), 1 (rest): ICC(A,1) = 4/6, ICC(C,1) = 4/5.
    chance = np.random.default_rng(11)
    table = chance.normal(0, 2, (600, 1)) + chance.normal(0, 1, (1, 40)) + chance.normal(0, 1, (600, 40))
    table[chance.random(table.shape) < 0.8] = np.nan
    ratings = ratings_of(table)
    found = intraclass(ratings, ratings.values)
    assert found["icc_c_1"].estimate == pytest.approx(0.8, abs=0.03)
    assert found["icc_a_1"].estimate == pytest.approx(4 / 6, abs=0.08)


def test_it_is_undefined_when_no_mark_differs():
    found = intraclass(ratings_of(np.full((12, 3), 2.0)), np.full(36, 2.0))
    assert all(found[form].estimate is None for form in FORMS)
