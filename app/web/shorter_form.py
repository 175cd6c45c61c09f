"""The form by which a host makes a session shorter: as typed, and turned into a wish or refused."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from app.web.typed import typed_minute, typed_text, typed_whole
from assessments.hours.log_rules import DAY, clock_time
from assessments.hours.session import Session
from assessments.hours.shortening import Shorter
from curriculum.faults import N_, Fault, RefusedError


@dataclass(frozen=True, slots=True)
class ShorterForm:
    """`breaks` is asked where there were any, `parts` where there are several: minutes as typed."""

    start: str
    end: str
    breaks: str = ""
    parts: tuple[str, ...] = ()

    @classmethod
    def of(cls, session: Session) -> "ShorterForm":
        parts = tuple(str(part.minutes) for part in session.parts) if len(session.parts) > 1 else ()
        breaks = str(session.breaks) if session.breaks else ""
        return cls(clock_time(session.start), clock_time(session.end), breaks, parts)

    @classmethod
    def typed(cls, form: Mapping[str, Sequence[str]], session: Session) -> "ShorterForm":
        """As it was sent; a part that was not sent is empty."""
        several = len(session.parts) > 1
        parts = tuple(typed_text(form, f"minutes-{place}") for place in range(len(session.parts))) if several else ()
        return cls(*(typed_text(form, name) for name in ("start", "end", "breaks")), parts)

    def wish(self) -> Shorter:
        """What was typed; refuses what can't be read, all at once."""
        faults: list[Fault] = []
        start, end = (
            typed_minute(text, field, N_("give the time of day, such as 09:30"), faults)
            for text, field in ((self.start, "start"), (self.end, "end"))
        )
        breaks = typed_whole(self.breaks or "0", "breaks", 0, DAY, faults)
        parts = [typed_whole(text or "0", f"minutes-{place}", 0, DAY, faults) for place, text in enumerate(self.parts)]
        if faults:
            raise RefusedError(faults)
        return Shorter(start, end, breaks, tuple(parts))
