"""The form with which a trainee looks for a lesson: as typed or as offered at first, and the place it asks for."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from app.storage.places import ASKED, OBSERVATION, Place
from app.web.typed import typed_day, typed_minute, typed_text
from app.wording.sessions import ACTIVITIES, APPARATUS, LEVELS
from assessments.hours.log_rules import clock_time
from assessments.hours.needs import Need
from assessments.hours.session import Session
from curriculum.faults import N_, Fault

NAMES = ("day", "start", "end", "activity", "apparatus", "level")
LONGEST = 36


@dataclass(frozen=True, slots=True)
class FinderForm:
    """What is looked for, as typed."""

    day: str = ""
    start: str = ""
    end: str = ""
    activity: str = ""
    apparatus: str = ""
    level: str = ""

    @classmethod
    def typed(cls, form: Mapping[str, Sequence[str]]) -> "FinderForm":
        return cls(**{name: typed_text(form, name)[:LONGEST].replace("\x00", "") for name in NAMES})

    def filled(self, needs: Sequence[Need], sessions: Sequence[Session], today: date) -> "FinderForm":
        """What was left open, from what is needed first and from the time of day of the last session with a host."""
        form = self
        if not form.activity:
            fields = needs[0].fields if needs else {"activity": OBSERVATION}
            form = replace(form, **{name: fields.get(name, "") for name in ("activity", "apparatus", "level")})
        last = max((one for one in sessions if one.host), key=lambda one: (one.day, one.start), default=None)
        start, end = (last.start, last.end) if last else (600, 660)
        if not (form.start or form.end):
            form = replace(form, start=clock_time(start), end=clock_time(end))
        return form if form.day else replace(form, day=(today + timedelta(days=1)).isoformat())

    def place(self, id: str, host_id: str, person_id: str, now, faults: list[Fault]) -> Place | None:  # noqa: ANN001, PLR0913
        """The place that is asked for; None, and every fault, where something can't be read."""
        before = len(faults)
        day = typed_day(self.day, "day", N_("choose the day"), faults)
        start = typed_minute(self.start, "start", N_("the time it begins, such as 09:30"), faults)
        end = typed_minute(self.end, "end", N_("the time it ends, such as 10:30"), faults)
        choices = {"activity": ACTIVITIES, "apparatus": {"": "", **APPARATUS}, "level": {"": "", **LEVELS}}
        for name, offered in choices.items():
            if getattr(self, name) not in offered:
                faults.append(Fault("no-choice", N_("choose one from the list"), field=name))
        if len(faults) > before:
            return None
        what = (self.activity, self.apparatus, self.level)
        return Place(id, host_id, person_id, day, start, end, *what, ASKED, now)
