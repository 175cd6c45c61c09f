"""How a request goes on and ends. Fourteen days to appeal, and another person for it, are common practice."""

from datetime import UTC, datetime, timedelta

import pytest

from assessments.requests.life import Taken, answer_due, appeal_until, is_ended, state_of, step_faults, waits_for_school

AT = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)


def steps(*names: str) -> list[Taken]:
    """A step a day; the trainee asks and appeals, two directors answer in turn."""
    people = iter(("maren", "isolde"))
    own = ("withdrawn", "appealed")
    return [Taken(one, "ida" if one in own else next(people), AT + timedelta(days=i)) for i, one in enumerate(names)]


@pytest.mark.parametrize(
    ("taken", "new", "by", "code"),
    [
        ((), "granted", "maren", None),
        ((), "withdrawn", "ida", None),
        ((), "appealed", "ida", "not-now"),
        (("granted",), "refused", "maren", "not-now"),
        (("granted",), "appealed", "ida", "not-now"),
        (("refused",), "appealed", "ida", None),
        (("in-part",), "appealed", "ida", None),
        (("refused",), "withdrawn", "ida", "not-now"),
        (("refused", "appealed"), "granted", "maren", "somebody-else"),
        (("refused", "appealed"), "granted", "isolde", None),
        (("refused", "appealed"), "withdrawn", "ida", None),
        (("refused", "appealed", "refused"), "appealed", "ida", "ended"),
        (("withdrawn",), "granted", "maren", "ended"),
    ],
)
def test_what_may_follow(taken, new, by, code):
    found = step_faults(steps(*taken), Taken(new, by, AT), AT.date())
    assert [one.code for one in found] == ([code] if code else [])


def test_an_appeal_has_its_last_day():
    refused = steps("refused")
    last = appeal_until(refused)
    assert last == AT.date() + timedelta(days=14)
    assert step_faults(refused, Taken("appealed", "ida", AT), last) == ()
    assert step_faults(refused, Taken("appealed", "ida", AT), last + timedelta(days=1))[0].code == "too-late"


def test_the_school_owes_an_answer_to_what_is_open_and_what_is_appealed():
    assert answer_due(AT, []) == AT.date() + timedelta(days=14)
    assert answer_due(AT, steps("refused")) is None
    assert answer_due(AT, steps("refused", "appealed")) == AT.date() + timedelta(days=15)
    assert [waits_for_school(steps(*one)) for one in ((), ("granted",), ("refused", "appealed"))] == [True, False, True]
    assert state_of([]) == "open"
    assert is_ended(steps("refused", "appealed", "granted"))
