"""A session as logged: one sitting, one signature, one or more parts; and the states it goes through."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
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
    """`start` and `end` are minutes of the school's own day; `breaks` are minutes taken out."""

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

    @property
    def minutes(self) -> int:
        """The time of the session without its breaks."""
        return self.end - self.start - self.breaks


def after(state: State, step: Step) -> State | None:
    """The state a step leads to, or None where it can't be taken."""
    return NEXT[step].get(state)


def entries_of(session: Session) -> tuple[Entry, ...]:
    """Each part as an entry of the credit program, with its session's fields."""
    return tuple(_entry(session, place, part) for place, part in enumerate(session.parts, start=1))


def _entry(session: Session, place: int, part: Part) -> Entry:
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
    fields = {name: values for name, text in named.items() if (values := _values(text))}
    return Entry(f"{session.id}/{place}", session.day, part.minutes, session.state, fields)


def _values(text: str) -> tuple[str, ...]:
    return tuple(value for piece in text.split("|") if (value := piece.strip()))
