"""Which questions are asked now: what is due first, then new ones, mixed."""

from collections.abc import Collection, Mapping, Sequence
from datetime import date
from hashlib import sha256
from itertools import islice

from curriculum.repertoire.edition import Edition
from curriculum.study.question import Question
from curriculum.study.spacing import Memory


def chosen_questions(
    edition: Edition, questions: Sequence[Question], apparatus: Collection[str], level: str
) -> tuple[Question, ...]:
    """The questions on these apparatus (all if there are none), up to a level ("" for any)."""
    highest = edition.level_rank(level) if level else len(edition.levels)
    wanted = {
        one.id
        for one in edition.exercises
        if (not apparatus or one.apparatus in apparatus) and edition.level_rank(one.level) <= highest
    }
    return tuple(one for one in questions if one.exercise in wanted)


def due_questions(questions: Sequence[Question], memories: Mapping[str, Memory], day: date) -> tuple[Question, ...]:
    """What is to be asked again by a day, the longest due first."""
    due = [one for one in questions if one.id in memories and memories[one.id].due_on <= day]
    return tuple(sorted(due, key=lambda one: (memories[one.id].due_on, one.id)))


def new_questions(
    edition: Edition, questions: Sequence[Question], memories: Mapping[str, Memory], chance: str
) -> tuple[Question, ...]:
    """What was never answered: the easier levels first, mixed within a level; the same `chance` gives the same order."""
    ranks = {one.id: edition.level_rank(one.level) for one in edition.exercises}
    fresh = [one for one in questions if one.id not in memories]
    return tuple(sorted(fresh, key=lambda one: (ranks[one.exercise], _mixed(chance, one.id))))


def next_few(due: Sequence[Question], new: Sequence[Question], number: int = 5) -> tuple[Question, ...]:
    """What is due, then new ones of other exercises and other kinds, so that no answer gives another away."""
    taken = list(due[:number])
    exercises, kinds = {one.exercise for one in taken}, {one.kind for one in taken}
    for one in new:
        if len(taken) < number and one.exercise not in exercises and one.kind not in kinds:
            taken.append(one)
            exercises.add(one.exercise)
            kinds.add(one.kind)
    rest = (one for one in new if one not in taken)
    return (*taken, *islice(rest, number - len(taken)))


def _mixed(chance: str, id: str) -> str:
    return sha256(f"{chance}:{id}".encode()).hexdigest()
