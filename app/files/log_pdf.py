"""The hour log with its signatures as a tagged PDF (PDF/UA-1), to hand in; import this late, typst is heavy."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Protocol

from app.files.pdf import made_pdf
from app.wording.dates import day_text, moment_text, times_text
from app.wording.hours import hours
from app.wording.languages import Language
from app.wording.sessions import STATES, parts_text
from assessments.hours.session import Session
from curriculum.faults import N_

LABELS = {
    "day": N_("Day"),
    "time": N_("Time"),
    "what": N_("What"),
    "host": N_("Host teacher"),
    "proof": N_("Proof"),
    "sums": N_("Hours by proof"),
    "sessions": N_("Every session"),
    "sign": N_("For the school: name, date, signature"),
    "root": N_("Root of the record when this was printed:"),
}
FOOTER = N_("Printed from the record on {day}. Whether the record still holds can be checked with the line at the end.")


@dataclass(frozen=True, slots=True)
class LogHead:
    """Whose log it is, in which programme, and the line with the record's root."""

    person: str
    school: str
    programme: str
    root: str


class Logged(Protocol):
    """A session with its host's name and signature."""

    session: Session
    host: str
    signed_at: datetime | None
    receipt: str
    evidence: str


def log_pdf(sessions: Sequence[Logged], head: LogHead, on: datetime, zone: str, language: Language) -> bytes:
    """The log; the same arguments give the same bytes. Withdrawn sessions are left out."""
    standing = (one for one in sessions if one.session.state != "withdrawn")
    shown = sorted(standing, key=lambda one: (one.session.day, one.session.start))
    day = moment_text(on, zone, language.locale)
    data = {
        **language.printed(),
        "title": language(N_("Hours of {person}"), person=head.person),
        "school": head.school,
        "person": head.person if head.person.strip() else "–",
        "programme": head.programme,
        "day": day,
        "footer": language(FOOTER, day=day),
        "labels": {name: language(text) for name, text in LABELS.items()},
        "sums": _sums(shown, language),
        "rows": [_row(one, zone, language) for one in shown],
        "root": head.root,
    }
    return made_pdf("log.typ", data, int(on.timestamp()))


def _sums(sessions: Sequence[Logged], language: Language) -> list[list[str]]:
    sums: dict[str, int] = {}
    for one in sessions:
        sums[one.session.state] = sums.get(one.session.state, 0) + one.session.minutes
    return [[language(STATES[state][0]), hours(minutes, language)] for state, minutes in sorted(sums.items())]


def _row(one: Logged, zone: str, language: Language) -> list[str]:
    session = one.session
    length = hours(session.minutes, language)
    times = f"{times_text(session.start, session.end, language)} ({length})" if session.timed else length
    return [_days(session, language), times, parts_text(session.parts, language), one.host, _proof(one, zone, language)]


def _days(session: Session, language: Language) -> str:
    days: list[date] = [session.first, session.day] if session.first else [session.day]
    return " – ".join(day_text(day, language.locale) for day in days)


def _proof(one: Logged, zone: str, language: Language) -> str:
    state = language(STATES[one.session.state][0])
    if one.signed_at is not None:
        at = moment_text(one.signed_at, zone, language.locale)
        return language(N_("{state}, {at}, receipt {receipt}"), state=state, at=at, receipt=one.receipt)
    return f"{state}: {one.evidence}" if one.evidence else state
