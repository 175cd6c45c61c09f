"""What must be said when an exam is set aside. The causes are common practice; neither outcome uses an attempt."""

from datetime import date

import pytest

from assessments.practicals.deciding import Outcome
from assessments.practicals.set_aside import MOST_LETTERS, SetAside, against_deciding, set_aside_faults

DAY = date(2026, 3, 1)


@pytest.mark.parametrize(
    ("noted", "today", "faults"),
    [
        (SetAside(Outcome.VOID, "A spring broke.", "broken-machine"), DAY, []),
        (SetAside(Outcome.VOID, "The list was passed on.", "leaked-list"), date(2026, 2, 20), []),
        (SetAside(Outcome.NOT_COMPLETED, "The client left after ten minutes."), DAY, []),
        (SetAside(Outcome.NOT_COMPLETED, "x"), date(2026, 2, 28), ["too-early"]),
        (SetAside(Outcome.NOT_COMPLETED, "x", "illness"), DAY, ["cause"]),
        (SetAside(Outcome.VOID, " ", "weather"), DAY, ["no-cause", "no-reason"]),
        (SetAside(Outcome.PASS, "x" * (MOST_LETTERS + 1)), DAY, ["no-outcome", "too-long"]),
    ],
)
def test_everything_that_is_missing_is_named(noted, today, faults):
    assert [one.code for one in set_aside_faults(noted, DAY, today)] == faults


def test_what_is_set_aside_is_decided_as_noted_or_taken_back_first():
    noted = SetAside(Outcome.VOID, "A spring broke.", "broken-machine")
    assert against_deciding(noted, Outcome.VOID) == ()
    assert [one.code for one in against_deciding(noted, Outcome.PASS)] == ["set-aside"]
