"""Reminders on the third and the tenth day: one mail a host, each stage once, nobody who is paused."""

import re
from dataclasses import replace
from datetime import date, timedelta

import pytest

from app.storage.hosts import Host
from app.use_cases.keeping_hosts import Post
from app.use_cases.reminding_hosts import remind_hosts
from app.web.visit import token_hash
from app.wording.languages import ENGLISH
from assessments.hours.session import Part, Session
from tests.app.conftest import HALDEN, OTHER
from tests.app.storage.cast import HOST, enrol

POST = Post(21, "https://hours.school.internal")
BUSY = Host("busy", "Busy Host", "busy@site.example", "Studio", "full", date(2025, 1, 1))


@pytest.fixture
def school(store, now):
    with store.writing("halden") as work:
        enrol(work, now)
        work.hosts.add(BUSY)
        work.commit()
    return store


def wait(store, at, *ids, host="host", version=1):
    with store.writing("halden") as work:
        for id in ids:
            part = Part(60, "observation", "mat", "", "live", "", {})
            session = Session(id, at.date(), 600, 660, (part,), 0, host, "", "", "signature", version, "waiting")
            work.ledger.add_version(session, "enrolment", None, "", "ada", at)
        work.commit()


def remind(store, moment, school=HALDEN):
    return remind_hosts(store, school, moment, POST, ENGLISH)


def mails(store):
    with store.reading("halden") as work:
        return work.mail.newest(20)


def test_one_mail_a_host_on_the_third_day_and_one_on_the_tenth(school, now):
    wait(school, now, "a", "b")
    wait(school, now, "c", host="busy")
    sent = [remind(school, now + timedelta(days=day)) for day in range(13)]
    assert sent == [0, 0, 0, 2, 0, 0, 0, 0, 0, 0, 2, 0, 0]
    assert sorted(mail.to_address for mail in mails(school)) == sorted(2 * [HOST.email, BUSY.email])
    assert any("2 sessions of trainees of Halden Row wait for your signature" in mail.words for mail in mails(school))


def test_the_link_in_it_opens_the_hosts_page_and_only_its_hash_is_kept(school, now):
    wait(school, now, "a")
    remind(school, now + timedelta(days=3))
    token = re.search(r"/h/halden\.(\S+)", mails(school)[0].words)[1]
    with school.reading("halden") as work:
        assert work.hosts.by_link(token_hash(token), now + timedelta(days=4)) == HOST


def test_a_later_session_joins_the_mail_of_its_own_stage(school, now):
    """On the third day of the second one mail names both, and the first is not asked about on its own again."""
    wait(school, now, "a")
    wait(school, now + timedelta(days=2), "b")
    assert [remind(school, now + timedelta(days=day)) for day in (3, 4, 5, 6)] == [1, 0, 1, 0]
    assert "2 sessions" in mails(school)[0].words


def test_after_days_without_a_worker_the_last_stage_is_told_of_once(school, now):
    wait(school, now, "a")
    assert [remind(school, now + timedelta(days=day)) for day in (12, 13, 30)] == [1, 0, 0]


def test_a_correction_waits_anew(school, now):
    wait(school, now, "a")
    remind(school, now + timedelta(days=3))
    wait(school, now + timedelta(days=4), "a", version=2)
    assert [remind(school, now + timedelta(days=day)) for day in (6, 7)] == [0, 1]


def test_nobody_who_is_paused_is_reminded_until_they_are_back(school, now):
    wait(school, now, "a")
    with school.writing("halden") as work:
        work.hosts.put(replace(HOST, paused_at=now))
        work.commit()
    assert remind(school, now + timedelta(days=4)) == 0
    with school.writing("halden") as work:
        work.hosts.put(HOST)
        work.commit()
    assert remind(school, now + timedelta(days=5)) == 1


def test_what_is_signed_and_what_is_another_schools_is_not_asked_for(school, now):
    wait(school, now, "a", "b")
    assert remind(school, now + timedelta(days=3), OTHER) == 0
    with school.writing("halden") as work:
        work.ledger.set_state("a", "signed_off", now)
        work.ledger.set_state("b", "withdrawn", now)
        work.commit()
    assert remind(school, now + timedelta(days=3)) == 0


def test_days_are_the_schools_own(school, now):
    """23:30 UTC is the next day in Oslo."""
    late = now.replace(hour=23, minute=30)
    wait(school, late, "a")
    assert remind(school, now + timedelta(days=3)) == 0
    assert remind(school, now + timedelta(days=4)) == 1
