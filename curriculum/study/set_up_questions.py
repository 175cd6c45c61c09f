"""Questions about the set-up, getting on and off, repetitions and tempo, the spot, and the way into the next exercise."""

from collections.abc import Iterator

from curriculum.faults import N_
from curriculum.repertoire.edition import Edition
from curriculum.repertoire.exercise import Exercise, Transition, Way
from curriculum.repertoire.set_up import SetUp
from curriculum.study.question import Line, Question, line, question_id

PARTS = tuple(name for name in SetUp.__dataclass_fields__ if name not in ("body", "checks", "posture"))
MOVEMENT = frozenset({"repetitions", "tempo", "positions"})


def set_up_questions(edition: Edition) -> Iterator[Question]:
    """Springs and every other part of the apparatus; none where nothing is set up."""
    for one in edition.exercises:
        if any(getattr(one.set_up, part) not in (None, "", (), "none", "any") for part in PARTS):
            yield Question(
                question_id("set-up", one.id),
                "set-up",
                one.id,
                line(N_("{exercise}: which springs, and how is the apparatus set up?"), exercise=one.name),
                (Line("{set_up}", {"set_up": one.set_up}),),
                confirm=bool({*PARTS, "set_up"} & set(one.confirm)),
                place="set-up",
            )


def spring_questions(edition: Edition) -> Iterator[Question]:
    """When to take fewer springs, and when more."""
    for one in edition.exercises:
        springs = one.set_up.springs
        for kind, sentence, reasons in (
            ("lighter", N_("{exercise}: when do you take fewer springs?"), springs.lighter if springs else ()),
            ("heavier", N_("{exercise}: when do you take more springs?"), springs.heavier if springs else ()),
        ):
            if reasons:
                confirm = bool({"set_up", "springs", kind} & set(one.confirm))
                answer = tuple(line("{text}", text=text) for text in reasons)
                prompt = line(sentence, exercise=one.name)
                yield Question(question_id(kind, one.id), kind, one.id, prompt, answer, confirm, place="set-up")


def check_questions(edition: Edition) -> Iterator[Question]:
    """What is checked before the client is on."""
    for one in edition.exercises:
        if one.set_up.checks:
            prompt = line(N_("{exercise}: what do you check before the client is on?"), exercise=one.name)
            answer = tuple(line("{text}", text=text) for text in one.set_up.checks)
            confirm = bool({"set_up", "checks"} & set(one.confirm))
            yield Question(question_id("checks", one.id), "checks", one.id, prompt, answer, confirm, place="set-up")


def way_questions(edition: Edition) -> Iterator[Question]:
    """How the client gets on, and off."""
    names = {level.id: level.name for level in edition.levels}
    for one in edition.exercises:
        for kind, sentence, ways in (
            ("mount", N_("{exercise}: how does the client get on?"), one.mount),
            ("dismount", N_("{exercise}: how does the client get off?"), one.dismount),
        ):
            if ways:
                answer = tuple(_way(way, names) for way in ways)
                prompt, confirm = line(sentence, exercise=one.name), kind in one.confirm
                yield Question(question_id(kind, one.id), kind, one.id, prompt, answer, confirm, place="set-up")


def tempo_questions(edition: Edition) -> Iterator[Question]:
    """How often, and on which counts or in how many seconds."""
    for one in edition.exercises:
        alone = len(one.positions) == 1
        answer = tuple(
            Line("{position}" if alone or not position.name else "{name}: {position}",
                 {"position": position, "name": position.name})
            for position in one.positions
        )  # fmt: skip
        if answer:
            prompt = line(N_("{exercise}: how many repetitions, and in which tempo?"), exercise=one.name)
            confirm = bool(MOVEMENT & set(one.confirm))
            yield Question(question_id("tempo", one.id), "tempo", one.id, prompt, answer, confirm, place="movement")


def spot_questions(edition: Edition) -> Iterator[Question]:
    """Who needs a spot, and where the teacher stands."""
    for one in edition.exercises:
        if one.spot or one.spotting:
            required = N_("A spot is required.") if one.spot else N_("A spot is not required.")
            answer = (Line(required), *((line("{text}", text=one.spotting),) if one.spotting else ()))
            prompt = line(N_("{exercise}: is a spot required, and where do you stand?"), exercise=one.name)
            confirm = bool({"spot", "spotting"} & set(one.confirm))
            yield Question(question_id("spot", one.id), "spot", one.id, prompt, answer, confirm)


def transition_questions(edition: Edition) -> Iterator[Question]:
    """The steps of a written way into another exercise, every variant of it."""
    for one in edition.exercises:
        for to in dict.fromkeys(way.to for way in one.transitions):
            target, ways = edition.exercise(to), [way for way in one.transitions if way.to == to and way.steps]
            if target is not None and ways:
                prompt = line(N_("From {exercise} on to {next}: which steps, in order?"),
                              exercise=one.name, next=target.name)  # fmt: skip
                answer = tuple(said for way in ways for said in _steps(edition, one, way))
                confirm = "transitions" in one.confirm or any(way.confirm for way in ways)
                id = question_id("transition", one.id, to)
                yield Question(id, "transition", one.id, prompt, answer, confirm, place="transitions")


def _way(way: Way, names: dict[str, str]) -> Line:
    return line("{level}: {text}", level=names.get(way.level, way.level), text=way.text) if way.level else line(
        "{text}", text=way.text
    )  # fmt: skip


def _steps(edition: Edition, one: Exercise, way: Transition) -> Iterator[Line]:
    if way.foot_bar:
        yield Line("{foot_bar}", {"foot_bar": way.foot_bar})
    if way.level:
        yield line("{text}", text=next((level.name for level in edition.levels if level.id == way.level), way.level))
    for number, step in enumerate(way.steps, start=1):
        yield line("{number}. {text}", number=number, text=step)
