from collections import Counter

import pytest

from assessments.practicals.panel import Exam, Examiner, is_connected, seat
from curriculum.faults import RefusedError
from tests.bench.bench_panel import measure

# Invented people; every rule of the seating is counted again here, apart from the solver.
CANDIDATES = {f"c{i}": frozenset() for i in range(8)}
EXAMINERS = tuple(Examiner(f"x{i}", i < 3, 2, 4) for i in range(5))
ROOMS = {f"s{i}": ("north", "south") for i in range(6)}
CONFLICTS = frozenset({("c0", "x0"), ("c1", "x1"), ("c2", "x4")})


def test_every_exam_has_its_examiners_and_nobody_is_in_two_places():
    exams = seat(CANDIDATES, EXAMINERS, CONFLICTS, ROOMS)
    assert sorted(one.candidate for one in exams) == sorted(CANDIDATES)
    assert max(Counter((one.slot, who) for one in exams for who in one.examiners).values()) == 1
    assert max(Counter((one.slot, one.room) for one in exams).values()) == 1
    assert all({"x0", "x1", "x2"} & set(one.examiners) for one in exams)
    assert not any((one.candidate, who) in CONFLICTS for one in exams for who in one.examiners)
    assert max(Counter(one.examiners for one in exams).values()) == 1


def test_too_few_senior_seats_are_named():
    with pytest.raises(RefusedError, match="senior"):
        seat(CANDIDATES, (Examiner("a", True, 0, 3), *EXAMINERS[3:]), CONFLICTS, ROOMS)


def test_examiners_who_can_never_meet_are_linked_by_leaving_some_out():
    early, late = frozenset({"a1", "a2"}), frozenset({"b1", "b2"})
    examiners = [Examiner(f"x{i}", True, slots=early if i < 2 else late) for i in range(4)]
    rooms = dict.fromkeys(("a1", "a2", "b1", "b2"), ("north",))
    exams = seat({"c1": frozenset({"a1"}), "c2": frozenset()}, examiners, frozenset(), rooms)
    assert {one.examiners for one in exams} == {("x0", "x1")}
    assert is_connected(exams)


def test_examiners_who_must_all_examine_but_can_never_meet_are_refused_by_name():
    early, late = frozenset({"a1", "a2"}), frozenset({"b1", "b2"})
    examiners = [Examiner(f"x{i}", True, 1, slots=early if i < 2 else late) for i in range(4)]
    rooms = dict.fromkeys(("a1", "a2", "b1", "b2"), ("north",))
    with pytest.raises(RefusedError, match="examiners linked"):
        seat({"c1": frozenset(), "c2": frozenset()}, examiners, frozenset(), rooms)


def test_islands_of_examiners_are_not_connected():
    exams = [Exam("c1", "s", "north", ("a", "b")), Exam("c2", "s", "south", ("c", "d"))]
    assert not is_connected(exams)
    assert is_connected([*exams, Exam("c3", "t", "north", ("b", "c"))])


def test_single_examiners_need_no_link():
    exams = seat(CANDIDATES, [Examiner(f"x{i}", True, 2, 3) for i in range(4)], CONFLICTS, ROOMS, 1)
    assert sorted(one.candidate for one in exams) == sorted(CANDIDATES)
    assert {len(one.examiners) for one in exams} == {1}


def test_what_is_avoided_is_done_only_where_it_has_to_be():
    avoided = frozenset({(name, "x0") for name in CANDIDATES} | {("c5", "x1")})
    exams = seat(CANDIDATES, EXAMINERS, CONFLICTS, ROOMS, avoided=avoided)
    # Everybody examines at least twice, so x0 has two of them and x1 can keep away from c5.
    assert sum("x0" in one.examiners for one in exams) == 2
    assert not any(one.candidate == "c5" and "x1" in one.examiners for one in exams)


def test_sixty_candidates_are_linked_and_keep_every_rule_with_pairs_repeated_as_seldom_as_counting_allows():
    """The count is made apart from the solver: tests/bench/bench_panel.py says why 12 repeats can't be avoided."""
    figures = measure(1)
    assert figures["linked_and_kept"]
    assert figures["pairs_repeated"] == [12]


def test_the_count_that_prevents_a_day_is_named():
    """Two examiners hold one exam at a time, however many rooms there are."""
    two = (Examiner("x0", True), Examiner("x1", False))
    with pytest.raises(RefusedError, match="8 exams need 8 places; with these examiners 6 can be held"):
        seat(CANDIDATES, two, frozenset(), ROOMS)
    early = tuple(Examiner(one.id, one.senior, slots=frozenset({"s0", "s1", "s2", "s3"})) for one in EXAMINERS)
    bound = {name: frozenset({"s0"}) for name in CANDIDATES}
    with pytest.raises(RefusedError, match="no times were found"):
        seat(bound, early, frozenset(), ROOMS)


def test_nobody_examines_more_in_a_row_than_is_said():
    slots = sorted(ROOMS)
    exams = seat(CANDIDATES, EXAMINERS, CONFLICTS, ROOMS, in_a_row=2)
    busy = {(who, slots.index(one.slot)) for one in exams for who in one.examiners}
    assert not any({(who, at), (who, at + 1), (who, at + 2)} <= busy for who, at in busy)
    two = (Examiner("x0", True), Examiner("x1", False))
    three = dict.fromkeys(("c0", "c1", "c2"), frozenset())
    with pytest.raises(RefusedError, match="fewer breaks"):
        seat(three, two, frozenset(), dict.fromkeys(("s0", "s1", "s2"), ("r",)), in_a_row=2)
