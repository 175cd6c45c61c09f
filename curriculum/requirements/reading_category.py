"""One category of a requirement set read from its document."""

from fractions import Fraction

from curriculum.document import Node
from curriculum.faults import N_, Fault
from curriculum.requirements.members import Members
from curriculum.requirements.requirement_set import (
    PROOFS,
    Cap,
    Category,
    Credit,
    Floor,
    SessionLine,
    Variety,
    Weight,
)

KEYS = (
    "id", "title", "accepts", "counts", "unit", "at_least", "at_most", "of_which", "limits", "variety", "credit",
)  # fmt: skip


def read_category(node: Node, unit: int, counts: tuple[str, ...], faults: list[Fault]) -> Category:
    """A category whose `h` is `unit` minutes and whose proofs are `counts`, unless it says otherwise."""
    members = Members(node, KEYS, faults)
    own = members.duration("unit", 60)
    if own is not None and own < 1:
        faults.append(node.get("unit").fault("no-unit", N_("must be at least 1 min")))
    unit = int(own or unit)
    least = members.required_duration("at_least", unit)
    if node.is_mapping and not node.get("accepts"):
        members.missing("accepts", "fields with a value or a list of values")
    return Category(
        id=members.id(),
        accepts=members.accepts(),
        at_least=least,
        unit=unit,
        counts=read_counts(members, counts),
        at_most=members.cap("at_most", unit),
        of_which=tuple(_floor(one, unit, least, faults) for one in members.list("of_which")),
        limits=tuple(read_cap(one, unit, faults) for one in members.list("limits")),
        variety=tuple(_variety(one, unit, least, faults) for one in members.list("variety")),
        credit=_credit(node.get("credit"), unit, faults),
        title=members.text("title"),
        line=node.line,
    )


def read_counts(members: Members, default: tuple[str, ...]) -> tuple[str, ...]:
    """The proofs that earn credit."""
    if members.node.get("counts") is None:
        return default
    found = members.texts("counts")
    for one in found:
        if one not in PROOFS:
            sentence = N_("“{value}” earns no credit; allowed: {allowed}")
            node = members.node.get("counts")
            members.faults.append(node.fault("unknown-proof", sentence, value=one, allowed=", ".join(PROOFS)))
    return found or default


def read_cap(node: Node, unit: int, faults: list[Fault], overall: bool = False) -> Cap:
    """A cap inside a category, or over all of them."""
    members = Members(node, ("id", "title", "accepts", "per", "at_most"), faults)
    return Cap(
        id=members.id(),
        at_most=members.required_cap("at_most", unit, overall),
        accepts=members.accepts(),
        per=members.field("per"),
        title=members.text("title"),
        line=node.line,
    )


def _floor(node: Node, unit: int, base: Fraction, faults: list[Fault]) -> Floor:
    members = Members(node, ("id", "title", "accepts", "at_least"), faults)
    least = members.required_floor("at_least", unit, base)
    return Floor(members.id(), members.accepts(), least, members.text("title"), node.line)


def _variety(node: Node, unit: int, base: Fraction, faults: list[Fault]) -> Variety:
    members = Members(node, ("id", "title", "of", "accepts", "at_least", "each"), faults)
    if node.is_mapping and not members.text("of"):
        members.missing("of", "the field whose distinct values count, such as host")
    each = members.floor("each", unit, base)
    if each is not None and each <= 0:
        faults.append(node.get("each").fault("no-credit", N_("must be more than nothing, such as 60 min")))
    return Variety(
        id=members.id(),
        of=members.field("of"),
        at_least=members.required_count("at_least"),
        each=each or Fraction(1),
        accepts=members.accepts(),
        title=members.text("title"),
        line=node.line,
    )


def _credit(node: Node | None, unit: int, faults: list[Fault]) -> Credit:
    if node is None or node.value is None:
        return Credit()
    members = Members(node, ("round_down_to", "sessions", "weights"), faults)
    step = members.duration("round_down_to", unit)
    if step is not None and step < 1:
        faults.append(node.get("round_down_to").fault("no-step", N_("must be at least 1 min")))
    return Credit(
        round_down_to=step or None,
        sessions=tuple(_session_line(one, unit, faults) for one in members.list("sessions")),
        weights=tuple(_weight(one, faults) for one in members.list("weights")),
    )


def _session_line(node: Node, unit: int, faults: list[Fault]) -> SessionLine:
    members = Members(node, ("from", "to", "as"), faults)
    least, most = (
        members.duration("from", unit) or Fraction(0),
        members.duration("to", unit),
    )
    if most is not None and most < least:
        faults.append(node.fault("backwards", N_("ends before it begins: from must be at most to")))
    return SessionLine(least, most, members.required_duration("as", 60))


def _weight(node: Node, faults: list[Fault]) -> Weight:
    members = Members(node, ("accepts", "as"), faults)
    return Weight(members.accepts(), members.percentage("as") or Fraction(0))
