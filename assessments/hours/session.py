"""A session as logged: one sitting, one signature, one or more parts; and the states it goes through."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import Literal

from assessments.hours.entry import Entry, State

Proof = Literal["signature", "attested", "registered", "accepted"]
PROOFS: tuple[Proof, ...] = Proof.__args__
KEPT_BY_THE_SCHOOL: tuple[Proof, ...] = ("registered", "accepted")
Step = Literal["send", "sign", "send_back", "withdraw"]

STATE_OF_PROOF: Mapping[Proof, State] = {
    "signature": "not_sent",
    "attested": "attested",
    "registered": "registered",
    "accepted": "accepted",
}
NEXT: Mapping[Step, Mapping[State, State]] = {
    "send": {"not_sent": "waiting"},
    "sign": {"waiting": "signed_off"},
    "send_back": {"waiting": "sent_back"},
    "withdraw": dict.fromkeys(("not_sent", "waiting", "sent_back", "attested"), "withdrawn"),
}


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a session; `client` may hold several codes joined with `|`, never a name."""

    minutes: int
    activity: str
    apparatus: str = ""
    level: str = ""
    mode: str = "live"
    client: str = ""
    more: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Session:
    """`start` and `end` are minutes of the school's own day; `breaks` are minutes taken out.

    What the school keeps may have no times of day: it starts at 0 and ends at its length. With `first` it took several
    days, from there to `day`.
    """

    id: str
    day: date
    start: int
    end: int
    parts: tuple[Part, ...]
    breaks: int = 0
    host: str = ""
    site: str = ""
    setting: str = ""
    proof: Proof = "signature"
    version: int = 1
    state: State = "not_sent"
    first: date | None = None

    @property
    def minutes(self) -> int:
        """The time of the session without its breaks."""
        return self.end - self.start - self.breaks

    @property
    def timed(self) -> bool:
        """Whether it is known at what time of the day it took place."""
        return self.proof not in KEPT_BY_THE_SCHOOL or self.start > 0

    @property
    def days(self) -> int:
        """How many days it took, first and last counted."""
        return (self.day - self.first).days + 1 if self.first else 1


def after(state: State, step: Step) -> State | None:
    """The state a step leads to, or None where it can't be taken."""
    return NEXT[step].get(state)


def entries_of(session: Session) -> tuple[Entry, ...]:
    """Each part as an entry of the credit program, with its session's fields.

    A part that took several days is an entry for each, in even whole minutes: when it was done within them isn't known.
    """
    return tuple(entry for place, part in enumerate(session.parts, start=1) for entry in _entries(session, place, part))


def _entries(session: Session, place: int, part: Part) -> Iterator[Entry]:
    name, fields = f"{session.id}/{place}", _fields(session, part)
    if session.days == 1:
        yield Entry(name, session.day, part.minutes, session.state, fields)
        return
    for number in range(session.days):
        before, with_it = (part.minutes * some // session.days for some in (number, number + 1))
        if with_it > before:
            day = session.first + timedelta(days=number)
            yield Entry(f"{name}.{number + 1}", day, with_it - before, session.state, fields)


def _fields(session: Session, part: Part) -> dict[str, tuple[str, ...]]:
    named = {
        "session": session.id,
        "host": session.host,
        "site": session.site,
        "setting": session.setting,
        "activity": part.activity,
        "apparatus": part.apparatus,
        "level": part.level,
        "mode": part.mode,
        "client": part.client,
        **part.more,
    }
    return {name: values for name, text in named.items() if (values := _values(text))}


def _values(text: str) -> tuple[str, ...]:
    return tuple(value for piece in text.split("|") if (value := piece.strip()))
