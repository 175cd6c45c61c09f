"""A season's picture follows its sheets, outside the request, and none is left out."""

import pytest

from app.files.seasons import read_picture
from app.files.sheets import write_sheet
from app.queries.season_ratings import fingerprint
from app.storage.editions import Edition
from app.storage.exams import Exam, ExamDecision, SentSheet
from app.storage.people import Person
from app.use_cases import seasons
from app.use_cases.demo import SEED
from app.use_cases.seasons import JOB, bring_all_up_to_date, bring_up_to_date, sheet_sent
from tests.app.storage.cast import enrol
from tests.assessments.season.cast import season

PAIR = {"ada-x": -0.4, "bo-x": 0.4}
SHEETS = season(6, PAIR)


@pytest.fixture
def school(store, now):
    """One enrolment that sits every exam, a practical, and two examiners; no sheet yet."""
    with store.writing("halden") as work:
        enrol(work, now)
        document = {"basic.yaml": (SEED / "practicals" / "basic.yaml").read_text()}
        work.editions.add(Edition("practical-basic", "practical", "basic", "2026.1", document, now))
        for name in PAIR:
            work.people.add(Person(name, name.title(), f"{name}@halden.example", "hash"), frozenset({"examiner"}), now)
        for one in SHEETS:
            work.exams.add(Exam(one.id, "enrolment", "practical-basic", one.day, 600), tuple(PAIR))
        work.commit()
    return store


def send(store, now, *exams):
    with store.writing("halden") as work:
        for one in exams:
            for sheet in one.sheets:
                work.exams.add_sheet(SentSheet(one.id, sheet.examiner, 1, write_sheet(sheet), "", now))
        work.commit()


def kept(store):
    with store.reading("halden") as work:
        return work.seasons.picture("practical-basic")


def counted(store):
    return read_picture(kept(store).content)["counted"]["exams"]


def test_a_picture_is_made_once_for_the_same_sheets(school, now):
    send(school, now, *SHEETS[:4])
    assert bring_up_to_date(school, "halden", "practical-basic", lambda: now)
    assert not bring_up_to_date(school, "halden", "practical-basic", lambda: now)
    assert counted(school) == 4


def test_sending_void_and_a_further_seat_change_the_fingerprint(school, now):
    def mark():
        with school.reading("halden") as work:
            return fingerprint(work, "practical-basic")

    seen = [mark()]
    send(school, now, *SHEETS[:2])
    seen.append(mark())
    with school.writing("halden") as work:
        work.exams.add_decision(ExamDecision(SHEETS[0].id, 1, "void", "The bar broke.", "ada-x", now))
        work.commit()
    seen.append(mark())
    assert len(set(seen)) == 3
    assert mark() == seen[-1]


def test_a_sheet_sent_while_a_picture_is_made_is_in_the_next_one(school, now, monkeypatch):
    """The picture that was begun is kept, and another follows at once."""
    make, sent = seasons.season_picture, []

    def slow(practical, gathered):
        if not sent:
            sent.append(True)
            send(school, now, SHEETS[5])
        return make(practical, gathered)

    monkeypatch.setattr(seasons, "season_picture", slow)
    send(school, now, *SHEETS[:5])
    bring_up_to_date(school, "halden", "practical-basic", lambda: now)
    assert counted(school) == 6


def test_a_sent_sheet_asks_for_the_picture_of_its_season(school, now):
    asked = []
    sheet_sent(school, "halden", SHEETS[0].id, lambda *what: asked.append(what))
    sheet_sent(school, "halden", "no-such-exam", lambda *what: asked.append(what))
    assert asked == [(JOB, "halden", "practical-basic")]


def test_what_the_queue_lost_is_found_and_a_failure_is_told_of_and_made_up_for(school, now, monkeypatch, caplog):
    send(school, now, *SHEETS[:3])
    monkeypatch.setattr(seasons, "season_picture", lambda *_: 1 / 0)
    assert bring_all_up_to_date(school, "halden", lambda: now) == 0
    assert "was not made" in caplog.text
    monkeypatch.undo()
    assert bring_all_up_to_date(school, "halden", lambda: now) == 1
    assert bring_all_up_to_date(school, "halden", lambda: now) == 0
    assert counted(school) == 3


def test_another_school_has_no_such_season(school, now):
    send(school, now, *SHEETS)
    with school.reading("other") as work:
        assert (work.seasons.exams("practical-basic"), work.seasons.versions("practical-basic")) == ([], [])
        assert work.seasons.numbers() == {}


def test_numbers_count_exams_and_sheets(school, now):
    send(school, now, *SHEETS[:2])
    with school.reading("halden") as work:
        assert work.seasons.numbers() == {"practical-basic": (6, 4)}
        assert work.seasons.first_examiners("practical-basic")["past-1"] == set(PAIR)
