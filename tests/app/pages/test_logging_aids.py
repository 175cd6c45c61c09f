"""Logging made quick and careful: the usual length, the warning before a session that would earn nothing.

The rule is the school's own requirement set: lectures earn only where a tutor registered them (`counts: [registered]`).
"""

import html
import json
import re
from datetime import date

import pytest

from app.web.session_form import SessionForm
from assessments.hours.session import Part, Session
from tests.app.pages.conftest import Town
from tests.app.pages.test_hours import SESSION, log, stands

DAY = date(2026, 11, 25)
LAST = Session("last", date(2026, 11, 20), 540, 615, (Part(75, "observation"),), 0, "host-1", state="waiting")


@pytest.fixture
def trainee(town: Town):  # noqa: ANN201
    return town.as_role("trainee")


def test_a_session_that_would_earn_nothing_is_logged_only_when_its_person_is_sure(town, trainee, form_token) -> None:  # noqa: ANN001
    answer = log(trainee, form_token, **{"activity-0": "workshop"})
    assert answer.status_code == 422
    assert "it would earn nothing: this category does not accept that kind of proof" in answer.text
    assert 'name="sure"' in answer.text
    with town.store.reading("halden-row") as work:
        assert work.ledger.now(SESSION["id"]) is None
    assert log(trainee, form_token, sure="yes", **{"activity-0": "workshop"}).status_code == 303
    assert stands(town) == ("waiting", 1)


def test_the_page_knows_beforehand_which_kinds_earn_nothing_and_how_long_sessions_usually_take(trainee) -> None:  # noqa: ANN001
    page = trainee.get("/today").text
    warnings, lengths, sessions = (
        json.loads(html.unescape(re.search(f'data-{name}="([^"]*)"', page).group(1)))
        for name in ("warnings", "lengths", "sessions")
    )
    assert warnings["workshop|live"].startswith("Such a session would earn nothing now: this category does not")
    assert "observation|live" not in warnings
    assert all(minutes > 0 and words for known in lengths.values() for minutes, words in known)
    assert sessions
    assert all(fields["version"] >= "1" and fields["id"] == id for id, fields in sessions.items())


@pytest.mark.parametrize(
    ("minute", "others", "times"),
    [
        (700, (), ("09:00", "10:15")),
        (612, (), ("08:55", "10:10")),
        (965, (Session("now", DAY, 600, 660, (), 0, "host-1"),), ("15:05", "16:05")),
        (3, (), ("00:00", "00:00")),
    ],
    ids=["as last time", "just ended, as last time is not over", "just ended, as last time is taken", "at midnight"],
)
def test_the_time_of_last_time_is_offered_where_it_can_have_been(
    minute: int, others: tuple[Session, ...], times: tuple[str, str]
) -> None:
    last = LAST if not others else Session("later", DAY, 540, 615, LAST.parts, 0, "host-1")
    found = SessionForm.like_last((last, *others), DAY, minute, "new")
    assert (found.start, found.end, found.day, found.version) == (*times, "2026-11-25", 0)
