"""What the demo's host teachers did beside signing: terms, a PIN, a signature on the spot, a denial, worries. All invented."""

import secrets
from datetime import datetime, time, timedelta
from zoneinfo import ZoneInfo

from app.clock import day_in
from app.queries.worries import CLOSED
from app.storage.host_terms import ASKED, TAKEN, Standing, Terms
from app.storage.places import Place
from app.storage.spot_codes import HostPin
from app.storage.work import School, Store, Work
from app.storage.worries import Worry
from app.use_cases.deciding_as_host import DENIED, SIGNED, keep_decision
from assessments.hours.session import Session

PIN = "264197"
AWAY = "I was at a course that week; somebody else had my lessons."
OPEN = "Left alone with a client who is new to the chair. Perhaps a word about when to call somebody?"
PAST = "Came late three times in a row and could not say what was watched."
CAME_OF_IT = "We talked; the way from work was too short. Comes on Saturdays now."
EVENING = time(20, 15)
LEFT_ALONE = ("enrolment-1", "enrolment-4")


def add_demo_hosts(store: Store, school: School, pin_hash: str, now: datetime) -> None:
    """Sessions of `LEFT_ALONE` stay as they are; what has no session to be about is left out."""
    with store.writing(school.id) as work:
        work.host_terms.put(Terms("host-1", 2, ask_first=False, since=now - timedelta(days=200)))
        work.host_terms.put(Terms("host-3", 3, ask_first=True, since=now - timedelta(days=20)))
        for person_id in ("trainee-1", "trainee-4", "trainee-7"):
            work.host_terms.put_standing(Standing("host-3", person_id, TAKEN, now - timedelta(days=15)))
        work.host_terms.put_standing(Standing("host-3", "trainee-8", ASKED, now - timedelta(days=1)))
        add_places(work, school, now)
        work.spot_codes.put_pin(HostPin("host-1", pin_hash, now - timedelta(days=90)))
        for host_id, kind, words, more in (("host-1", SIGNED, "", {"by": "pin"}), ("host-2", DENIED, AWAY, {})):
            session = _waiting(work, host_id)
            if session is not None:
                keep_decision(work, work.hosts.by_id(host_id), session, kind, words, now, more)
        _worry(work, school, "worry-of-the-demo", OPEN, "host-4", 1)
        told = _worry(work, school, "worry-that-is-closed", PAST, "host-5", 20)
        _close(work, "worry-that-is-closed", told + timedelta(hours=40))
        work.commit()


def add_places(work: Work, school: School, now: datetime) -> None:
    """One place that is taken, so that one of two is free then, and one that waits for an answer."""
    day = day_in(now, school.time_zone) + timedelta(days=2)
    for id, person_id, standing, start in (
        ("place-taken", "trainee-4", TAKEN, 600),
        ("place-asked", "trainee-1", ASKED, 630),
    ):
        what = ("observation", "reformer", "beginner")
        work.places.put(
            Place(id, "host-1", person_id, day, start, start + 60, *what, standing, now - timedelta(hours=3))
        )


def _waiting(work: Work, host_id: str) -> Session | None:
    found = (one for enrolment_id, one in work.ledger.waiting_for(host_id) if enrolment_id not in LEFT_ALONE)
    return next(found, None)


def _worry(work: Work, school: School, id: str, words: str, host_id: str, back: int) -> datetime:  # noqa: PLR0913
    """About the signed session of somebody else that is so many from the newest; told in the evening of its day."""
    signed = [one for enrolment_id, one in work.ledger.signed_by(host_id) if enrolment_id not in LEFT_ALONE]
    session = signed[-back]
    at = datetime.combine(session.day, EVENING, ZoneInfo(school.time_zone))
    words_id = secrets.token_hex(16)
    kept = work.record.keep_words(words_id, host_id, words, secrets.token_bytes(16))
    work.worries.add(Worry(id, host_id, session.id, words_id, at))
    work.record.append("worry-told", id, f"host:{host_id}", at, {"worry": id, "host": host_id, "words": kept})
    return at


def _close(work: Work, id: str, at: datetime) -> None:
    words_id = secrets.token_hex(16)
    kept = work.record.keep_words(words_id, "director", CAME_OF_IT, secrets.token_bytes(16))
    work.record.append(CLOSED, id, "director", at, {"worry": id, "answer": kept, "answer_id": words_id})
