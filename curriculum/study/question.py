"""A recall question: what is asked, the answer as the edition has it, and what is still the school's to confirm."""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Line:
    """A sentence of the catalogue and what fills its places: texts of the edition, numbers, or its own values
    (`SetUp`, `Position`, `Repetitions`), which are put in words where they are shown."""

    sentence: str
    values: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Question:
    """One question. `id` is `kind:exercise` or `kind:exercise:part` and stays the same from edition to edition.

    `confirm` says that the school has still to confirm what the answer says; `framed` that the edition's frame of
    cautions goes with it; `place` is the part of the exercise's page where more is written.
    """

    id: str
    kind: str
    exercise: str
    prompt: Line
    answer: tuple[Line, ...]
    confirm: bool = False
    framed: bool = False
    place: str = ""


def question_id(kind: str, exercise: str, part: str = "") -> str:
    """`next:reformer-hundred`, `cause:reformer-footwork:hips-lift`."""
    return ":".join(one for one in (kind, exercise, part) if one)


def line(sentence: str, **values: object) -> Line:
    return Line(sentence, values)
