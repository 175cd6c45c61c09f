"""The form of notes: exercises, cues and faults as ticked, always showable again."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from app.web.typed import typed_text, whole_number
from curriculum.competencies.notes import NotedExercise, NotedFault
from curriculum.faults import N_, Fault, RefusedError

MOST_TICKED = 500
MOST_ASKED = 80


@dataclass(frozen=True, slots=True)
class NoteForm:
    """Notes as ticked; `known` is EDITION/VERSION as the form was made; `do` the pressed button, `asked` a search, `searched`
    the one whose answer was on the page."""

    known: str = "/0"
    lines: tuple[NotedExercise, ...] = ()
    do: str = "keep"
    asked: str = ""
    searched: str = ""

    @classmethod
    def typed(cls, form: Mapping[str, Sequence[str]]) -> "NoteForm":
        """The form as it was sent; refuses what no browser sends."""
        keys = list(dict.fromkeys(form.get("chosen", ())))
        ticked = sum(map(len, form.values()))
        if ticked > MOST_TICKED or not all(":" in key for key in keys):
            raise RefusedError([Fault("damaged", N_("this form is damaged; open the page again"), field="chosen")])
        asked = " ".join(typed_text(form, "q").split())[:MOST_ASKED]
        lines = tuple(_line(form, key) for key in keys)
        return cls(
            typed_text(form, "known"), lines, typed_text(form, "do") or "keep", asked, typed_text(form, "searched")
        )

    @property
    def version(self) -> tuple[str, int]:
        """The (edition id, version) that the form was made for."""
        edition, _, version = self.known.rpartition("/")
        return edition, whole_number(version)


def key_of(line: NotedExercise) -> str:
    """The value that names a line in the form: ACTIVITY:EXERCISE."""
    return f"{line.activity}:{line.exercise}"


def _line(form: Mapping[str, Sequence[str]], key: str) -> NotedExercise:
    activity, _, exercise = key.rpartition(":")
    cues = tuple(whole_number(cue, 0) for cue in form.get(f"cue:{key}", ()))
    mended = {fault: tuple(form.get(f"mended:{key}:{fault}", ())) for fault in form.get(f"fault:{key}", ())}
    # Ticking what mended a fault says that it was seen.
    start = f"mended:{key}:"
    mended |= {name.removeprefix(start): tuple(some) for name, some in form.items() if name.startswith(start)}
    faults = tuple(NotedFault(fault, some) for fault, some in mended.items())
    return NotedExercise(activity, exercise, cues, faults, " ".join(typed_text(form, f"words:{key}").split()))
