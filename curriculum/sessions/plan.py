"""A plan of a lesson or an exam: which exercises, in which order, for whom and how long."""

from dataclasses import dataclass
from fractions import Fraction

from curriculum.document import Node
from curriculum.faults import N_, Fault, RefusedError
from curriculum.fields import ID, Fields
from curriculum.repertoire.edition import Edition
from curriculum.repertoire.exercise import BAR_LOCKS

LONGEST = 600


@dataclass(frozen=True, slots=True)
class Plan:
    """`exercises` are ids of an edition. `factor` multiplies movement and transitions (talk, corrections, rests);
    `intake` and `close` are seconds around them; `minutes` bounds the whole; `client` holds caution codes;
    `foot_bar` says whether a foot can lower the machine's bar or whether it locks ("" is not known)."""

    exercises: tuple[str, ...]
    title: str = ""
    level: str = ""
    client: tuple[str, ...] = ()
    factor: Fraction = Fraction(1)
    intake: int = 0
    close: int = 0
    minutes: int | None = None
    foot_bar: str = ""


def read_plan(node: Node, edition: Edition) -> Plan:
    """The plan that a document describes: exercises as a list of ids, or of mappings with `exercise`.

    Raises `RefusedError` with every fault.
    """
    faults: list[Fault] = []
    fields = Fields(node, faults)
    plan = Plan(
        exercises=_exercises(fields, edition),
        title=fields.text("title", ""),
        level=fields.one_of("level", [one.id for one in edition.levels], ""),
        client=_client(fields, edition),
        factor=fields.number("factor", 1, 10, 1),
        intake=fields.whole("intake", 0, 7200, 0),
        close=fields.whole("close", 0, 7200, 0),
        minutes=fields.whole("minutes", 1, LONGEST) if fields.member("minutes") else None,
        foot_bar=fields.one_of("foot_bar", BAR_LOCKS, ""),
    )
    fields.close()
    if faults:
        raise RefusedError(faults)
    return plan


def _exercises(fields: Fields, edition: Edition) -> tuple[str, ...]:
    known = {one.id for one in edition.exercises}
    found = []
    for node in fields.elements("exercises", True):
        named = node.get("exercise") if node.is_mapping else node
        if named is None or not named.is_text or (node.is_mapping and len(node.value) > 1):
            fields.add(node, "not-an-exercise", N_("must be the id of an exercise"))
        elif named.value not in known:
            sentence = N_("there is no exercise “{value}” in the edition {edition}")
            fields.add(
                named,
                "no-such-exercise",
                sentence,
                value=named.value,
                edition=edition.id,
            )
        else:
            found.append(named.value)
    return tuple(found)


def _client(fields: Fields, edition: Edition) -> tuple[str, ...]:
    codes = tuple(one.code for one in edition.cautions)
    member = fields.member("client")
    if member is None or (member.is_list and not member.elements()):
        return ()
    return tuple(dict.fromkeys(fields.some_of("client", codes)))


def caution_codes(words: str, edition: Edition, field: str = "client") -> tuple[str, ...]:
    """Caution codes from `pregnancy,knee`; raises `RefusedError` for a code that the edition doesn't have."""
    codes = tuple(dict.fromkeys(word.strip() for word in words.split(",") if word.strip()))
    allowed = tuple(one.code for one in edition.cautions)
    sentence = N_("“{value}” is not one of: {allowed}")
    faults = [
        Fault(
            "no-such-caution",
            sentence,
            {"value": code, "allowed": ", ".join(allowed)},
            field,
        )
        for code in codes
        if code not in allowed or not ID.fullmatch(code)
    ]
    if faults:
        raise RefusedError(faults)
    return codes
