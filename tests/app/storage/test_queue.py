"""The queue: asked in one place, done in another, and never a program."""

import json

import pytest
from sqlalchemy import make_url

from app.storage.queue import Queue


@pytest.fixture
def url(database_urls):
    made = database_urls.empty()
    yield made
    database_urls.drop(made)


def work_off(queue):
    while (task := queue.huey.dequeue()) is not None:
        queue.huey.execute(task)


@pytest.fixture
def opened(url):
    """Queues of one database; closed when the test is over."""
    made = []

    def open_one(run=None):
        made.append(Queue(url, run))
        made[-1].huey.storage.blocking = False
        return made[-1]

    yield open_one
    for queue in made:
        queue.close()


def test_what_one_process_asks_another_does_in_its_order(opened):
    done = []
    asking, working = opened(), opened(lambda *what: done.append(what))
    asking.ask("mail", "halden")
    asking.ask("season", "halden", "practical-basic")
    work_off(working)
    assert done == [("mail", "halden", ""), ("season", "halden", "practical-basic")]
    work_off(working)
    assert len(done) == 2


def test_what_is_kept_is_text_and_no_program(opened):
    queue = opened()
    queue.ask("season", "halden", "practical-basic")
    (kept,) = queue.huey.storage.enqueued_items()
    assert json.loads(bytes(kept))[6] == ["season", "halden", "practical-basic"]


def test_a_queue_that_fails_stops_nobody_who_asks(opened, caplog):
    queue = opened()
    queue.huey.storage.enqueue = lambda *_: 1 / 0
    queue.ask("mail", "halden")
    assert "mail was not put on the queue" in caplog.text


def test_it_lies_beside_the_database(opened, url):
    queue = opened()
    if queue.huey.storage.__class__.__name__.startswith("Sqlite"):
        assert queue.huey.storage.filename == f"{make_url(url).database}.queue"
