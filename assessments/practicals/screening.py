"""An exercise list held against the client who is present: what this body should not do is swapped by rule for an equal one.

A task is swapped when the repertoire withholds it for a caution that the client told. An equal one is of the same apparatus
and level, shares a movement family, is within `SAME_MINUTES` as long, stands nowhere else in the exam and is itself not
withheld; of these the nearest in difficulty is taken, then one that needs no change for this client, then the nearest in
length, then the first in the edition's order. Where there is none, the family gives way, else the length, at last both; level and apparatus never.
Where there is still none the task stays named, to be declined: declining for good reason scores as right. The same input
gives the same swaps. It follows the school's own list of cautions: no clearance, which only licensed professionals give.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from curriculum.repertoire.bank import BankTask
from curriculum.repertoire.edition import Edition
from curriculum.repertoire.exercise import Caution, Exercise

SAME_MINUTES = Fraction(1, 2)
GaveWay = Literal["family", "minutes"]


@dataclass(frozen=True, slots=True)
class Swap:
    """A task withheld from this client and the one instead, "" where there is none; `gave_way` says what is not equal.

    `cautions` are the codes for which the repertoire withholds it.
    """

    part: str
    exercise: str
    instead: str
    cautions: tuple[str, ...]
    gave_way: tuple[GaveWay, ...] = ()


@dataclass(frozen=True, slots=True)
class ToModify:
    """A task that stays and is changed for this client: the cautions of its exercise that apply."""

    part: str
    exercise: str
    cautions: tuple[Caution, ...]


@dataclass(frozen=True, slots=True)
class Screening:
    """What a list comes to for one client."""

    swaps: tuple[Swap, ...] = ()
    to_modify: tuple[ToModify, ...] = ()


def screened(
    tasks: Mapping[str, Sequence[str]], cautions: Collection[str], edition: Edition, bank: Mapping[str, BankTask]
) -> Screening:
    """Screen the lists of an exam, by part; `bank` says how difficult and how long each exercise is."""
    known = {one.id: one for one in edition.exercises}
    used = {task for part in tasks.values() for task in part}
    swaps = []
    for part, listed in tasks.items():
        for task in listed:
            withheld = withheld_for(known[task], cautions) if task in known else ()
            if withheld:
                instead, gave_way = _instead(known[task], cautions, edition, bank, used)
                used.add(instead)
                swaps.append(Swap(part, task, instead, withheld, gave_way))
    left = with_swaps(tasks, swaps)
    changed = [
        ToModify(part, task, found)
        for part, listed in left.items()
        for task in listed
        if task in known and (found := modified_for(known[task], cautions))
    ]
    return Screening(tuple(swaps), tuple(changed))


def with_swaps(tasks: Mapping[str, Sequence[str]], swaps: Sequence[Swap]) -> dict[str, list[str]]:
    """The lists with each swap in its place; a task without an equal one stays."""
    instead = {(one.part, one.exercise): one.instead or one.exercise for one in swaps}
    return {part: [instead.get((part, task), task) for task in listed] for part, listed in tasks.items()}


def withheld_for(exercise: Exercise, cautions: Collection[str]) -> tuple[str, ...]:
    """The client's cautions for which the exercise is withheld, in the exercise's order."""
    return tuple(one.code for one in exercise.cautions if one.code in cautions and one.action == "withhold")


def modified_for(exercise: Exercise, cautions: Collection[str]) -> tuple[Caution, ...]:
    """The exercise's cautions that change it for this client."""
    return tuple(one for one in exercise.cautions if one.code in cautions and one.action == "modify")


def _instead(
    task: Exercise, cautions: Collection[str], edition: Edition, bank: Mapping[str, BankTask], used: Collection[str]
) -> tuple[str, tuple[GaveWay, ...]]:
    own = bank[task.id]
    like = [
        one
        for one in edition.exercises
        if (one.apparatus, one.level) == (task.apparatus, task.level)
        and one.id not in used
        and not withheld_for(one, cautions)
    ]

    def distance(one: Exercise) -> tuple:
        other = bank[one.id]
        apart = abs(other.minutes - own.minutes)
        return abs(other.difficulty - own.difficulty), bool(modified_for(one, cautions)), apart, other.place

    def equal(one: Exercise, gave_way: tuple[GaveWay, ...]) -> bool:
        long = "minutes" in gave_way or abs(bank[one.id].minutes - own.minutes) <= SAME_MINUTES
        return long and ("family" in gave_way or bool({*one.families} & {*task.families}))

    for gave_way in ((), ("family",), ("minutes",), ("family", "minutes")):
        found = [one for one in like if equal(one, gave_way)]
        if found:
            return min(found, key=distance).id, gave_way
    return "", ()
