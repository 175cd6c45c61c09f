"""Questions about the order, and about the name from a description."""

from collections import Counter
from collections.abc import Iterator

from curriculum.faults import N_
from curriculum.repertoire.edition import Edition
from curriculum.repertoire.exercise import Exercise
from curriculum.study.question import Line, Question, line, question_id


def next_questions(edition: Edition) -> Iterator[Question]:
    """What comes after an exercise on its apparatus."""
    for one, after in _pairs(edition):
        yield Question(
            question_id("next", one.id),
            "next",
            one.id,
            line(
                N_("{apparatus}: what comes after {exercise}?"), apparatus=_apparatus(edition, one), exercise=one.name
            ),
            (line("{text}", text=after.name),),
            confirm="place" in (*one.confirm, *after.confirm),
        )


def before_questions(edition: Edition) -> Iterator[Question]:
    """What comes before an exercise on its apparatus."""
    for before, one in _pairs(edition):
        sentence = N_("{apparatus}: what comes before {exercise}?")
        yield Question(
            question_id("before", one.id),
            "before",
            one.id,
            line(sentence, apparatus=_apparatus(edition, one), exercise=one.name),
            (line("{text}", text=before.name),),
            confirm="place" in (*one.confirm, *before.confirm),
        )


def name_questions(edition: Edition) -> Iterator[Question]:
    """The name from body position and aim; not where the description gives it away or fits two exercises."""
    described = Counter(_description(one) for one in edition.exercises)
    for one in edition.exercises:
        text = _description(one)
        told = any(name.casefold() in text.casefold() for name in _names(one))
        if one.aim and one.set_up.body and not told and described[text] == 1:
            yield Question(
                question_id("name", one.id),
                "name",
                one.id,
                line(N_("{apparatus}: which exercise is this? {text}"), apparatus=_apparatus(edition, one), text=text),
                (line("{text}", text=one.name), *_other_names(one)),
                confirm=bool({"set_up", "body", "aim"} & set(one.confirm)),
                place="set-up",
            )


def _pairs(edition: Edition) -> Iterator[tuple[Exercise, Exercise]]:
    for apparatus in edition.apparatus:
        order = edition.on(apparatus.id)
        yield from zip(order, order[1:], strict=False)


def _apparatus(edition: Edition, one: Exercise) -> str:
    apparatus = edition.apparatus_named(one.apparatus)
    return apparatus.name if apparatus else one.apparatus


def _description(one: Exercise) -> str:
    return f"{one.set_up.body.strip()} {one.aim.strip()}"


def _names(one: Exercise) -> tuple[str, ...]:
    return (one.name, *(other.name for other in one.lineages if other.name))


def _other_names(one: Exercise) -> Iterator[Line]:
    for other in one.lineages:
        if other.name:
            yield line(N_("Also called {name} ({lineage})."), name=other.name, lineage=other.lineage)
