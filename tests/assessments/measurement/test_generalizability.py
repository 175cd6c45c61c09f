import pytest

from assessments.measurement.generalizability import decision, observed_shares, planned_shares
from assessments.measurement.variance import analogous_components
from tests.assessments.measurement.published_designs import (
    PERSONS_ITEMS,
    PERSONS_ITEMS_OCCASIONS,
    PERSONS_RATERS_IN_TASKS,
    crossed,
    nested,
    twice_crossed,
)

ITEMS = crossed(PERSONS_ITEMS)
OCCASIONS = twice_crossed(PERSONS_ITEMS_OCCASIONS)
TASKS = nested(PERSONS_RATERS_IN_TASKS)


# Brennan RL (2001) Generalizability Theory, table 2.2: E rho^2 and Phi as printed.
@pytest.mark.parametrize(("items", "g", "phi"), [(12, 0.844, 0.773), (10, 0.819, 0.740), (20, 0.901, 0.850)])
def test_a_plan_of_items_has_the_printed_coefficients(items, g, phi):
    found = decision(ITEMS, analogous_components(ITEMS), planned_shares(ITEMS, {1: items}))
    assert found.g_coefficient == pytest.approx(g, abs=0.0006)
    assert found.phi == pytest.approx(phi, abs=0.0006)


def test_the_exam_as_it_was_is_a_plan_with_its_own_numbers():
    for design, numbers in ((ITEMS, {1: 12}), (OCCASIONS, {1: 4, 2: 2}), (TASKS, {1: 3, 2: 4})):
        assert observed_shares(design) == pytest.approx(planned_shares(design, numbers))


def test_a_fixed_facet_moves_its_interaction_to_the_candidate():
    """Brennan (2001), section 4.3 on table 3.1: 0.81 and 0.79 with items fixed, 0.64 and 0.55 with items random."""
    components = analogous_components(OCCASIONS)
    shares = planned_shares(OCCASIONS, {1: 4, 2: 2})
    random, fixed = decision(OCCASIONS, components, shares), decision(OCCASIONS, components, shares, [1])
    assert (round(random.g_coefficient, 2), round(random.phi, 2)) == (0.64, 0.55)
    assert (round(fixed.g_coefficient, 2), round(fixed.phi, 2)) == (0.81, 0.79)


def test_raters_within_tasks_have_the_printed_coefficients():
    """Brennan (2001), table 3.2: 0.55 and 0.46 for 3 tasks with 4 raters each."""
    found = decision(TASKS, analogous_components(TASKS), planned_shares(TASKS, {1: 3, 2: 4}))
    assert (round(found.g_coefficient, 2), round(found.phi, 2)) == (0.55, 0.46)


@pytest.mark.parametrize(("cut", "value"), [(0.7, 0.79254), (0.8, 0.85904), (0.9, 0.90526)])
def test_phi_at_a_cut_follows_brennan_and_kane(cut, value):
    """Brennan & Kane (1977) J Educ Meas 14:277-289, their formula worked by hand on Brennan's table 2.2."""
    found = decision(ITEMS, analogous_components(ITEMS), observed_shares(ITEMS), cut=cut)
    assert found.phi_cut == pytest.approx(value, abs=1e-5)


def test_phi_at_the_mean_is_phi():
    found = decision(ITEMS, analogous_components(ITEMS), observed_shares(ITEMS), cut=ITEMS.scores.mean())
    assert found.phi_cut == found.phi
    assert found.raw_phi_cut < found.phi
