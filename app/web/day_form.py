"""The form of a day of exams, and the proposal as it comes back to be set."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from app.queries.exam_days import DayChoices
from app.use_cases.setting_days import PlanDay
from app.use_cases.setting_exams import SetExam
from app.web.typed import typed_day, typed_minute, typed_text, typed_whole, whole_number
from assessments.practicals.exam_rooms import machines_in_two_rooms
from curriculum.faults import N_, Fault, RefusedError

SINGLE = ("practical", "day", "first", "pause", "number", "rooms", "most", "in_a_row", "waiver")
SEVERAL = ("enrolments", "examiners", "experienced", "waived")
BOUNDS = {"pause": (0, 240), "number": (1, 60), "most": (1, 60), "in_a_row": (1, 60)}
MOST_ROOMS = 20
LONGEST = 400


@dataclass(frozen=True, slots=True)
class DayForm:
    """A day as typed; `rooms` has a room in each line."""

    practical: str = ""
    day: str = ""
    first: str = "09:00"
    pause: str = "15"
    number: str = "4"
    rooms: str = ""
    # Common practice: six exams are a full day.
    most: str = "6"
    in_a_row: str = "3"
    enrolments: tuple[str, ...] = ()
    examiners: tuple[str, ...] = ()
    experienced: tuple[str, ...] = ()
    waived: tuple[str, ...] = ()
    waiver: str = ""

    @property
    def single(self) -> tuple[str, ...]:
        """The names of fields with one value, for a form that carries them unseen."""
        return SINGLE

    @property
    def several(self) -> tuple[str, ...]:
        return SEVERAL

    @classmethod
    def typed(cls, form: Mapping[str, Sequence[str]]) -> "DayForm":
        """The form as it was sent."""
        several = {name: tuple(form.get(name, ())) for name in SEVERAL}
        return cls(**{name: typed_text(form, name) for name in SINGLE}, **several)

    def begun(self, choices: DayChoices) -> "DayForm":
        """The form as it begins: every examiner who is calibrated, and those with experience."""
        examiners = tuple(id for id, _ in choices.examiners if id not in choices.lacking)
        return replace(self, examiners=examiners, experienced=choices.experienced)

    def request(self) -> PlanDay:
        """The day asked for; refuses what can't be read, all at once."""
        faults: list[Fault] = []
        day = typed_day(self.day, "day", N_("choose the day"), faults)
        first = typed_minute(self.first, "first", N_("the time it begins, such as 09:30"), faults)
        pause, number, most, in_a_row = (
            typed_whole(getattr(self, name), name, *bounds, faults) for name, bounds in BOUNDS.items()
        )
        rooms = tuple(dict.fromkeys(line.strip() for line in self.rooms.splitlines() if line.strip()))
        if not 0 < len(rooms) <= MOST_ROOMS:
            sentence = N_("name the rooms, each in a line of its own, at most {most}")
            faults.append(Fault("rooms", sentence, {"most": MOST_ROOMS}, "rooms"))
        if twice := machines_in_two_rooms(rooms):
            sentence = N_("{machines} stands in two rooms; a machine is in one")
            faults.append(Fault("machine-twice", sentence, {"machines": ", ".join(twice)}, "rooms"))
        if not self.enrolments:
            faults.append(Fault("none-chosen", N_("choose at least one candidate"), field="enrolments"))
        if not self.examiners:
            faults.append(Fault("none-chosen", N_("choose the examiners"), field="examiners"))
        if self.waived and not self.waiver.strip():
            faults.append(Fault("no-reason", N_("say why it can't be avoided"), field="waiver"))
        if len(self.waiver) > LONGEST:
            faults.append(Fault("too-long", N_("keep this under {most} letters"), {"most": LONGEST}, "waiver"))
        if faults or day is None or first is None:
            raise RefusedError(faults)
        people = (self.enrolments, self.examiners, self.experienced)
        return PlanDay(
            self.practical, day, first, pause, number, rooms, *people, most, in_a_row, self.waived, self.waiver
        )


def proposal_request(form: Mapping[str, Sequence[str]]) -> list[SetExam]:
    """The exams of a proposal as it came back: `exam` holds id, enrolment, minute and examiners, `room` the room."""
    faults: list[Fault] = []
    day = typed_day(typed_text(form, "day"), "day", N_("choose the day"), faults)
    practical, found = typed_text(form, "practical"), []
    waivers = dict.fromkeys(form.get("waived", ()), typed_text(form, "waiver")[:LONGEST])
    for text, room in zip(form.get("exam", ()), form.get("room", ()), strict=False):
        id, enrolment, minute, *examiners = text.split(" ")
        starts = whole_number(minute)
        if not 0 < len(id) <= 36 or starts < 0:
            faults.append(DAMAGED)
        elif isinstance(day, date):
            own = {one: waivers[one] for one in examiners if one in waivers}
            found.append(SetExam(id, enrolment, practical, day, starts, room.strip(), tuple(examiners), own))
    if faults or not found:
        raise RefusedError(faults or [DAMAGED])
    return found


DAMAGED = Fault("damaged", N_("this form is damaged; open the page again"))
