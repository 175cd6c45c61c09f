"""The jobs, called directly: what each does at which hour of the school's day."""

from datetime import timedelta

import pytest
from sqlalchemy import text

from app.files.receipts import read_held
from app.queries.proof import audit, current_root
from app.settings import Settings
from app.use_cases.asker import Asker
from app.use_cases.keeping_proof import erase_words
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


def told(store, moment, job=jobs.root):
    job(bench(store, moment), HALDEN)
    return [mail.words for mail in mails(store)]


def add_event(store, now):
    with store.writing("halden") as work:
        work.record.append("k", "s", "p", now, {"a": 1})
        work.commit()


def test_the_root_is_told_to_each_director_once_a_day_and_made_up_for(school, now):
    """Each director has a copy of their own that the school can't change afterwards."""
    add_event(school, now)
    assert told(school, now.replace(hour=12)) == []
    for minute in (0, 30):
        assert len(told(school, now.replace(hour=19, minute=minute))) == 1
    add_event(school, now)
    first, second = sorted(told(school, now.replace(hour=20) + timedelta(days=1)), key=lambda words: "has 2" in words)
    with school.reading("halden") as work:
        for words, size in ((first, 1), (second, 2)):
            held = read_held(words)
            assert (held.school, held.size) == ("halden", size)
            assert audit(work).against(held) == ()


def test_the_record_is_audited_once_a_night_and_held_against_the_root_last_told(school, now):
    """Whoever makes the tree fit what was changed can't change what was told."""
    add_event(school, now)
    told(school, now.replace(hour=20))
    night = now.replace(hour=2)
    assert len(told(school, night, jobs.audit)) == 1
    with school.engine.begin() as connection:
        if connection.dialect.name == "sqlite":
            for table, word in (("event", "update"), ("record_node", "update")):
                connection.execute(text(f"drop trigger {table}_keeps_{word}"))
        else:
            for table in ("event", "record_node"):
                connection.execute(text(f"alter table {table} disable trigger user"))
        connection.execute(text("update event set actor = 'q'"))
    assert len(told(school, night + timedelta(hours=1), jobs.audit)) == 1
    assert len(told(school, now.replace(hour=12) + timedelta(days=1), jobs.audit)) == 1
    for day, number in ((1, 2), (1, 2), (2, 3)):
        words = told(school, night + timedelta(days=day), jobs.audit)
        assert len(words) == number
    assert any("no longer what they were then" in one for one in words)


def test_erasing_words_leaves_every_proof_whole_and_nothing_to_guess_from(school, now):
    """Article 17 GDPR: the words and what could confirm a guess are gone; the record holds as before."""
    with school.writing("halden") as work:
        hash = work.record.keep_words("w", "ada", "sore shoulder", b"a salt of its own")
        work.record.append("session-noted", "one", "ada", now, {"note": hash})
        work.commit()
    with school.reading("halden") as work:
        held = (current_root(work),)
        assert audit(work).faults == ()
    asker = Asker(HALDEN, "bo", "Bo Lund", now)
    assert [erase_words(school, asker, "ada") for _ in range(2)] == [1, 0]
    with school.reading("halden") as work:
        assert [audit(work).against(one) for one in held] == [()]
        assert audit(work).faults == ()
        kept = [str(row) for table in ("personal_text", "personal_salt") for row in
                work.session.execute(text(f"select * from {table}"))]  # fmt: skip
    assert "shoulder" not in str(kept)
    assert "a salt of its own" not in str(kept)


def test_words_changed_behind_the_record_are_found(school, now):
    with school.writing("halden") as work:
        hash = work.record.keep_words("w", "ada", "sore shoulder", b"salt")
        work.record.append("k", "one", "ada", now, {"note": hash})
        work.commit()
    with school.reading("halden") as work:
        assert audit(work).faults == ()
        work.session.execute(text("update personal_text set words = 'fine shoulder'"))
        work.session.expire_all()
        assert [fault.code for fault in audit(work).faults] == ["words"]
