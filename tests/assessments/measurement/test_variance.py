import numpy as np
import pytest

from assessments.measurement.variance import analogous_components
from assessments.measurement.variance_design import variance_design
from assessments.measurement.variance_intervals import bootstrap, satterthwaite
from assessments.measurement.variance_reml import restricted_components
from curriculum.faults import RefusedError
from tests.assessments.measurement.published_designs import (
    PERSONS_ITEMS,
    PERSONS_ITEMS_OCCASIONS,
    PERSONS_RATERS_IN_TASKS,
    crossed,
    nested,
    twice_crossed,
)

# Brennan RL (2001) Generalizability Theory, tables 2.2, 3.1 and 3.2: printed components.
PRINTED = [
    (crossed(PERSONS_ITEMS), {"p": 0.0574, "i": 0.0754, "p x i": 0.1269}),
    (
        twice_crossed(PERSONS_ITEMS_OCCASIONS),
        {
            "p": 0.5528,
            "i": 0.4417,
            "o": 0.0074,
            "p x i": 0.5750,
            "p x o": 0.1009,
            "i x o": 0.1565,
            "p x i x o": 0.9352,
        },
    ),
    (
        nested(PERSONS_RATERS_IN_TASKS),
        {"p": 0.4731, "t": 0.3252, "p x t": 0.5596, "r(t)": 0.6475, "p x r(t)": 2.3802},
    ),
]


@pytest.mark.parametrize(("design", "printed"), PRINTED)
def test_mean_squares_give_the_printed_components(design, printed):
    assert {effect.name for effect in design.effects} == set(printed)
    found = analogous_components(design)
    for effect, value in zip(design.effects, found, strict=True):
        assert value == pytest.approx(printed[effect.name], abs=6e-5)


@pytest.mark.parametrize(("design", "printed"), PRINTED)
def test_reml_agrees_with_mean_squares_when_balanced_and_positive(design, printed):
    analogous = analogous_components(design)
    found, _ = restricted_components(design, np.ones(len(analogous)))
    assert found == pytest.approx(analogous, abs=1e-6)


def test_reml_maximises_the_likelihood_of_an_unbalanced_nested_design():
    """Against the density of error contrasts itself (Patterson & Thompson 1971, Biometrika 58: 545-554)."""
    design = nested(PERSONS_RATERS_IN_TASKS, np.flatnonzero(np.arange(120) % 7 != 3))
    found, value = restricted_components(design, analogous_components(design))
    assert value == pytest.approx(dense_likelihood(design, found), abs=1e-6)
    for place in range(len(found)):
        for change in (0.98, 1.02):
            moved = found.copy()
            moved[place] *= change
            assert dense_likelihood(design, moved) < value


def test_reml_keeps_a_component_at_nought_rather_than_below():
    people, items = np.repeat(np.arange(8), 4), np.tile(np.arange(4), 8)
    scores = np.tile([1.0, 2.0, 3.0, 4.0], 8)
    scores[people % 2 == 0] = scores[people % 2 == 0][::-1]
    design = variance_design(["p", "i"], [people, items], scores)
    assert analogous_components(design)[0] < 0
    found, _ = restricted_components(design, analogous_components(design))
    assert found[0] == 0
    assert found[-1] > 0


def test_effects_that_can_not_be_told_apart_are_refused():
    people = np.repeat(np.arange(4), 3)
    with pytest.raises(RefusedError, match="told apart"):
        variance_design(["candidate", "examiner", "task"], [people, people, np.tile(np.arange(3), 4)], np.arange(12.0))


def test_a_facet_nested_in_candidates_is_named_so():
    people, examiner = np.repeat(np.arange(5), 2), np.tile([0, 1], 5)
    scores = np.array([1, 2, 4, 5, 3, 3, 6, 8, 2, 1], float)
    design = variance_design(["candidate", "examiner"], [people, examiner], scores, {"examiner": ["candidate"]})
    assert [effect.name for effect in design.effects] == ["candidate", "examiner(candidate)"]
    within = np.mean((scores[::2] - scores[1::2]) ** 2 / 2)
    between = 2 * np.var(scores.reshape(5, 2).mean(axis=1), ddof=1)
    assert analogous_components(design) == pytest.approx([(between - within) / 2, within])


def test_the_residual_has_the_chi_square_interval_of_its_mean_square():
    """With a mean square alone, Satterthwaite's interval is exact: nu MS / chi2 (here nu = 9 x 11)."""
    low, high = satterthwaite(crossed(PERSONS_ITEMS))[-1]
    # chi2 with 99 degrees of freedom: 128.422 at .975 and 73.361 at .025 (tables of chi2).
    assert low == pytest.approx(99 * 0.1268519 / 128.422, rel=1e-4)
    assert high == pytest.approx(99 * 0.1268519 / 73.361, rel=1e-4)


def test_bootstrap_limits_hold_the_components_they_are_drawn_from():
    design = twice_crossed(PERSONS_ITEMS_OCCASIONS)
    components = analogous_components(design)
    (low, high), draws = bootstrap(design, components, lambda drawn, scores: drawn, np.random.default_rng(1))
    assert draws == 200
    assert (low < components).all()
    assert (components < high).all()


def dense_likelihood(design, components):
    n = len(design.scores)
    covariance = np.zeros((n, n))
    for effect, size in zip(design.effects, components, strict=True):
        covariance += size * (effect.codes[:, None] == effect.codes)
    weight = np.linalg.inv(covariance)
    ones = np.ones(n)
    inner = ones @ weight @ ones
    away = design.scores - ones @ weight @ design.scores / inner
    parts = np.linalg.slogdet(covariance)[1] + np.log(inner) + away @ weight @ away + (n - 1) * np.log(2 * np.pi)
    return -0.5 * parts
