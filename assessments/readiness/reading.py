"""Readiness criteria taken from a document, with every fault at once."""

from collections import Counter
from collections.abc import Iterator
from graphlib import CycleError, TopologicalSorter

from assessments.practicals.fields import JudgedFields
from assessments.readiness.certificate_terms import read_terms
from assessments.readiness.criteria import KINDS, WHO, Criterion, ReadinessCriteria
from curriculum.document import Node
from curriculum.faults import N_, Fault, RefusedError


def read_readiness(node: Node) -> ReadinessCriteria:
    """The criteria that a document describes; raises `RefusedError` with every fault and its line."""
    faults: list[Fault] = []
    fields = JudgedFields(node, faults)
    made = ReadinessCriteria(
        id=fields.name("id"),
        title=fields.text("title"),
        edition=fields.name("edition"),
        criteria=fields.each("criteria", _criterion, required=True),
        minutes_a_week=fields.whole("minutes_a_week", 1, 10_080, 480),
        certificate=fields.inner("certificate", read_terms) if fields.has("certificate") else None,
    )
    fields.close()
    if not faults:
        faults.extend(fault for rule in RULES for fault in rule(made, node.get("criteria")))
    if faults:
        raise RefusedError(faults)
    return made


def names_stand_once(made: ReadinessCriteria, place: Node) -> Iterator[Fault]:
    """Every criterion has its own name."""
    for id, count in Counter(one.id for one in made.criteria).items():
        if count > 1:
            yield place.fault("named-twice", N_("{id} stands more than once"), id=id)


def others_are_known(made: ReadinessCriteria, place: Node) -> Iterator[Fault]:
    """What a criterion comes after is a criterion of this programme."""
    known = {one.id for one in made.criteria}
    for one, node in zip(made.criteria, place.elements(), strict=True):
        for key, ids in (("after", one.after), ("part_after", one.part_after)):
            for id in sorted(set(ids) - known):
                yield (node.get(key) or node).fault("no-such-criterion", N_("{id} is not a criterion here"), id=id)


def nothing_waits_for_itself(made: ReadinessCriteria, place: Node) -> Iterator[Fault]:
    """Gates do not go round in a circle."""
    try:
        TopologicalSorter({one.id: (*one.after, *one.part_after) for one in made.criteria}).prepare()
    except CycleError as error:
        circle = " → ".join(reversed(error.args[1]))
        yield place.fault("circle", N_("these wait for each other: {circle}"), circle=circle)


RULES = (names_stand_once, others_are_known, nothing_waits_for_itself)


def _criterion(fields: JudgedFields) -> Criterion:
    id = fields.name("id")
    return Criterion(
        id=id,
        kind=fields.choice("kind", KINDS),
        subject=fields.name("subject") if fields.has("subject") else id,
        title=fields.text("title"),
        after=fields.names("after", ()),
        part_after=fields.names("part_after", ()),
        takes_days=fields.whole("takes_days", 0, 2000, 14),
        who=fields.choice("who", WHO, "trainee"),
    )
