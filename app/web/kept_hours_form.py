"""The form of hours that the school keeps: text as typed, the fields the trainee's set looks at, and a session of it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from app.storage.hosts import Host
from app.use_cases.keeping_hours import KeepHours
from app.web.session_form import form_choices
from app.web.typed import typed_day, typed_text, whole_number
from app.wording.languages import Language
from app.wording.sessions import APPARATUS, FIELDS, LEVELS, MODES, SETTINGS, STAGES, in_words
from assessments.hours.clauses import Clauses
from assessments.hours.session import KEPT_BY_THE_SCHOOL, Part, Session
from curriculum.faults import N_, Fault, RefusedError
from curriculum.requirements.requirement_set import TIMES, RequirementSet

LONGEST, LONGEST_WORDS, LONGEST_ID = 400, 1_000, 36
OF_SESSION, OF_PART = ("site", "setting"), ("apparatus", "level", "mode", "client")
ASKED_ELSEWHERE = ("activity", "host", *TIMES)
WORDS = {"apparatus": APPARATUS, "level": LEVELS, "mode": MODES, "setting": SETTINGS, "client_stage": STAGES}
NAMES = ("id", "proof", "first", "day", "hours", "minutes", "activity", "host", "evidence", "reason")


@dataclass(frozen=True, slots=True)
class KeptHoursForm:
    """Hours as typed; `id` is made once when the form is made, `more` holds the fields of the set by name."""

    id: str
    version: int = 0
    proof: str = "accepted"
    first: str = ""
    day: str = ""
    hours: str = ""
    minutes: str = ""
    activity: str = ""
    host: str = ""
    evidence: str = ""
    reason: str = ""
    sure: bool = False
    more: Mapping[str, str] = field(default_factory=dict)

    @classmethod
    def typed(cls, form: Mapping[str, Sequence[str]]) -> "KeptHoursForm":
        """The form as it was sent."""
        more = {name.removeprefix("field-"): typed_text(form, name) for name in form if name.startswith("field-")}
        return cls(
            **{name: typed_text(form, name) for name in NAMES},
            version=whole_number(typed_text(form, "version"), 0),
            sure=bool(typed_text(form, "sure")),
            more=more,
        )

    @classmethod
    def of(cls, session: Session, evidence: str) -> "KeptHoursForm":
        """The form that shows hours as they stand."""
        part = session.parts[0]
        whole, rest = divmod(session.minutes, 60)
        more = {name: getattr(part, name) for name in OF_PART} | {name: getattr(session, name) for name in OF_SESSION}
        return cls(
            session.id, session.version, session.proof, session.first.isoformat() if session.first else "",
            session.day.isoformat(), str(whole or ""), str(rest or ""), part.activity, session.host, evidence,
            more=more | dict(part.more),
        )  # fmt: skip

    def request(self, enrolment_id: str, requirements: RequirementSet) -> KeepHours:
        """The hours that were typed; refuses what can't be read, all at once."""
        faults: list[Fault] = []
        day = typed_day(self.day, "day", N_("choose the day"), faults)
        first = (
            typed_day(self.first, "first", N_("choose the first day, or leave it open"), faults) if self.first else None
        )
        length = self._length(faults)
        if self.proof not in KEPT_BY_THE_SCHOOL:
            faults.append(Fault("no-proof", N_("choose how the school takes them"), field="proof"))
        if self.activity and self.activity not in _activities(requirements):
            faults.append(Fault("not-listed", N_("choose one from the list"), field="activity"))
        more = {name: self.more[name] for name in looked_at(requirements) if self.more.get(name)}
        faults += self._too_long(more)
        if not 0 < len(self.id) <= LONGEST_ID:
            faults.append(Fault("no-id", N_("this form is damaged; open the page again")))
        if faults or day is None:
            raise RefusedError([*faults, *self._missing(faults)])
        return KeepHours(
            enrolment_id, self._session(day, first, length, more), self.evidence, self.reason, self.version, self.sure
        )

    def _session(self, day: date, first: date | None, length: int, more: Mapping[str, str]) -> Session:
        others = {name: text for name, text in more.items() if name not in (*OF_PART, *OF_SESSION)}
        part = Part(length, self.activity, **{name: more[name] for name in OF_PART if name in more}, more=others)
        return Session(
            self.id, day, 0, length, (part,), 0, self.host,
            more.get("site", ""), more.get("setting", ""), self.proof, first=first if first != day else None,
        )  # fmt: skip

    def _missing(self, known: list[Fault]) -> list[Fault]:
        """What the use case would refuse besides, said with what can't be read."""
        asked = [
            ("activity", self.activity, N_("choose what was done")),
            ("evidence", self.evidence, N_("say on what evidence the school takes them")),
            ("reason", self.reason or not self.version, N_("say why they are corrected")),
            ("minutes", self.hours or self.minutes, N_("say how long it took")),
        ]
        seen = {one.field for one in known}
        return [
            Fault("missing", sentence, field=name) for name, given, sentence in asked if not given and name not in seen
        ]

    def _length(self, faults: list[Fault]) -> int:
        whole = _number(self.hours, "hours", N_("hours as a whole number"), faults)
        return 60 * whole + _number(self.minutes, "minutes", N_("minutes as a whole number"), faults)

    def _too_long(self, more: Mapping[str, str]) -> list[Fault]:
        texts = [("evidence", self.evidence, LONGEST_WORDS), ("reason", self.reason, LONGEST_WORDS)]
        texts += [(f"field-{name}", text, LONGEST) for name, text in more.items()]
        sentence = N_("keep this under {most} letters")
        return [Fault("too-long", sentence, {"most": most}, name) for name, text, most in texts if len(text) > most]


@dataclass(frozen=True, slots=True)
class AskedField:
    """A field of the set as the form asks for it; without `options` it is typed."""

    name: str
    label: str
    options: tuple[tuple[str, str], ...]


def looked_at(requirements: RequirementSet) -> list[str]:
    """The fields that some rule of a set looks at, besides the activity, the host and the time."""
    clauses = Clauses(requirements)
    named = {*requirements.fields, *clauses.named, *(one.field for one in clauses.counted)} - {*ASKED_ELSEWHERE}
    known = [name for name in FIELDS if name in named]
    return known + sorted(named - {*known})


def asked_fields(requirements: RequirementSet, form: KeptHoursForm, language: Language) -> list[AskedField]:
    """What the form asks for so that the rules of the trainee's set can be held against it."""
    clauses = Clauses(requirements)
    found = []
    for name in looked_at(requirements):
        words = WORDS.get(name, {})
        values = requirements.fields.get(name, ())
        if not values and words:
            named = [value for one in clauses.accepts for value in one.get(name, ())]
            values = tuple(dict.fromkeys([*words, *named, *filter(None, [form.more.get(name)])]))
        nothing = () if name == "mode" else (("", "–"),)
        options = (*nothing, *((value, in_words(value, words, language)) for value in values)) if values else ()
        found.append(AskedField(name, in_words(name, FIELDS, language), options))
    return found


def kept_choices(
    requirements: RequirementSet, hosts: Sequence[Host], language: Language
) -> dict[str, list[tuple[str, str]]]:
    """What the lists of the form offer; a host may stay open."""
    offered = form_choices(requirements, hosts, language)
    named = [(host.id, f"{host.name}, {host.site}") for host in hosts]
    proofs = [
        ("accepted", language(N_("Accepted: on a signed paper log, prior learning, a transfer"))),
        ("registered", language(N_("Registered: from the register of a taught module"))),
    ]
    return {"activity": offered["activity"], "host": [("", "–"), *named], "proof": proofs}


def _activities(requirements: RequirementSet) -> set[str]:
    return {value for value, _ in form_choices(requirements, (), Language())["activity"] if value}


def _number(text: str, name: str, sentence: str, faults: list[Fault]) -> int:
    if text and not (text.isascii() and text.isdecimal() and len(text) <= 5):
        faults.append(Fault("no-number", sentence, field=name))
        return 0
    return int(text or 0)
