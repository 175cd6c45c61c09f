"""The hour ledger: what was logged comes back as it stands, in order, in two queries."""

from contextlib import contextmanager
from dataclasses import replace
from datetime import date, timedelta

import pytest
from sqlalchemy import event
from sqlalchemy.exc import IntegrityError

from assessments.hours.session import Part, Session
from tests.app.storage.cast import enrol

PARTS = (Part(40, "observing", "mat"), Part(50, "teaching", "chair", "basic", "remote", "A|B", {"topic": "breath"}))
SESSION = Session("s1", date(2026, 2, 3), 540, 640, PARTS, 10, "host", "Studio", "group", "signature", 1, "waiting")


@pytest.fixture
def work(store, now):
    with store.writing("halden") as opened:
        enrol(opened, now)
        yield opened


def log(work, now, *sessions):
    for session in sessions:
        work.ledger.add_version(session, "enrolment", None, "", "ada", now)


@contextmanager
def counted(work):
    statements = []
    engine = work.session.get_bind()
    note = lambda *given: statements.append(given[2])  # noqa: E731
    event.listen(engine, "before_cursor_execute", note)
    yield statements
    event.remove(engine, "before_cursor_execute", note)


def test_a_session_comes_back_as_it_was_logged(work, now):
    log(work, now, SESSION)
    assert work.ledger.now("s1") == SESSION


def test_sessions_come_in_order_of_day_and_id(work, now):
    later = replace(SESSION, id="s0", day=SESSION.day + timedelta(days=1))
    log(work, now, later, replace(SESSION, id="s2"), SESSION)
    assert [session.id for session in work.ledger.of_enrolment("enrolment")] == ["s1", "s2", "s0"]


def test_a_correction_stands_in_place_of_what_it_corrects(work, now):
    corrected = replace(SESSION, version=2, day=date(2026, 2, 4), parts=PARTS[:1], end=590)
    log(work, now, SESSION, corrected)
    assert work.ledger.of_enrolment("enrolment") == (corrected,)
    assert work.ledger.versions("s1") == 2


def test_one_version_is_logged_once(work, now):
    log(work, now, SESSION)
    with pytest.raises(IntegrityError):
        log(work, now, SESSION)


def test_any_number_of_sessions_takes_two_queries(work, now):
    log(work, now, *(replace(SESSION, id=f"s{place}") for place in range(12)))
    with counted(work) as statements:
        assert len(work.ledger.of_enrolment("enrolment")) == 12
    assert len(statements) == 2


def test_what_waits_for_a_host_is_found_until_it_is_decided(work, now):
    log(work, now, SESSION, replace(SESSION, id="s2", state="signed_off"), replace(SESSION, id="s3", host=""))
    assert work.ledger.waiting_for("host") == (("enrolment", SESSION),)
    work.ledger.set_state("s1", "signed_off", now)
    assert work.ledger.waiting_for("host") == ()
    assert work.ledger.now("s1").state == "signed_off"


def test_every_change_shows_in_what_a_standing_follows_from(work, now):
    seen = [work.ledger.changed_at("enrolment")]
    log(work, now, SESSION)
    seen.append(work.ledger.changed_at("enrolment"))
    work.ledger.set_state("s1", "signed_off", now + timedelta(seconds=1))
    seen.append(work.ledger.changed_at("enrolment"))
    assert len(set(seen)) == 3


def test_an_unknown_session_is_nothing(work):
    assert (work.ledger.now("x"), work.ledger.enrolment_of("x"), work.ledger.versions("x")) == (None, None, 0)


def test_another_school_sees_none_of_it(store, work, now):
    log(work, now, SESSION)
    work.commit()
    with store.reading("other") as elsewhere:
        assert (elsewhere.ledger.of_enrolment("enrolment"), elsewhere.ledger.now("s1")) == ((), None)
        assert elsewhere.ledger.waiting_for("host") == ()
