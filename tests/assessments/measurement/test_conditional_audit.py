"""The audit of severities: rings where candidates were not spread as assumed; how seldom otherwise, the simulations say."""

from types import SimpleNamespace

import numpy as np
import pytest

from assessments.measurement.rasch.analysis import start_from
from assessments.measurement.rasch.conditional_audit import compared, conditional_audit
from assessments.measurement.rasch.joint import joint_fit
from assessments.measurement.rasch.marginal import marginal_fit
from assessments.measurement.simulation.drawn_ratings import (
    category_chances,
    draw_ratings,
    even_truth,
    paired_plan,
    rated,
)

PLAN = paired_plan(60, 4, 2, 2)
TRUTH = even_truth(4, 2, 2, [[-1.2, 0.1, 1.1]])


def audited(seed: int, abler: float = 0.0):
    """`abler` is added to the candidates of the first examiner, which one population can't see."""
    chance = np.random.default_rng(seed)
    ability = chance.normal(0, 1.2, 60) + abler * (PLAN.examiner.reshape(60, -1).min(axis=1) == 0)
    design = rated(PLAN, draw_ratings(category_chances(PLAN, ability, TRUTH), chance))
    everyone, joint = np.zeros(60, int), joint_fit(design)
    return conditional_audit(design, marginal_fit(design, everyone, start_from(design, everyone, joint)), 0)


def test_an_examiner_whose_candidates_are_abler_is_found():
    """One population takes part of the candidates' ability for mildness, so that the second way finds more severity."""
    found = audited(1, abler=2.5)
    assert found.apart[0]
    assert found.difference[0] > 0.15


@pytest.mark.parametrize(
    ("difference", "variance", "apart"),
    [
        (0.16, np.nan, True),
        (-0.16, 1.0, True),
        (0.14, np.nan, False),
        (0.14, 0.06**2, True),
        (0.11, 0.06**2, False),
        (-0.13, 0.06**2, True),
        (np.nan, 0.06**2, False),
    ],
)
def test_an_alert_takes_two_errors_of_the_difference_or_015_logits(difference, variance, apart):
    found = compared(np.array([difference]), np.array([variance]))
    assert found.apart.tolist() == [apart]


def test_an_examiner_held_by_the_weak_prior_is_not_compared():
    chance = np.random.default_rng(5)
    few = paired_plan(62, 4, 2, 2)
    keep = (few.examiner != 3) | (few.candidate >= 40)
    keep &= (few.examiner != 3) | (few.candidate < 46)
    plan = SimpleNamespace(**{name: getattr(few, name)[keep] for name in few.__slots__})
    design = rated(plan, draw_ratings(category_chances(plan, chance.normal(0, 1, 62), TRUTH), chance))
    assert design.prior()[design.block(0)].tolist() == [0, 0, 0, 1]
    everyone = np.zeros(62, int)
    found = conditional_audit(
        design, marginal_fit(design, everyone, start_from(design, everyone, joint_fit(design))), 0
    )
    assert np.isnan(found.difference).tolist() == [False, False, False, True]
    assert not found.apart[3]
