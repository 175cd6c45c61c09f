"""Described performances taken from a document, with every fault at once."""

from collections.abc import Iterator

from assessments.calibration.performance import DescribedBlock, Performance, Performances, Reference, ReferenceMark
from assessments.practicals.fields import JudgedFields
from curriculum.document import Node
from curriculum.faults import N_, Fault, RefusedError

MOST_MOMENTS = 40


def read_performances(node: Node) -> Performances:
    """The performances that a document describes; raises `RefusedError` with every fault and its line."""
    faults: list[Fault] = []
    fields = JudgedFields(node, faults)
    made = Performances(
        title=fields.text("title"),
        frame=fields.text("frame"),
        practical=fields.name("practical"),
        performances=fields.each("performances", _performance, True),
    )
    fields.text("edition", "")
    fields.close()
    if not faults:
        faults.extend(fault for rule in RULES for fault in rule(made, node.get("performances")))
    if faults:
        raise RefusedError(faults)
    return made


def _performance(fields: JudgedFields) -> Performance:
    return Performance(
        fields.id("id"),
        fields.text("title"),
        fields.text("setting"),
        fields.each("blocks", _block, True),
        fields.inner("reference", _reference),
    )


def _reference(fields: JudgedFields) -> Reference:
    return Reference(fields.text("how"), fields.day("set_on"))


def _block(fields: JudgedFields) -> DescribedBlock:
    moments = fields.texts("moments")
    if not 0 < len(moments) <= MOST_MOMENTS:
        fields.fault("moments", "moments", N_("needs from 1 to {most} moments"), most=MOST_MOMENTS)
    return DescribedBlock(fields.name("block"), moments, fields.each("marks", _mark, True))


def _mark(fields: JudgedFields) -> ReferenceMark:
    return ReferenceMark(fields.name("criterion"), fields.maybe_number("level", -100, 100), fields.text("why", ""))


def ids_stand_once(made: Performances, place: Node) -> Iterator[Fault]:
    """Every performance has its own id, every block and criterion stands once in it."""
    for number, (one, node) in enumerate(zip(made.performances, place.elements(), strict=True)):
        if one.id in [other.id for other in made.performances[:number]]:
            yield node.get("id").fault("twice", N_("“{id}” stands twice"), id=one.id)
        blocks = [block.block for block in one.blocks]
        for position, (block, inner) in enumerate(zip(one.blocks, node.get("blocks").elements(), strict=True)):
            if block.block in blocks[:position]:
                yield inner.get("block").fault("twice", N_("“{id}” stands twice"), id=block.block)
            named = [mark.criterion for mark in block.marks]
            for twice in sorted({id for id in named if named.count(id) > 1}):
                yield inner.get("marks").fault("twice", N_("“{id}” stands twice"), id=twice)


def levels_stand_with_a_reference(made: Performances, place: Node) -> Iterator[Fault]:
    """With a reference every criterion has its level, without one none has."""
    for one, node in zip(made.performances, place.elements(), strict=True):
        given, wanted = len(one.levels), len(one.places)
        if one.reference and given < wanted:
            sentence = N_("has a reference, but {missing} of {wanted} marks have no level")
            yield node.get("reference").fault("no-level", sentence, missing=wanted - given, wanted=wanted)
        elif given and not one.reference:
            yield node.get("blocks").fault("no-reference", N_("has levels, but no reference that says whose they are"))


RULES = (ids_stand_once, levels_stand_with_a_reference)
