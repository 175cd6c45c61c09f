"""The form of a week that is tried: planned sessions as typed in the address, read or refused all at once."""

from collections.abc import Mapping
from dataclasses import dataclass, fields
from datetime import date, timedelta

from app.web.session_form import PartForm
from app.web.typed import typed_whole
from assessments.hours.session import Part, Session
from curriculum.faults import N_, Fault

MOST_SESSIONS = 7
SHOWN_AT_FIRST = 3
LONGEST_SESSION = 600
DAYS_AHEAD = 56
PART = tuple(one.name for one in fields(PartForm))
LONGEST = 100
OWN = "self"


@dataclass(frozen=True, slots=True)
class PlannedForm:
    """One planned session as typed."""

    day: str = ""
    host: str = ""
    part: PartForm = PartForm()

    @property
    def is_empty(self) -> bool:
        return not (self.day or self.host) and self.part.is_empty


def typed_trial(query: Mapping[str, str]) -> tuple[PlannedForm, ...]:
    """Every row of the form as it was typed; an address without any gives empty rows."""

    def one(name: str) -> str:
        return query.get(name, "").strip()[:LONGEST].replace("\x00", "")

    return tuple(
        PlannedForm(
            one(f"day-{i}"), one(f"host-{i}"),
            PartForm(**{name: one(f"{name}-{i}") for name in PART} | {"mode": one(f"mode-{i}") or "live"}),
        )
        for i in range(MOST_SESSIONS)
    )  # fmt: skip


def planned_sessions(forms: tuple[PlannedForm, ...], today: date, faults: list[Fault]) -> list[tuple[int, Session]]:
    """The planned sessions with their rows, as if each were signed; what can't be read is added to `faults`."""
    return [
        (i, planned)
        for i, form in enumerate(forms)
        if not form.is_empty and (planned := _planned(i, form, today, faults)) is not None
    ]


def _planned(i: int, form: PlannedForm, today: date, faults: list[Fault]) -> Session | None:
    before = len(faults)
    try:
        day = date.fromisoformat(form.day)
    except ValueError:
        day = None
        faults.append(Fault("no-day", N_("choose the day"), field=f"day-{i}"))
    if day is not None and not today <= day <= today + timedelta(days=DAYS_AHEAD):
        sentence = N_("plan from today to eight weeks ahead; what is past is logged instead")
        faults.append(Fault("not-ahead", sentence, field=f"day-{i}"))
    minutes = typed_whole(form.part.minutes, f"minutes-{i}", 1, LONGEST_SESSION, faults)
    if not form.part.activity:
        faults.append(Fault("no-activity", N_("choose what you did"), field=f"activity-{i}"))
    if len(faults) > before:
        return None
    more = {"client_stage": form.part.stage} if form.part.stage else {}
    shown = form.part
    part = Part(minutes, shown.activity, shown.apparatus, shown.level, shown.mode, shown.client, more)
    own = form.host == OWN
    return Session(
        f"planned-{i}", day, 0, minutes, (part,), 0, "" if own else form.host,
        proof="attested" if own else "signature", state="attested" if own else "signed_off",
    )  # fmt: skip
