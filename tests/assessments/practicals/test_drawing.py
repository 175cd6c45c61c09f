from itertools import combinations

import pytest

from assessments.practicals.bank import BankExercise
from assessments.practicals.drawing import draw
from assessments.practicals.drawing_specification import drawing_specification
from curriculum.document import node_of
from curriculum.faults import RefusedError

# Invented bank; the oracle is full enumeration of every pair of lists.
LEVELS = (-1.3, -0.8, -0.4, -0.1, 0.2, 0.5, 0.9, 1.4)
BANK = [BankExercise(f"e{i}", d, 4 + i % 3, {"family": "ab"[i % 2]}) for i, d in enumerate(LEVELS)]


def _spec(**keys):
    return drawing_specification(node_of({"tasks": 3, **keys}))


def _information(difficulty, point):
    p = 1 / (1 + 2.718281828459045 ** (difficulty - point))
    return p * (1 - p)


def test_two_lists_come_as_near_their_target_as_full_enumeration():
    target = ((-1, 0.6), (1, 0.7))
    fits = [c for c in combinations(range(8), 3) if sum(BANK[i].minutes for i in c) <= 15]
    far = {c: max(abs(sum(_information(LEVELS[i], p) for i in c) - t) for p, t in target) for c in fits}
    best = min(max(far[a], far[b]) for a, b in combinations(fits, 2) if not set(a) & set(b))
    points = {"at": [-1, 1], "information": [0.6, 0.7]}
    drawn = draw(BANK, _spec(minutes={"at_most": 15}, overlap={"at_most": 0}, target=points), 2, 7)
    assert drawn.proven_optimal
    assert drawn.deviation == pytest.approx(best, abs=1e-6)


def test_the_seed_alone_decides_the_lists():
    draws = [draw(BANK, _spec(), 1, seed).lists[0].tasks for seed in range(6)]
    assert draws == [draw(BANK, _spec(), 1, seed).lists[0].tasks for seed in range(6)]
    assert len(set(draws)) > 1


def test_lists_are_of_equal_difficulty():
    drawn = draw(BANK, _spec(difficulty={"tolerance": 0.2}), 3, 1)
    mean = sum(one.difficulty for one in drawn.lists) / 3
    assert all(abs(one.difficulty - mean) <= 0.2 + 1e-6 for one in drawn.lists)


def test_a_clash_names_its_clauses():
    clauses = [{"accepts": {"family": "a"}, "at_least": 4}]
    with pytest.raises(RefusedError, match=r"tasks, include\[0\].at_least"):
        draw(BANK, _spec(include=clauses, minutes={"at_most": 99}), 1, 1)
