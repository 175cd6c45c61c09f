"""The session form: text as typed, always showable again, and turned into a session or refused."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from app.storage.hosts import Host
from app.web.typed import minute_of_day, whole_number
from app.wording.languages import Language
from app.wording.sessions import ACTIVITIES, APPARATUS, LEVELS, MODES, SETTINGS, STAGES, in_words
from assessments.hours.log_rules import clock_time
from assessments.hours.session import KEPT_BY_THE_SCHOOL, Part, Session
from curriculum.faults import N_, Fault, RefusedError
from curriculum.requirements.requirement_set import RequirementSet

MOST_PARTS = 4
PART_FIELDS = ("minutes", "activity", "apparatus", "level", "mode", "client", "stage")
TEXTS = ("day", "start", "end", "breaks", "host", "site", "setting", "note")
# Times of day are offered in steps of so many minutes.
WHOLE = 5
LONGEST = 400
LONGEST_ID = 36


@dataclass(frozen=True, slots=True)
class PartForm:
    """One part as typed."""

    minutes: str = ""
    activity: str = ""
    apparatus: str = ""
    level: str = ""
    mode: str = "live"
    client: str = ""
    stage: str = ""

    @property
    def is_empty(self) -> bool:
        return not (self.minutes or self.activity or self.apparatus or self.client)


@dataclass(frozen=True, slots=True)
class SessionForm:
    """A session as typed; `id` is made once when the form is made."""

    id: str
    version: int = 0
    day: str = ""
    start: str = ""
    end: str = ""
    breaks: str = ""
    host: str = ""
    site: str = ""
    setting: str = ""
    note: str = ""
    sure: bool = False
    parts: tuple[PartForm, ...] = (PartForm(),)

    @classmethod
    def typed(cls, form: Mapping[str, Sequence[str]]) -> "SessionForm":
        """The form as it was sent."""

        def one(name: str) -> str:
            return form.get(name, [""])[0].strip()

        parts = tuple(PartForm(**{name: one(f"{name}-{i}") for name in PART_FIELDS}) for i in range(MOST_PARTS))
        version = whole_number(one("version"), 0)
        return cls(**{name: one(name) for name in ("id", *TEXTS)}, version=version, sure=bool(one("sure")), parts=parts)

    @classmethod
    def of(cls, session: Session) -> "SessionForm":
        """The form that shows a session; a single part of the whole length follows the times, so it is left open."""
        whole = len(session.parts) == 1 and session.parts[0].minutes == session.minutes
        parts = tuple(
            PartForm("" if whole else str(part.minutes), part.activity, part.apparatus, part.level, part.mode, part.client,
                     part.more.get("client_stage", ""))
            for part in session.parts
        )  # fmt: skip
        return cls(
            session.id, session.version, session.day.isoformat(), clock_time(session.start), clock_time(session.end),
            str(session.breaks or ""), session.host or ("self" if session.proof == "attested" else ""), session.site,
            session.setting, parts=parts,
        )  # fmt: skip

    @classmethod
    def like_last(cls, sessions: Sequence[Session], today: date, minute: int, new_id: str) -> "SessionForm":
        """A new form for today, prefilled with what was done last time: at the same time of day where that is over and
        free, else as if it had just ended."""
        own = [one for one in sessions if one.proof not in KEPT_BY_THE_SCHOOL]
        if not own:
            return cls(new_id, day=today.isoformat())
        last = max(own, key=lambda session: (session.day, session.start))
        form = replace(cls.of(last), id=new_id, version=0, day=today.isoformat(), note="")
        taken = [one for one in own if one.day == today and one.state != "withdrawn"]
        if last.end <= minute and all(last.end <= one.start or one.end <= last.start for one in taken):
            return form
        end = minute - minute % WHOLE
        start = max(0, end - (last.end - last.start))
        return replace(form, start=clock_time(start), end=clock_time(end))

    def fields(self) -> dict[str, str]:
        """The fields of the form by name, as it sends them."""
        named = {name: getattr(self, name) for name in ("id", *TEXTS)} | {"version": str(self.version)}
        parts = {f"{name}-{i}": getattr(part, name) for i, part in enumerate(self.parts) for name in PART_FIELDS}
        return named | parts

    def session(self) -> Session:
        """The session that was typed; refuses what can't be read, all at once."""
        faults: list[Fault] = []
        day = _read(date.fromisoformat, self.day, "day", N_("choose the day"), faults)
        start = _read(minute_of_day, self.start, "start", N_("the time it began, such as 09:30"), faults)
        end = _read(minute_of_day, self.end, "end", N_("the time it ended, such as 10:30"), faults)
        breaks = _read(_minutes, self.breaks or "0", "breaks", N_("breaks in whole minutes"), faults)
        parts = tuple(self._part(i, part, faults) for i, part in enumerate(self.parts) if i == 0 or not part.is_empty)
        faults += [
            Fault("too-long", N_("keep this under {most} letters"), {"most": LONGEST}, field=name)
            for name in ("site", "setting")
            if len(getattr(self, name)) > LONGEST
        ]
        if not 0 < len(self.id) <= LONGEST_ID:
            faults.append(Fault("no-id", N_("this form is damaged; open the page again")))
        if faults or day is None or start is None or end is None or breaks is None:
            raise RefusedError(faults)
        length = end - start - breaks
        parts = tuple(
            replace(part, minutes=length) if len(parts) == 1 and part.minutes == -1 else part for part in parts
        )
        own = self.host == "self"
        return Session(
            self.id, day, start, end, parts, breaks, "" if own else self.host, self.site, self.setting,
            "attested" if own else "signature",
        )  # fmt: skip

    def _part(self, place: int, part: PartForm, faults: list[Fault]) -> Part:
        whole = place == 0 and not part.minutes
        sentence = N_("minutes as a whole number")
        minutes = -1 if whole else _read(_minutes, part.minutes, f"minutes-{place}", sentence, faults)
        more = {"client_stage": part.stage} if part.stage else {}
        return Part(minutes or 0, part.activity, part.apparatus, part.level, part.mode or "live", part.client, more)


def offered_hosts(hosts: Sequence[Host], today: date, kept: str = "") -> list[Host]:
    """Hosts whom a trainee may choose today, and the one that a session to be corrected names already."""
    return [host for host in hosts if host.offered_on(today) or host.id == kept]


def form_choices(
    requirements: RequirementSet, hosts: Sequence[Host], language: Language
) -> dict[str, list[tuple[str, str]]]:
    """What each list offers; activities are those that the trainee's own set gives credit for."""
    named = [value for category in requirements.categories for value in category.accepts.get("activity", ())]
    activities = list(dict.fromkeys(named)) or list(ACTIVITIES)
    nothing = [("", language(N_("choose")))]
    words = {"apparatus": APPARATUS, "level": LEVELS, "setting": SETTINGS, "stage": STAGES}
    offered = {
        name: [("", "–"), *((value, language(text)) for value, text in some.items())] for name, some in words.items()
    }
    own = ("self", language(N_("Nobody: my own practice, on my word")))
    return offered | {
        "activity": nothing + [(value, in_words(value, ACTIVITIES, language)) for value in activities],
        "mode": [(value, language(text)) for value, text in MODES.items()],
        "host": [*nothing, *((host.id, f"{host.name}, {host.site}") for host in hosts), own],
    }


def _read(read: Callable, text: str, field: str, sentence: str, faults: list[Fault]):  # noqa: ANN202
    try:
        return read(text)
    except ValueError:
        faults.append(Fault("unreadable", sentence, field=field))
        return None


def _minutes(text: str) -> int:
    if not text.isdecimal() or len(text) > 4:
        raise ValueError(text)
    return int(text)
