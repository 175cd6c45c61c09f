from collections import Counter

import pytest

from assessments.practicals.panel import Examiner, seat
from curriculum.faults import RefusedError

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
