"""Drawings against second formulations: full enumeration, all orders, and scipy.optimize.milp.

Banks are invented by hypothesis; the model is van der Linden (2005), Linear Models for Optimal Test Design.
"""

from itertools import combinations, pairwise, permutations, product

import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp

from assessments.practicals.bank import BankExercise
from assessments.practicals.drawing import draw
from assessments.practicals.drawing_order import Transitions, ordered
from assessments.practicals.drawing_specification import drawing_specification
from curriculum.document import node_of
from curriculum.faults import RefusedError

banks = st.lists(
    st.tuples(st.integers(-20, 20), st.integers(3, 8), st.sampled_from("mnr")), min_size=6, max_size=8
).map(lambda rows: [BankExercise(f"e{i}", d / 10, m, {"kind": k}) for i, (d, m, k) in enumerate(rows)])
slow = settings(max_examples=25, deadline=None, derandomize=True)


def _spec(**keys):
    return drawing_specification(node_of({"tasks": 3, **keys}))


def _mean(bank, tasks):
    return sum(bank[i].difficulty for i in tasks) / len(tasks)


@slow
@given(banks, st.integers(0, 6), st.integers(12, 20))
def test_lists_are_found_exactly_when_enumeration_finds_some(bank, tenths, most):
    fits = [c for c in combinations(range(len(bank)), 3) if sum(bank[i].minutes for i in c) <= most]
    exists = any(
        not set(a) & set(b) and abs(_mean(bank, a) - _mean(bank, b)) / 2 <= tenths / 10 + 1e-9
        for a, b in product(fits, fits)
    )
    spec = _spec(minutes={"at_most": most}, overlap={"at_most": 0}, difficulty={"tolerance": tenths / 10})
    if not exists:
        with pytest.raises(RefusedError, match="can't hold together"):
            draw(bank, spec, 2, 1)
        return
    first, second = draw(bank, spec, 2, 1).lists
    assert not set(first.tasks) & set(second.tasks)
    assert abs(first.difficulty - second.difficulty) / 2 <= tenths / 10 + 1e-6
    assert max(first.minutes, second.minutes) <= most


@slow
@given(st.integers(2, 6).flatmap(lambda n: st.lists(st.integers(0, 90), min_size=n * n, max_size=n * n)))
def test_the_order_is_the_best_of_all_orders(seconds):
    size = round(len(seconds) ** 0.5)
    tasks = [BankExercise(str(i), 0, 1, {}) for i in range(size)]
    pairs = {(str(i), str(j)): seconds[i * size + j] for i in range(size) for j in range(size)}
    found = ordered(tasks, Transitions({}, pairs))
    least = min(sum(pairs[str(a), str(b)] for a, b in pairwise(order)) for order in permutations(range(size)))
    assert found.seconds == least == sum(pairs[a.id, b.id] for a, b in pairwise(found.tasks))
    assert found.is_proven


@slow
@given(st.lists(st.integers(0, 90), min_size=15 * 15, max_size=15 * 15))
def test_the_bound_of_a_long_list_lies_below_every_order_that_was_tried(seconds):
    tasks = [BankExercise(str(i), 0, 1, {}) for i in range(15)]
    pairs = {(str(i), str(j)): seconds[i * 15 + j] for i in range(15) for j in range(15)}
    found = ordered(tasks, Transitions({}, pairs))
    assert sorted(one.id for one in found.tasks) == sorted(one.id for one in tasks)
    assert found.bound <= found.seconds == sum(pairs[a.id, b.id] for a, b in pairwise(found.tasks))
    assert found.bound <= sum(pairs[str(i), str(i + 1)] for i in range(14))


@slow
@given(banks)
def test_the_deviation_is_that_of_another_formulation(bank):
    target, most = ((-1, 0.6), (0, 0.7), (1, 0.6)), 18
    points = {"at": [p for p, _ in target], "information": [t for _, t in target]}
    spec = _spec(minutes={"at_most": most}, overlap={"at_most": 0}, target=points)
    other = _least_deviation(bank, target, most)
    if other is None:
        with pytest.raises(RefusedError):
            draw(bank, spec, 2, 1)
        return
    drawn = draw(bank, spec, 2, 1)
    assert drawn.proven_optimal
    assert drawn.deviation == pytest.approx(other, abs=1e-6)


def _least_deviation(bank, target, most):
    """One column for each pair of an exercise and a list or none: exactly one of three is chosen for each exercise."""
    size = len(bank)
    place = numpy.eye(3 * size + 1)
    column = {(i, f): place[3 * i + f] for i in range(size) for f in range(3)}
    rows = [(sum(column[i, f] for f in range(3)), 1, 1) for i in range(size)]
    for f in range(2):
        rows.append((sum(column[i, f] for i in range(size)), 3, 3))
        rows.append((sum(column[i, f] * bank[i].minutes for i in range(size)), 0, most))
        for point, wanted in target:
            far = sum(column[i, f] / (4 * numpy.cosh((bank[i].difficulty - point) / 2) ** 2) for i in range(size))
            rows += [(far - place[-1], -numpy.inf, wanted), (far + place[-1], wanted, numpy.inf)]
    matrix, low, high = (numpy.array(part) for part in zip(*rows, strict=True))
    whole = numpy.array([1] * 3 * size + [0])
    bounds = Bounds(0, numpy.where(whole, 1, numpy.inf))
    found = milp(place[-1], integrality=whole, bounds=bounds, constraints=LinearConstraint(matrix, low, high))
    return found.fun if found.success else None


def test_a_list_that_no_order_brings_within_its_minutes_is_refused():
    bank = [BankExercise(f"e{i}", 0, 5, {"apparatus": "mrc"[i % 3]}) for i in range(5)]
    with pytest.raises(RefusedError, match=r"tasks, minutes\.at_most"):
        draw(bank, _spec(minutes={"at_most": 15.5}, transitions={"apparatus": 60}), 1, 1)


def test_minutes_count_the_transitions():
    bank = [BankExercise(f"e{i}", 0, 5, {"apparatus": "mr"[i % 2]}) for i in range(8)]
    spec = _spec(minutes={"at_most": 15.5}, transitions={"apparatus": 60})
    for seed in range(5):
        found = draw(bank, spec, 1, seed).lists[0]
        assert found.minutes <= 15.5
        assert len({int(one[1]) % 2 for one in found.tasks}) == 1


def test_without_known_transitions_tasks_stand_in_the_order_of_the_edition():
    bank = [BankExercise(f"e{i}", 0, 5, {}) for i in range(6)]
    tasks = draw(bank, _spec(), 1, 3).lists[0].tasks
    assert list(tasks) == sorted(tasks)


def test_the_order_of_a_candidate_counts_no_transitions():
    bank = [BankExercise(f"e{i}", 0, 5, {"apparatus": "mr"[i % 2]}) for i in range(3)]
    found = draw(bank, _spec(order="candidate", transitions={"apparatus": 60}), 1, 1).lists[0]
    assert (found.tasks, found.transition_seconds) == (("e0", "e1", "e2"), 0)


def test_faults_of_every_key_are_found_at_once():
    wrong = {
        "tasks": "x", "minutes": 3, "include": [{}], "floors": 1, "caps": {"kind": "y"}, "spots": [], "overlap": "z",
        "target": {"at": [1]}, "difficulty": {"tolerance": -1}, "transitions": {"kind": -5}, "order": "any",
        "notice": "soon", "recently_drawn": 4, "always": "e1",
    }  # fmt: skip
    with pytest.raises(RefusedError) as refusal:
        drawing_specification(node_of(wrong))
    assert {one.field.split(".")[0].split("[")[0] for one in refusal.value.faults} == set(wrong)


def test_a_large_bank_is_drawn_near_its_target_and_another_secret_draws_other_lists():
    bank = [BankExercise(f"e{i}", (i % 21 - 10) / 7, 5, {}) for i in range(60)]
    points = {"at": [-1, 0, 1], "information": [2.2, 2.5, 2.2]}
    spec = drawing_specification(node_of({"tasks": 12, "overlap": {"at_most": 0}, "target": points}))
    drawn = [draw(bank, spec, 2, seed) for seed in (1, 2, 1)]
    assert drawn[0] == drawn[2]
    assert drawn[0].lists != drawn[1].lists
    assert all(one.gap <= 0.01 + 1e-6 for one in drawn)
