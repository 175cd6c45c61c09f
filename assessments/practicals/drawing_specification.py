"""What the drawn lists must satisfy."""

from collections.abc import Mapping
from dataclasses import dataclass

from curriculum.document import Node
from curriculum.faults import N_, Fault, RefusedError

KEYS = (
    "tasks",
    "minutes",
    "include",
    "always",
    "apart",
    "overlap",
    "target",
    "difficulty",
)


@dataclass(frozen=True, slots=True)
class Inclusion:
    """How many exercises of a kind each list holds."""

    accepts: Mapping[str, tuple[str, ...]]
    at_least: float | None
    at_most: float | None


@dataclass(frozen=True, slots=True)
class DrawingSpecification:
    """Counts per list; `target` pairs a point in logits with the information wanted there."""

    tasks: int
    least_minutes: float | None = None
    most_minutes: float | None = None
    include: tuple[Inclusion, ...] = ()
    always: tuple[str, ...] = ()
    apart: tuple[tuple[str, ...], ...] = ()
    overlap: float | None = None
    target: tuple[tuple[float, float], ...] = ()
    tolerance: float | None = None


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
    if faults:
        raise RefusedError(faults)
    return DrawingSpecification(int(tasks), least, most, include, always, apart, overlap, target, tolerance)


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
