"""The form of a room's register: as typed, and the room it says."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from app.web.typed import typed_day, typed_minute, typed_text, whole_number
from assessments.hours.attendance import Mark, Room
from curriculum.faults import N_, Fault, RefusedError

NAMES = ("id", "module", "day", "start", "end", "activity")
LONGEST_ID = 36


@dataclass(frozen=True, slots=True)
class RegisterForm:
    """A register as typed; `marks` and `late` by enrolment."""

    id: str
    module: str = ""
    day: str = ""
    start: str = ""
    end: str = ""
    activity: str = "workshop"
    marks: Mapping[str, str] = field(default_factory=dict)
    late: Mapping[str, str] = field(default_factory=dict)

    @classmethod
    def typed(cls, form: Mapping[str, Sequence[str]]) -> "RegisterForm":
        def of(prefix: str) -> dict[str, str]:
            return {name.removeprefix(prefix): typed_text(form, name) for name in form if name.startswith(prefix)}

        return cls(**{name: typed_text(form, name) for name in NAMES}, marks=of("mark-"), late=of("late-"))

    def room(self) -> Room:
        """The room that was typed; refuses what can't be read, all at once."""
        faults: list[Fault] = []
        day = typed_day(self.day, "day", N_("choose the day"), faults)
        start = typed_minute(self.start, "start", N_("the time it began, such as 09:30"), faults)
        end = typed_minute(self.end, "end", N_("the time it ended, such as 10:30"), faults)
        if not 0 < len(self.id) <= LONGEST_ID:
            faults.append(Fault("no-id", N_("this form is damaged; open the page again")))
        marks = {key: Mark(kind, self._late(key, faults)) for key, kind in self.marks.items() if kind}
        if faults or day is None or start is None or end is None:
            raise RefusedError(faults)
        return Room(self.id, self.module, day, start, end, self.activity, marks)

    def _late(self, key: str, faults: list[Fault]) -> int:
        text = self.late.get(key, "")
        minutes = whole_number(text) if text else 0
        if minutes < 0:
            faults.append(Fault("no-number", N_("minutes as a whole number"), field=f"late-{key}"))
        return max(0, minutes)
