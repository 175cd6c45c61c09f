"""What the drawn lists must satisfy."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from curriculum.document import Node
from curriculum.faults import N_, Fault, RefusedError

KEYS = (
    "tasks",
    "minutes",
    "include",
    "floors",
    "caps",
    "spots",
    "always",
    "apart",
    "overlap",
    "recently_drawn",
    "target",
    "difficulty",
    "transitions",
    "order",
    "notice",
)
ORDERS = ("edition", "candidate")
SPOTTED = "yes"


@dataclass(frozen=True, slots=True)
class Inclusion:
    """How many exercises of a kind each list holds."""

    accepts: Mapping[str, tuple[str, ...]]
    at_least: float | None
    at_most: float | None


@dataclass(frozen=True, slots=True)
class Count:
    """How many exercises hold `value` in `field` (None: each value of the bank in turn); `name` is the clause."""

    name: str
    field: str
    value: str | None
    at_least: float | None = None
    at_most: float | None = None


@dataclass(frozen=True, slots=True)
class DrawingSpecification:
    """Counts per list; `target` pairs a point in logits with the information wanted there.

    `least_minutes` counts the exercises alone, `most_minutes` also the transitions; `transitions` are seconds
    for each field that changes between two tasks; `notice` is whole days before the exam or `sealed`, as written.
    """

    tasks: int
    least_minutes: float | None = None
    most_minutes: float | None = None
    include: tuple[Inclusion, ...] = ()
    always: tuple[str, ...] = ()
    apart: tuple[tuple[str, ...], ...] = ()
    overlap: float | None = None
    target: tuple[tuple[float, float], ...] = ()
    tolerance: float | None = None
    counts: tuple[Count, ...] = ()
    most_recent: float | None = None
    transitions: Mapping[str, float] = field(default_factory=dict)
    order: str = "edition"
    notice: str | None = None


def drawing_specification(node: Node) -> DrawingSpecification:
    """Read a specification; raise `RefusedError` with every fault."""
    faults: list[Fault] = []
    if not node.is_mapping:
        raise RefusedError(
            [
                node.fault(
                    "not-mapping",
                    N_("is not a mapping; allowed: the keys of a specification"),
                )
            ]
        )
    for name, member in node.items():
        if name not in KEYS:
            allowed = ", ".join(KEYS)
            faults.append(member.fault("unknown", N_("is not a key; allowed: {allowed}"), allowed=allowed))
    tasks = _number(node.get("tasks"), faults)
    if tasks is None or tasks < 1 or tasks != int(tasks):
        faults.append((node.get("tasks") or node).fault("tasks", N_("tasks must be a whole number, 1 or more")))
    least, most = _bounds(node.get("minutes"), faults)
    include = tuple(_inclusion(one, faults) for one in _elements(node.get("include"), faults))
    always = _texts(node.get("always"), faults)
    apart = tuple(_texts(one, faults) for one in _elements(node.get("apart"), faults))
    _, overlap = _bounds(node.get("overlap"), faults)
    target = _target(node.get("target"), faults)
    difficulty = node.get("difficulty")
    tolerance = _number(difficulty.get("tolerance"), faults) if difficulty else None
    if difficulty and (tolerance is None or tolerance < 0):
        faults.append(difficulty.fault("tolerance", N_("must hold a tolerance, 0 or more")))
    _, recent = _bounds(node.get("recently_drawn"), faults)
    counts = (*_counts(node, "floors", faults), *_counts(node, "caps", faults), *_spots(node.get("spots"), faults))
    transitions, order, notice = _transitions(node, faults), _order(node, faults), _notice(node, faults)
    if faults:
        raise RefusedError(faults)
    return DrawingSpecification(
        int(tasks), least, most, include, always, apart, overlap, target, tolerance, counts, recent,
        transitions, order, notice,
    )  # fmt: skip


def _counts(node: Node, key: str, faults: list[Fault]) -> tuple[Count, ...]:
    """`{field: number}` for each of its values, or `{field: {value: number}}`."""
    found = []
    bound = "at_least" if key == "floors" else "at_most"
    if (clauses := node.get(key)) and not clauses.is_mapping:
        faults.append(clauses.fault("counts", N_("must name fields, each with a number or numbers by value")))
        return ()
    for name, member in clauses.items() if clauses else ():
        pairs = member.items() if member.is_mapping else ((None, member),)
        for value, number in pairs:
            where = f"{key}.{name}" if value is None else f"{key}.{name}.{value}"
            found.append(Count(where, name, value, **{bound: _number(number, faults)}))
    return tuple(found)


def _spots(node: Node | None, faults: list[Fault]) -> tuple[Count, ...]:
    least, most = _bounds(node, faults)
    return () if node is None else (Count("spots", "spots", SPOTTED, least, most),)


def _transitions(node: Node, faults: list[Fault]) -> dict[str, float]:
    found = {name: _number(one, faults) for name, one in (node.get("transitions") or Node({})).items()}
    for name, seconds in found.items():
        if seconds is not None and seconds < 0:
            faults.append(node.get("transitions").get(name).fault("seconds", N_("must be seconds, 0 or more")))
    if node.get("transitions") and not node.get("transitions").is_mapping:
        faults.append(node.get("transitions").fault("transitions", N_("must name fields and seconds for their change")))
    return found


def _order(node: Node, faults: list[Fault]) -> str:
    member = node.get("order")
    if member is None or member.value in ORDERS:
        return member.value if member else "edition"
    faults.append(member.fault("order", N_("is not an order; allowed: {allowed}"), allowed=", ".join(ORDERS)))
    return "edition"


def _notice(node: Node, faults: list[Fault]) -> str | None:
    member = node.get("notice")
    if member is None or member.value == "sealed" or (member.is_text and member.value.isdecimal()):
        return member.value if member else None
    faults.append(member.fault("notice", N_("must be whole days before the exam, or sealed")))
    return None


def _number(node: Node | None, faults: list[Fault]) -> float | None:
    if node is None:
        return None
    try:
        value = float(node.value)
        if abs(value) < 1e9:
            return value
    except (TypeError, ValueError):
        pass
    faults.append(node.fault("not-number", N_("{value} is not a number"), value=str(node.value)))
    return None


def _bounds(node: Node | None, faults: list[Fault]) -> tuple[float | None, float | None]:
    if node is None:
        return None, None
    if not node.is_mapping or any(name not in ("at_least", "at_most", "accepts") for name, _ in node.items()):
        faults.append(node.fault("bounds", N_("must hold at_least, at_most or both")))
        return None, None
    return _number(node.get("at_least"), faults), _number(node.get("at_most"), faults)


def _elements(node: Node | None, faults: list[Fault]) -> tuple[Node, ...]:
    if node is not None and not node.is_list:
        faults.append(node.fault("not-list", N_("is not a list")))
    return node.elements() if node else ()


def _texts(node: Node | None, faults: list[Fault]) -> tuple[str, ...]:
    return tuple(str(one.value) for one in _elements(node, faults))


def _inclusion(node: Node, faults: list[Fault]) -> Inclusion:
    accepts = node.get("accepts")
    if accepts is None or not accepts.is_mapping:
        faults.append(node.fault("accepts", N_("accepts must name fields and their values")))
        return Inclusion({}, None, None)
    allowed = {
        name: tuple(str(v.value) for v in value.elements()) if value.is_list else (str(value.value),)
        for name, value in accepts.items()
    }
    return Inclusion(allowed, *_bounds(node, faults))


def _target(node: Node | None, faults: list[Fault]) -> tuple[tuple[float, float], ...]:
    if node is None:
        return ()
    points = [_number(one, faults) for one in _elements(node.get("at"), faults)]
    wanted = [_number(one, faults) for one in _elements(node.get("information"), faults)]
    if not points or len(points) != len(wanted):
        faults.append(node.fault("target", N_("at and information must be lists of one length")))
        return ()
    return tuple(zip(points, wanted, strict=True))
