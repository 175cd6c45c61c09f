"""Two teams whose only shared candidate got nothing but the worst: no likelihood of ratings compares the teams.

That a candidate at the bottom tells nothing of severities: Andersen (1972, JRSS B 34: 42-54).
"""

import numpy as np
import pytest

from assessments.measurement.limits import DEFAULT_LIMITS
from assessments.measurement.rasch.connectedness import connection
from assessments.measurement.rasch.report import Asked, rasch_report
from assessments.measurement.simulation.drawn_ratings import (
    category_chances,
    draw_ratings,
    even_truth,
    plan_of_pairs,
    rated,
)
from curriculum.faults import RefusedError


@pytest.fixture(scope="module")
def design():
    chance = np.random.default_rng(4)
    pairs = np.array([(0, 1), (2, 3)] * 20 + [(0, 3)])
    plan, truth = plan_of_pairs(pairs, 2, 2), even_truth(4, 2, 2, [[-1.2, 0.1, 1.1]])
    ratings = draw_ratings(category_chances(plan, chance.normal(0, 1.2, 41), truth), chance)
    return rated(plan, np.where(plan.candidate == 40, 0, ratings))


def report(design, estimator):
    everyone = np.zeros(41, int)
    return rasch_report(
        design, Asked(estimator, 0, None, everyone, ("all",), draws=0), np.random.default_rng(1), DEFAULT_LIMITS
    )


@pytest.mark.parametrize("estimator", ["joint", "conditional"])
def test_what_no_candidate_between_bottom_and_top_links_is_refused(design, estimator):
    assert connection(design).connected
    with pytest.raises(RefusedError, match="do not determine every severity"):
        report(design, estimator)


def test_the_marginal_likelihood_compares_them_by_its_spread_of_candidates_alone(design):
    found = report(design, "marginal")
    assert all(0 < row["se"] < 1 for row in found["facets"]["examiner"])
    assert "uneven" not in {flag.code for flag in found["flags"]}
