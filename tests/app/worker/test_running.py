"""The worker: jobs from the queue and by the clock; one that fails stops no other."""

from threading import Event

import pytest

from app.settings import Settings
from app.storage.queue import Queue
from app.worker.bench import Bench
from app.worker.jobs import JOBS, Job
from app.worker.running import Worker


@pytest.fixture
def bench(store, now):
    settings = Settings(store.engine.url.render_as_string(hide_password=False))
    return Bench(store, settings, lambda: now)


def test_a_job_is_done_for_one_school_or_for_each_and_a_failure_stops_no_other(bench, caplog):
    done = []

    def note(_bench, school, about):
        done.append((school.id, about))
        if school.id == "halden":
            raise ValueError("broken")

    worker = Worker(bench, (Job("note", note, minutes="*"),))
    worker.do("note", "other", "x")
    worker.do_all()
    worker.stop()
    assert done == [("other", "x"), ("halden", ""), ("other", "")]
    assert "note failed for halden-row" in caplog.text


def test_a_job_nobody_knows_is_told_of(bench, caplog):
    worker = Worker(bench, ())
    worker.do("sing")
    worker.stop()
    assert "no job called sing" in caplog.text


def test_beside_the_requests_it_does_what_is_asked_and_ends_when_told(bench):
    done = Event()
    worker = Worker(bench, (Job("note", lambda *_: done.set()),))
    worker.start_beside()
    try:
        asking = Queue(bench.settings.database)
        asking.ask("note", "halden")
        assert done.wait(60)
        asking.close()
    finally:
        worker.stop()
    assert not any(thread.is_alive() for _, thread in worker._beside.worker_threads)


def test_every_job_has_a_name_of_its_own_and_mail_goes_out_every_minute():
    assert len({job.name for job in JOBS}) == len(JOBS)
    assert {job.name: job.minutes for job in JOBS}["mail"] == "*"


def test_without_a_mail_server_nothing_is_sent(bench):
    worker = Worker(bench)
    worker.do("mail")
    worker.stop()
