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
    "cut",
    "difficulty",
    "transitions",
    "order",
    "notice",
)
ORDERS = ("edition", "candidate")
SPOTTED = "yes"
SEALED = "sealed"


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
    for each field that changes between two tasks; `notice` is whole days before the exam or `sealed`, as written;
    `cut` is the pass mark in logits, at which each list's information is told.
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
    cut: float | None = None


def drawing_specification(node: Node) -> DrawingSpecification:
    """Read a specification; raise `RefusedError` with every fault."""
    if not node.is_mapping:
        sentence = N_("is not a mapping; allowed: the keys of a specification")
        raise RefusedError([node.fault("not-mapping", sentence)])
    allowed = ", ".join(KEYS)
    sentence = N_("is not a key; allowed: {allowed}")
    faults = [one.fault("unknown", sentence, allowed=allowed) for name, one in node.items() if name not in KEYS]
    found = DrawingSpecification(
        _tasks(node, faults),
        *_bounds(node.get("minutes"), faults),
        include=tuple(_inclusion(one, faults) for one in _elements(node.get("include"), faults)),
        always=_texts(node.get("always"), faults),
        apart=tuple(_texts(one, faults) for one in _elements(node.get("apart"), faults)),
        overlap=_most(node.get("overlap"), faults),
        target=_target(node.get("target"), faults),
        tolerance=_tolerance(node.get("difficulty"), faults),
        counts=tuple(one for key in ("floors", "caps") for one in _counts(node, key, faults))
        + _spots(node.get("spots"), faults),
        most_recent=_most(node.get("recently_drawn"), faults),
        transitions=_transitions(node.get("transitions"), faults),
        order=_order(node.get("order"), faults),
        notice=_notice(node.get("notice"), faults),
        cut=_number(node.get("cut"), faults),
    )
    if faults:
        raise RefusedError(faults)
    return found


def _tasks(node: Node, faults: list[Fault]) -> int:
    tasks = _number(node.get("tasks"), faults)
    if tasks is not None and tasks >= 1 and tasks == int(tasks):
        return int(tasks)
    faults.append((node.get("tasks") or node).fault("tasks", N_("tasks must be a whole number, 1 or more")))
    return 1


def _tolerance(node: Node | None, faults: list[Fault]) -> float | None:
    if node is None:
        return None
    _only(node, ("tolerance",), faults)
    tolerance = _number(node.get("tolerance"), faults)
    if tolerance is not None and tolerance < 0:
        faults.append(node.fault("tolerance", N_("tolerance must be 0 or more")))
    return tolerance


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


def _transitions(node: Node | None, faults: list[Fault]) -> dict[str, float]:
    if node is None:
        return {}
    if not node.is_mapping:
        faults.append(node.fault("transitions", N_("must name fields and the seconds for their change")))
    found = {name: _number(one, faults) or 0.0 for name, one in node.items()}
    faults += [one.fault("seconds", N_("must be seconds, 0 or more")) for name, one in node.items() if found[name] < 0]
    return found


def _order(node: Node | None, faults: list[Fault]) -> str:
    if node is None or node.value in ORDERS:
        return node.value if node else ORDERS[0]
    faults.append(node.fault("order", N_("is not an order; allowed: {allowed}"), allowed=", ".join(ORDERS)))
    return ORDERS[0]


def _notice(node: Node | None, faults: list[Fault]) -> str | None:
    if node is None or node.value == SEALED or (node.is_text and node.value.isdecimal()):
        return node.value if node else None
    faults.append(node.fault("notice", N_("must be whole days before the exam, or sealed")))
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
    if node.is_list or node.is_mapping:
        faults.append(node.fault("not-number", N_("must be one number")))
    else:
        faults.append(node.fault("not-number", N_("{value} is not a number"), value=str(node.value)))
    return None


def _bounds(node: Node | None, faults: list[Fault]) -> tuple[float | None, float | None]:
    if node is None:
        return None, None
    if not node.is_mapping or any(name not in ("at_least", "at_most", "accepts") for name, _ in node.items()):
        faults.append(node.fault("bounds", N_("must hold at_least, at_most or both")))
        return None, None
    return _number(node.get("at_least"), faults), _number(node.get("at_most"), faults)


def _most(node: Node | None, faults: list[Fault]) -> float | None:
    if node is not None:
        _only(node, ("at_most",), faults)
    return _number(node.get("at_most"), faults) if node else None


def _only(node: Node, keys: tuple[str, ...], faults: list[Fault]) -> None:
    """A fault where the node is anything but a mapping of exactly these keys."""
    if not node.is_mapping or {name for name, _ in node.items()} != set(keys):
        faults.append(node.fault("keys", N_("must hold exactly: {allowed}"), allowed=", ".join(keys)))


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
    _only(node, ("at", "information"), faults)
    points = [_number(one, faults) for one in _elements(node.get("at"), faults)]
    wanted = [_number(one, faults) for one in _elements(node.get("information"), faults)]
    if not points or len(points) != len(wanted):
        faults.append(node.fault("target", N_("at and information must be lists of one length")))
        return ()
    return tuple(zip(points, wanted, strict=True))
