"""The forms of an exam: setting it, deciding it; text as typed, and turned into a request or refused."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from app.use_cases.deciding_exams import DecideExam
from app.use_cases.setting_exams import SetExam, StateTie
from app.web.typed import typed_day, typed_minute, typed_text, typed_whole, whole_number
from assessments.practicals.deciding import VOID_CAUSES, Outcome
from curriculum.faults import N_, Fault, RefusedError

LONGEST, LONGEST_ID, SEATS, MOST_HOURS = 400, 36, 9, 500
FURTHEST = timedelta(days=2 * 365)


@dataclass(frozen=True, slots=True)
class ExamForm:
    """An exam as typed; `id` is made once when the form is made."""

    id: str
    enrolment: str = ""
    practical: str = ""
    day: str = ""
    starts: str = ""
    room: str = ""
    examiners: tuple[str, ...] = ("",) * SEATS
    waivers: tuple[str, ...] = ("",) * SEATS

    @classmethod
    def typed(cls, form: Mapping[str, Sequence[str]]) -> "ExamForm":
        """The form as it was sent."""
        names = ("id", "enrolment", "practical", "day", "starts", "room")
        examiners = tuple(typed_text(form, f"examiner-{place}") for place in range(SEATS))
        waivers = tuple(typed_text(form, f"waiver-{place}") for place in range(SEATS))
        return cls(**{name: typed_text(form, name) for name in names}, examiners=examiners, waivers=waivers)

    def request(self, today: date) -> SetExam:
        """The exam asked for; refuses what can't be read, all at once."""
        faults: list[Fault] = []
        day = typed_day(self.day, "day", N_("choose the day"), faults)
        if day and abs(day - today) > FURTHEST:
            faults.append(Fault("far-day", N_("is more than two years away"), field="day"))
        starts = typed_minute(self.starts, "starts", N_("the time it begins, such as 09:30"), faults)
        faults += [
            Fault("too-long", N_("keep this under {most} letters"), {"most": LONGEST}, field)
            for field, text in [("room", self.room), *((f"waiver-{i}", text) for i, text in enumerate(self.waivers))]
            if len(text) > LONGEST
        ]
        if not 0 < len(self.id) <= LONGEST_ID:
            faults.append(Fault("no-id", N_("this form is damaged; open the page again")))
        if faults or day is None or starts is None:
            raise RefusedError(faults)
        chosen = [(who, why) for who, why in zip(self.examiners, self.waivers, strict=True) if who]
        return SetExam(
            self.id, self.enrolment, self.practical, day, starts, self.room.strip(),
            tuple(who for who, _ in chosen), dict(chosen),
        )  # fmt: skip


@dataclass(frozen=True, slots=True)
class DecisionForm:
    """A decision as typed; `known` is how many decisions its maker had seen."""

    outcome: str = ""
    reason: str = ""
    refer_parts: tuple[str, ...] = ()
    void_cause: str = ""
    waiver: str = ""
    known: int = 0
    refer_tasks: tuple[str, ...] = ()
    again_from: str = ""
    extra_hours: str = ""
    extra_on: str = ""

    @classmethod
    def typed(cls, form: Mapping[str, Sequence[str]]) -> "DecisionForm":
        """The form as it was sent."""
        return cls(
            typed_text(form, "outcome"), typed_text(form, "reason"), tuple(form.get("refer_parts", ())), typed_text(form, "void_cause"),
            typed_text(form, "waiver"), whole_number(typed_text(form, "known")), tuple(form.get("refer_tasks", ())),
            typed_text(form, "again_from"), typed_text(form, "extra_hours"), typed_text(form, "extra_on"),
        )  # fmt: skip

    def request(self, exam_id: str) -> DecideExam:
        """The decision asked for; refuses what can't be read, all at once."""
        faults = [
            Fault("too-long", N_("keep this under {most} letters"), {"most": 10 * LONGEST}, field)
            for field in ("reason", "waiver", "extra_on")
            if len(getattr(self, field)) > 10 * LONGEST
        ]
        if self.outcome not in set(Outcome):
            faults.append(Fault("no-outcome", N_("choose what is decided"), field="outcome"))
        day = typed_day(self.again_from, "again_from", N_("choose the day"), faults) if self.again_from else None
        hours = typed_whole(self.extra_hours, "extra_hours", 0, MOST_HOURS, faults) if self.extra_hours else 0
        if faults:
            raise RefusedError(faults)
        cause = self.void_cause if self.void_cause in VOID_CAUSES and self.outcome == Outcome.VOID else None
        refers = self.outcome == Outcome.REFER
        tasks = tuple(dict.fromkeys(one.partition("/")[::2] for one in self.refer_tasks)) if refers else ()
        parts = tuple(dict.fromkeys((*self.refer_parts, *(part for part, _ in tasks)))) if refers else ()
        return DecideExam(
            exam_id, Outcome(self.outcome), self.reason, parts, cause, self.waiver, self.known, tasks, day, 60 * hours,
            self.extra_on,
        )  # fmt: skip


def tie_request(form: Mapping[str, Sequence[str]], candidate_id: str) -> StateTie:
    """What stands between a person and the candidate, as typed; refuses a day that is none."""
    faults: list[Fault] = []
    last_typed = typed_text(form, "last")
    last = typed_day(last_typed, "last", N_("choose the day, or leave it open"), faults) if last_typed else None
    if not 0 < len(typed_text(form, "id")) <= LONGEST_ID:
        faults.append(Fault("no-id", N_("this form is damaged; open the page again")))
    if faults:
        raise RefusedError(faults)
    return StateTie(typed_text(form, "id"), typed_text(form, "person"), candidate_id, typed_text(form, "kind"), last)
