"""The recording of an exam and its life: agreed to, kept where the school keeps it, seen by few, deleted when it is over."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal
from urllib.parse import urlsplit

from curriculum.faults import N_, Fault

Agreed = Literal["", "yes", "no"]
State = Literal["none", "declined", "kept", "due", "deleted"]
LONGEST = 400


@dataclass(frozen=True, slots=True)
class Recording:
    """`agreed` is the candidate's own word. `link` says where in the school's own store it is, "" before and after.

    `longer_until` keeps it beyond the usual day, while an appeal is open, with its reason.
    """

    agreed: Agreed = ""
    link: str = ""
    longer_until: date | None = None
    longer_why: str = ""
    deleted_on: date | None = None


def delete_on(recording: Recording, decided: date | None, days: int) -> date | None:
    """The day on which it is deleted: so many days after the decision, later where it is kept longer; None before one."""
    if decided is None:
        return None
    usual = decided + timedelta(days=days)
    return max(usual, recording.longer_until) if recording.longer_until else usual


def recording_state(recording: Recording, decided: date | None, days: int, today: date) -> State:
    """How it stands today; `due` says that it has to be deleted now."""
    if recording.deleted_on:
        return "deleted"
    if recording.link:
        last = delete_on(recording, decided, days)
        return "due" if last is not None and last <= today else "kept"
    return "declined" if recording.agreed == "no" else "none"


def recording_faults(recording: Recording, client_agrees: bool, today: date) -> Iterator[Fault]:
    """Why it can't be kept: nothing is without both consents, and a link leads somewhere and holds no password."""
    if recording.link and recording.agreed != "yes":
        yield Fault("not-agreed", N_("the candidate has not agreed to be recorded"), field="link")
    if recording.link and not client_agrees:
        yield Fault("client-not-agreed", N_("the client has not agreed to be filmed"), field="link")
    if recording.link and not _is_link(recording.link):
        sentence = N_("an address in the school's own store, beginning with https:// and without a password in it")
        yield Fault("no-link", sentence, field="link")
    if recording.longer_until and recording.longer_until <= today:
        yield Fault("in-past", N_("choose a day to come"), field="until")
    if recording.longer_until and not recording.longer_why.strip():
        yield Fault("no-reason", N_("say why it is kept longer"), field="why")
    if max(len(recording.link), len(recording.longer_why)) > LONGEST:
        yield Fault("too-long", N_("keep this under {most} letters"), {"most": LONGEST}, "link")


def _is_link(text: str) -> bool:
    try:
        found = urlsplit(text)
        return found.scheme == "https" and bool(found.hostname) and "@" not in found.netloc and " " not in text
    except ValueError:
        return False
