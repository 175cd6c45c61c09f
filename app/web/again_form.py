"""The form by which the rest of a day is seated again, and the proposal as it comes back."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from app.queries.day_plan import DayShown
from app.use_cases.reseating_days import Move, SeatAgain
from app.web.day_form import MOST_ROOMS
from app.web.typed import typed_minute, typed_text, typed_whole, whole_number
from assessments.hours.log_rules import clock_time
from assessments.practicals.exam_rooms import machines_in_two_rooms
from curriculum.faults import N_, Fault, RefusedError

SINGLE = ("first", "pause", "number", "late", "rooms")
SEVERAL = ("exams", "last")
BOUNDS = {"pause": (0, 240), "number": (1, 60), "late": (0, 240)}
DAMAGED = Fault("damaged", N_("this form is damaged; open the page again"))


@dataclass(frozen=True, slots=True)
class AgainForm:
    """As typed; `rooms` has a room in each line."""

    first: str = ""
    pause: str = "10"
    number: str = ""
    late: str = "0"
    rooms: str = ""
    exams: tuple[str, ...] = ()
    last: tuple[str, ...] = ()

    @classmethod
    def typed(cls, form: Mapping[str, Sequence[str]]) -> "AgainForm":
        """The form as it was sent."""
        several = {name: tuple(form.get(name, ())) for name in SEVERAL}
        return cls(**{name: typed_text(form, name) for name in SINGLE}, **several)

    @classmethod
    def begun(cls, shown: DayShown, minute: int) -> "AgainForm":
        """The form as it begins: everything not begun, in the day's rooms, from `minute` on or when it was to begin.

        An exam to whose client nobody came is put behind the others.
        """
        rest = [one for one in shown.exams if not one.begun]
        first = max(minute, min((one.starts for one in rest), default=minute))
        number = -(-len(rest) // max(1, len(shown.rooms))) + 1
        ids, late = (one.id for one in rest), (one.id for one in rest if one.nobody_came)
        rooms = "\n".join(shown.rooms)
        return cls(clock_time(first), number=str(number), rooms=rooms, exams=tuple(ids), last=tuple(late))

    def request(self, day: date) -> SeatAgain:
        """What is asked for; refuses what can't be read, all at once."""
        faults: list[Fault] = []
        first = typed_minute(self.first, "first", N_("the time the next can begin, such as 10:40"), faults)
        pause, number, late = (
            typed_whole(getattr(self, name), name, *bounds, faults) for name, bounds in BOUNDS.items()
        )
        rooms = tuple(dict.fromkeys(line.strip() for line in self.rooms.splitlines() if line.strip()))
        if not 0 < len(rooms) <= MOST_ROOMS:
            sentence = N_("name the rooms, each in a line of its own, at most {most}")
            faults.append(Fault("rooms", sentence, {"most": MOST_ROOMS}, "rooms"))
        if twice := machines_in_two_rooms(rooms):
            sentence = N_("{machines} stands in two rooms; a machine is in one")
            faults.append(Fault("machine-twice", sentence, {"machines": ", ".join(twice)}, "rooms"))
        if not self.exams:
            faults.append(Fault("none-chosen", N_("choose what is still to be held"), field="exams"))
        if faults or first is None:
            raise RefusedError(faults)
        return SeatAgain(day, first, pause, number, late, rooms, self.exams, self.last)


def moves_of(form: Mapping[str, Sequence[str]]) -> list[Move]:
    """The proposal as it came back: `exam` holds id, old and new minute; `was` and `room` the rooms."""
    found = []
    for text, was, room in zip(form.get("exam", ()), form.get("was", ()), form.get("room", ()), strict=False):
        id, _, minutes = text.partition(" ")
        old, _, new = minutes.partition(" ")
        before, after = whole_number(old), whole_number(new)
        if before < 0 or after < 0:
            raise RefusedError([DAMAGED])
        found.append(Move(id, before, was, after, room.strip()))
    if not found:
        raise RefusedError([DAMAGED])
    return found
