"""The jobs, called directly: what each does at which hour of the school's day."""

from dataclasses import replace
from datetime import timedelta

import pytest

from app.settings import Settings
from app.use_cases.keeping_proof import Root
from app.worker import jobs
from app.worker.bench import Bench
from tests.app.conftest import HALDEN
from tests.app.storage.cast import enrol
from tests.app.use_cases.test_reminding_hosts import mails, wait


@pytest.fixture
def school(store, now):
    with store.writing("halden") as work:
        enrol(work, now)
        work.commit()
    return store


def bench(store, moment):
    settings = Settings("", public_address="https://hours.school.internal", host_link_days=5)
    return Bench(store, settings, lambda: moment)


def test_hosts_are_written_to_in_the_daytime_only(school, now):
    """Oslo is an hour ahead of UTC in March."""
    wait(school, now, "a")
    day = (now + timedelta(days=3)).replace(minute=0)
    for hour, written in ((3, 0), (6, 0), (19, 0), (7, 1)):
        jobs.reminders(bench(school, day.replace(hour=hour)), HALDEN)
        assert len(mails(school)) == written
    assert "https://hours.school.internal/h/halden." in mails(school)[0].words
    assert "It works for 5 days." in mails(school)[0].words


def told(store, moment, *, root=None, audit=None, job=jobs.root):
    job(replace(bench(store, moment), find_root=root, audit=audit), HALDEN)
    return [mail.words for mail in mails(store)]


def test_the_root_is_told_to_each_director_once_a_day_and_made_up_for(school, now):
    """Each director has a copy of their own that the school can't change afterwards."""
    asked = []

    def find(work):
        asked.append(work)
        return Root(12, "ab" * 32)

    assert told(school, now.replace(hour=12), root=find) == []
    for minute in (0, 30):
        assert len(told(school, now.replace(hour=19, minute=minute), root=find)) == 1
    assert len(told(school, now.replace(hour=20) + timedelta(days=1), root=find)) == 2
    assert len(asked) == 2
    assert "ab" * 32 in told(school, now.replace(hour=12))[0]


def test_the_record_is_audited_once_a_night(school, now):
    asked = []

    def audit(work):
        asked.append(work)
        return ()

    night = now.replace(hour=2)
    told(school, now.replace(hour=12), audit=audit, job=jobs.audit)
    assert asked == []
    for day in (0, 0, 1):
        assert told(school, night + timedelta(days=day), audit=audit, job=jobs.audit) == []
    assert len(asked) == 2


def test_what_an_audit_finds_wrong_is_told_at_once_and_looked_at_again(school, now):
    night = now.replace(hour=2)
    for day, number in ((0, 1), (0, 1), (1, 2)):
        words = told(school, night + timedelta(days=day), audit=lambda _: ("event 7 was changed",), job=jobs.audit)
        assert len(words) == number
    assert "event 7 was changed" in words[0]


def test_without_proof_neither_is_done(school, now):
    assert told(school, now.replace(hour=20)) == told(school, now.replace(hour=2), job=jobs.audit) == []
