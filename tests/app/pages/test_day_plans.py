"""A day of exams as it stands: its rest is seated again without what has begun, and everybody takes it away."""

import html
import re

import pytest
from icalendar import Calendar

from app.use_cases.demo import SCHOOL
from tests.app.pages.conftest import Town
from tests.app.pages.test_exam_days import DAY, proposal

PAGE = f"/exam-days/{DAY['day']}"
AGAIN = {"first": "10:40", "pause": "10", "number": "3", "late": "0", "rooms": "Studio: reformer 2"}


@pytest.fixture
def director(town: Town, form_token):  # noqa: ANN001, ANN201
    """The director's client, a day of two exams set; `fill` posts a form."""
    client = town.as_role("director")
    token = form_token(client, "/exam-days/new")
    client.fill = lambda path, **typed: client.post(
        path, data={"form_token": token} | typed, headers={"accept": "text/html"}
    )
    rooms = {"rooms": "Hall: reformer 1, table\nNorth room"}
    answer = client.fill("/exam-days", **proposal(client.fill("/exam-days/new", **DAY | rooms).text))
    assert answer.headers["location"] == PAGE
    return client


def exams(town: Town) -> dict[str, tuple[int, str]]:
    with town.store.reading(SCHOOL.id) as work:
        return {one.id: (one.starts_minute, one.room) for one in work.exams.all() if str(one.day) == DAY["day"]}


def test_the_rest_of_a_day_moves_only_once_it_was_seen_and_a_reason_is_given(town: Town, director) -> None:  # noqa: ANN001
    before = exams(town)
    ids = list(before)
    asked = director.fill(f"{PAGE}/again", **AGAIN | {"exams": ids, "last": ids[0]})
    assert "nothing has moved yet" in asked.text
    assert exams(town) == before
    moving = proposal(asked.text)
    assert director.fill(f"{PAGE}/kept", **moving).status_code == 422
    for _ in range(2):
        assert (
            director.fill(f"{PAGE}/kept", **moving, reason="The reformer in the hall is withdrawn.").status_code == 303
        )
    # One room: the longest of both is 55 minutes, and who waits for a client comes second (invented).
    assert {at for at, _ in exams(town).values()} == {640, 640 + 55 + 10}
    assert {room for _, room in exams(town).values()} == {"Studio: reformer 2"}
    assert exams(town)[ids[0]][0] > exams(town)[ids[1]][0]
    with town.store.reading(SCHOOL.id) as work:
        told = [one for one in work.mail.newest(50) if "has moved" in one.subject]
    # A candidate and two examiners for each of two exams.
    assert len(told) == 6
    stale = {**moving, "room": ["Elsewhere", "Elsewhere"]}
    assert director.fill(f"{PAGE}/kept", **stale, reason="Again.").status_code == 409


def test_what_has_begun_stays_and_what_does_not_fit_is_said(town: Town, director, form_token) -> None:  # noqa: ANN001
    with town.store.writing(SCHOOL.id) as work:
        work.exams.put_draft("exam", "examiner-1", "{}", work.exams.by_id("exam") and town.app.state.now())
        work.commit()
    today = director.get("/exam-days/2026-11-25/again").text
    assert "Everything of this day has begun." in today
    answer = director.fill(f"{PAGE}/again", **AGAIN | {"exams": list(exams(town)), "number": "1"})
    assert answer.status_code == 422
    assert "2 exams do not fit" in answer.text
    answer = director.fill(f"{PAGE}/again", **AGAIN | {"rooms": "A: chair\nB: Chair", "first": "soon"})
    assert len(re.findall(r'href="#f-(?:rooms|first|exams)"', answer.text)) == 3


def test_everybody_takes_their_exams_away_as_a_calendar_in_utc(town: Town, director) -> None:  # noqa: ANN001
    """RFC 5545, read by an independent library; Vienna is an hour ahead of UTC in winter."""
    shown = html.unescape(director.get(PAGE).text)
    assert "reformer 1, table" in shown
    assert "No client is told yet." in shown
    whole = Calendar.from_ical(director.get(f"{PAGE}/exams.ics").content).walk("VEVENT")
    assert len(whole) == 2
    own = Calendar.from_ical(town.as_role("examiner").get("/my-exams.ics").content).walk("VEVENT")
    (evening,) = [one for one in own if one["UID"].startswith("exam-exam@")]
    assert evening["DTSTART"].to_ical() == b"20261125T170000Z"
    assert evening["DTEND"].to_ical() == b"20261125T180700Z"
    assert "Ida Marlowe" in evening["SUMMARY"]
    candidate = town.as_role("trainee").get("/my-practicals.ics")
    assert candidate.headers["content-type"].startswith("text/calendar")
    assert len(Calendar.from_ical(candidate.content).walk("VEVENT")) == 2
    assert b"Oosterhall" not in candidate.content
