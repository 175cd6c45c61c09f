"""What an edition of a practical must hold together: one rule a function, each yields faults."""

from collections import Counter
from collections.abc import Iterable, Iterator

from assessments.practicals.specification import HUNDRED, Practical
from curriculum.document import Node
from curriculum.faults import N_, Fault


def specification_faults(practical: Practical, node: Node) -> tuple[Fault, ...]:
    """Every fault of an edition, placed in the document it was read from."""
    return tuple(fault for rule in RULES for fault in rule(practical, node))


def names_stand_once(practical: Practical, node: Node) -> Iterator[Fault]:
    """Parts, blocks, criteria, groups and critical faults have their own names."""
    named = {
        "parts": (part.id for part in practical.parts),
        "criteria": (one.id for one in practical.criteria),
        "groups": (one.id for one in practical.groups),
        "critical_faults": (one.code for one in practical.critical_faults),
    }
    for key, ids in named.items():
        yield from _twice(ids, _at(node, key))
    blocks = (block.id for part in practical.parts for block in part.blocks)
    yield from _twice(blocks, _at(node, "parts"))


def weights_sum(practical: Practical, node: Node) -> Iterator[Fault]:
    """Weights of parts, of criteria and of a part's blocks each sum to 100 and are above 0."""
    yield from _sum((part.weight for part in practical.parts), _at(node, "parts"))
    yield from _sum((one.weight for one in practical.criteria), _at(node, "criteria"))
    for part, place in zip(practical.parts, _at(node, "parts").elements(), strict=True):
        yield from _sum((block.weight for block in part.blocks), place.get("blocks") or place)


def criteria_are_known(practical: Practical, node: Node) -> Iterator[Fault]:
    """Parts and groups name criteria of this practical, each once."""
    known = {one.id for one in practical.criteria}
    for holders, key in ((practical.parts, "parts"), (practical.groups, "groups")):
        for holder, place in zip(holders, _at(node, key).elements(), strict=False):
            at = place.get("criteria") or place
            yield from _twice(holder.criteria, at)
            for unknown in sorted(set(holder.criteria) - known):
                yield at.fault(
                    "no-such-criterion",
                    N_("{id} is not a criterion of this practical"),
                    id=unknown,
                )
            if not holder.criteria:
                yield at.fault("no-criteria", N_("needs at least one criterion"))


def every_criterion_is_judged(practical: Practical, node: Node) -> Iterator[Fault]:
    """A criterion that no part judges would weigh nothing."""
    judged = {id for part in practical.parts for id in part.criteria}
    for one, place in zip(practical.criteria, _at(node, "criteria").elements(), strict=True):
        if one.id not in judged:
            yield place.fault("never-judged", N_("{id} is judged in no part"), id=one.id)


def exercise_lists_add_up(practical: Practical, node: Node) -> Iterator[Fault]:
    """A fixed list names as many exercises as it says."""
    for part, place in zip(practical.parts, _at(node, "parts").elements(), strict=True):
        wanted = part.exercises
        if wanted and wanted.exercises and not wanted.drawn and wanted.number != len(wanted.exercises):
            sentence = N_("says {number} exercises and names {named}")
            at = place.get("exercises") or place
            yield at.fault(
                "wrong-number",
                sentence,
                number=wanted.number,
                named=len(wanted.exercises),
            )


def grades_suffice(practical: Practical, node: Node) -> Iterator[Fault]:
    """A global grade needs at least two words, each once."""
    place = _at(node, "grades")
    yield from _twice(practical.grades, place)
    if len(practical.grades) < 2:
        yield place.fault("few-grades", N_("needs at least two grades, the lowest first"))


RULES = (
    names_stand_once,
    weights_sum,
    criteria_are_known,
    every_criterion_is_judged,
    exercise_lists_add_up,
    grades_suffice,
)


def _at(node: Node, key: str) -> Node:
    return node.get(key) or node


def _twice(ids: Iterable[str], place: Node) -> Iterator[Fault]:
    for id, count in Counter(ids).items():
        if count > 1:
            yield place.fault("named-twice", N_("{id} stands more than once"), id=id)


def _sum(weights: Iterable, place: Node) -> Iterator[Fault]:
    weights = tuple(weights)
    if any(weight <= 0 for weight in weights):
        yield place.fault("no-weight", N_("every weight must be above 0"))
    elif sum(weights) != HUNDRED:
        yield place.fault(
            "weights-sum",
            N_("weights sum to {sum}, not to 100"),
            sum=float(sum(weights)),
        )
