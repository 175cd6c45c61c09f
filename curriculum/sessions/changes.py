"""One step of a transition, and what changing springs takes."""

from dataclasses import dataclass
from typing import Literal

from curriculum.faults import N_
from curriculum.repertoire.edition import ChangeSeconds
from curriculum.repertoire.set_up import Springs

Kind = Literal["spring", "bar", "box", "strap", "headrest", "fitting", "place"]


@dataclass(frozen=True, slots=True)
class Change:
    """One step of a transition: what it is (`code`, `kind`), its sentence with `values`, and its seconds."""

    code: str
    kind: Kind
    sentence: str
    seconds: int
    values: tuple[tuple[str, object], ...] = ()

    def text(self) -> str:
        """The English sentence, filled in."""
        return self.sentence.format(**dict(self.values))


def change(code: str, kind: Kind, sentence: str, seconds: int, **values: object) -> Change:
    """A step whose sentence the values fill."""
    return Change(code, kind, sentence, seconds, tuple(values.items()))


def spring_changes(old: Springs | None, new: Springs | None, cost: ChangeSeconds) -> tuple[Change, ...]:
    """The one step that takes the springs from one setting to another, or none; `old` None is a machine without any."""
    if new is None:
        return ()
    if new.every:
        on = change("springs", "spring", N_("All springs on"), cost.all_springs)
        return () if old and old.every else (on,)
    if old is not None and old.every:
        return (change("springs", "spring", N_("Springs to {count}"), cost.all_springs, count=new.usual),)
    if old is not None and new.kind and old.kind != new.kind:
        seconds = (old.usual + new.usual) * cost.spring
        sentence = N_("Springs to {count} ({which})")
        return (change("springs", "spring", sentence, seconds, count=new.usual, which=new.kind),)
    return _counted(old.usual if old else 0, new.usual, cost)


def _counted(before: int, after: int, cost: ChangeSeconds) -> tuple[Change, ...]:
    number = abs(after - before)
    if not number:
        return ()
    sentence = N_("{number} spring(s) on, to {count}") if after > before else N_("{number} spring(s) off, to {count}")
    return (change("springs", "spring", sentence, number * cost.spring, number=number, count=after),)
