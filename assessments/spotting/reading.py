"""Lessons for fault spotting taken from a document, with every fault at once."""

from collections import Counter
from collections.abc import Iterator

from assessments.spotting.lesson import SHOWN, Moment, PlantedFault, SpottingLesson, SpottingLessons
from curriculum.document import Node
from curriculum.faults import N_, Fault, RefusedError
from curriculum.fields import Fields
from curriculum.repertoire.exercise import WEIGHTS

# With one of a kind, a single lucky answer would decide.
LEAST_OF_EACH = 2
MOST_MOMENTS = 60


def read_spotting(node: Node) -> SpottingLessons:
    """The lessons that a document describes; raises `RefusedError` with every fault and its line."""
    faults: list[Fault] = []
    fields = Fields(node, faults)
    made = SpottingLessons(
        title=fields.text("title"),
        frame=fields.text("frame"),
        examiners=fields.one_of("examiners", SHOWN, "") or SHOWN[0],
        lessons=fields.each("lessons", _lesson, True),
    )
    fields.text("edition", "")
    fields.close()
    if not faults:
        faults.extend(fault for rule in RULES for fault in rule(made, node.get("lessons")))
    if faults:
        raise RefusedError(faults)
    return made


def lesson_ids_stand_once(made: SpottingLessons, place: Node) -> Iterator[Fault]:
    """Every lesson has its own id."""
    yield from _twice([one.id for one in made.lessons], place.elements())


def moment_ids_stand_once(made: SpottingLessons, place: Node) -> Iterator[Fault]:
    """Every moment of a lesson has its own id."""
    for lesson, node in zip(made.lessons, place.elements(), strict=True):
        yield from _twice([one.id for one in lesson.moments], node.get("moments").elements())


def both_kinds_are_there(made: SpottingLessons, place: Node) -> Iterator[Fault]:
    """A lesson has enough planted and enough sound moments to tell an eye from luck, and not too many."""
    for lesson, node in zip(made.lessons, place.elements(), strict=True):
        inner, planted, most = node.get("moments"), lesson.planted, MOST_MOMENTS
        sound = len(lesson.moments) - planted
        if min(planted, sound) < LEAST_OF_EACH:
            sentence = N_(
                "needs at least {least} moments with a fault and {least} sound ones; has {planted} and {sound}"
            )
            yield inner.fault("too-few", sentence, least=LEAST_OF_EACH, planted=planted, sound=sound)
        if len(lesson.moments) > most:
            yield inner.fault("too-many", N_("has more than {most} moments"), most=most)


RULES = (lesson_ids_stand_once, moment_ids_stand_once, both_kinds_are_there)


def _twice(ids: list[str], nodes: tuple[Node, ...]) -> Iterator[Fault]:
    counted = Counter(ids)
    for place, (id, node) in enumerate(zip(ids, nodes, strict=True)):
        if counted[id] > 1 and ids.index(id) < place:
            yield node.get("id").fault("twice", N_("“{id}” stands twice"), id=id)


def _lesson(fields: Fields) -> SpottingLesson:
    return SpottingLesson(
        fields.id("id"), fields.text("title"), fields.text("setting"), fields.each("moments", _moment, True)
    )


def _moment(fields: Fields) -> Moment:
    fault = fields.inner("fault", _fault)
    moment = Moment(fields.id("id"), fields.text("client"), fields.text("teacher"), fault, fields.text("sound", ""))
    if (fault is None) != bool(moment.sound):
        key = "fault" if fault else "id"
        fields.fault(key, "one-of-two", N_("says either what the fault is, or under sound why nothing is wrong"))
    return moment


def _fault(fields: Fields) -> PlantedFault:
    return PlantedFault(fields.text("what"), fields.text("why"), fields.one_of("weight", WEIGHTS), fields.text("say"))
