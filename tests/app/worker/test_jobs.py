"""The jobs, called directly: what each does at which hour of the school's day."""

from datetime import timedelta

import pytest

from app.settings import Settings
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
