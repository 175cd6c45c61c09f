"""The hours of the demo's trainees: each put down in the evening of its day, and signed some days later. All invented."""

import hashlib
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from itertools import count
from random import Random
from zoneinfo import ZoneInfo

from app.clock import day_in
from app.storage.enrolments import Enrolment
from app.storage.hosts import Host, HostDecision
from app.storage.work import School, Work
from assessments.hours.recorded import version_body
from assessments.hours.session import Part, Session

# What a trainee does over a full programme: activity, apparatus, hours, proof.
WORK = (
    ("workshop", "", 120, "registered"),
    ("observation", "reformer", 50, "signature"),
    ("observation", "mat", 30, "signature"),
    ("observation", "chair", 20, "signature"),
    ("self_practice", "mat", 60, "attested"),
    ("self_practice", "reformer", 50, "attested"),
    ("assisting", "reformer", 40, "signature"),
    ("practice_teaching", "reformer", 26, "signature"),
    ("practice_teaching", "mat", 18, "signature"),
    ("practice_teaching", "trapeze_table", 16, "signature"),
    ("supervised_teaching", "reformer", 20, "signature"),
)
# Whose hours were all put down in one evening, so that there is something to ask about.
IN_ONE_GO, BEFORE = "enrolment-6", timedelta(days=3)
EVENING, DAYS_TO_SIGN = time(21), 2
RECENT_DAYS = 12


def keep_demo_hours(  # noqa: PLR0913 - the demo's one recipe
    work: Work, chance: Random, hosts: list[Host], enrolled: list[tuple[Enrolment, float]], school: School, now: datetime
) -> None:  # fmt: skip
    """Put down what each trainee did (the share of a whole programme) in the order in which it happened."""
    zone, events = ZoneInfo(school.time_zone), []
    for enrolment, share in enrolled:
        for session in _sessions(chance, enrolment, hosts, share, day_in(now, school.time_zone)):
            evening = datetime.combine(session.day, EVENING, zone)
            logged = min(now - BEFORE if enrolment.id == IN_ONE_GO else evening, now)
            events.append((logged, len(events), _log, enrolment, session))
            if session.state == "signed_off":
                signed = min(logged + timedelta(days=DAYS_TO_SIGN), now)
                events.append((signed, len(events), _sign, enrolment, session))
    for at, _, act, enrolment, session in sorted(events, key=lambda one: one[:2]):
        act(work, enrolment, session, at)


def _log(work: Work, enrolment: Enrolment, session: Session, at: datetime) -> None:
    registered = session.proof == "registered"
    evidence, by = ("Register of the taught module", "director") if registered else ("", enrolment.person_id)
    waits = replace(session, state="waiting") if session.state == "signed_off" else session
    work.ledger.add_version(waits, enrolment.id, None, evidence, by, at)
    kind = "hours-registered" if registered else "session-logged"
    work.record.append(kind, session.id, by, at, version_body(session, enrolment.id, evidence))


def _sign(work: Work, enrolment: Enrolment, session: Session, at: datetime) -> None:
    """The host's signature; the demo's receipts are numbered so that every start gives the same."""
    receipt = hashlib.sha256(session.id.encode()).hexdigest()[:16].upper()
    work.ledger.set_state(session.id, "signed_off", at)
    work.hosts.add_decision(HostDecision(session.id, 1, session.host, "signed_off", None, receipt, at))
    body = {"session": session.id, "version": 1, "host": session.host, "receipt": receipt, "reason": ""}
    work.record.append("session-signed", session.id, f"host:{session.host}", at, body)


def _free_hour(taken: set[tuple[date, int]], day: date, wanted: int, hours: int) -> int:
    """`wanted`, else the first hour from eight with an hour on the way before and after; it is taken then."""
    for first in (wanted, *range(8, 24 - hours)):
        if not {(day, hour) for hour in range(first - 1, first + hours + 1)} & taken:
            taken |= {(day, hour) for hour in range(first, first + hours)}
            return first
    return wanted


def _sessions(
    chance: Random, enrolment: Enrolment, hosts: list[Host], share: float, today: date
) -> Iterator[Session]:  # fmt: skip
    numbers, taken, days = count(1), set(), (today - enrolment.enrolled_on).days
    for activity, apparatus, whole, proof in WORK:
        length = 240 if activity == "workshop" else 120 if activity in ("observation", "assisting") else 60
        for place in range(int(whole * 60 * share / length)):
            number = next(numbers)
            wanted = 8 + number % 3 if length < 240 else 13
            day = enrolment.enrolled_on + timedelta(days=(number * 37 + place) % max(days - 1, 1))
            start = 60 * _free_hour(taken, day, wanted, length // 60)
            host = hosts[chance.randrange(len(hosts))] if proof == "signature" else None
            recent = (today - day).days < RECENT_DAYS
            state = {"attested": "attested", "registered": "registered"}.get(
                proof, "waiting" if recent else "signed_off"
            )
            client = f"C{number % 14}" if activity.endswith("teaching") else ""
            more = {"client_stage": "beginner"} if client and number % 4 == 0 else {}
            part = Part(length, activity, apparatus, "beginner", "live", client, more)
            yield Session(
                f"{enrolment.id}-s{number}", day, start, start + length, (part,), 0, host.id if host else "",
                host.site if host else "", "private", proof, 1, state,
            )  # fmt: skip
