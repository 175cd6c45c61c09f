"""Machines and the readings of their springs taken from a document."""

from datetime import date

from curriculum.document import Node
from curriculum.faults import N_, Fault, RefusedError
from curriculum.fields import Fields
from curriculum.sessions.springs import Machine, Reading, Spring

MOST_SPRINGS = 12


def read_machines(node: Node) -> tuple[Machine, ...]:
    """The machines that a document lists under `machines`; raises `RefusedError` with every fault."""
    faults: list[Fault] = []
    fields = Fields(node, faults)
    machines = fields.each("machines", _machine, True)
    names = [one.name for one in machines]
    if len(set(names)) < len(names):
        fields.fault("machines", "twice", N_("a name stands twice: {names}"), names=", ".join(names))
    fields.text("edition", "")
    fields.close()
    if faults:
        raise RefusedError(faults)
    return machines


def _machine(fields: Fields) -> Machine:
    name, day = fields.text("name"), fields.day("calibrated")
    springs = fields.each("springs", lambda inner: _spring(inner, day), True)
    labels = [one.label for one in springs]
    if len(set(labels)) < len(labels):
        fields.fault("springs", "twice", N_("a label stands twice: {labels}"), labels=", ".join(labels))
    if len(springs) > MOST_SPRINGS:
        fields.fault("springs", "too-many", N_("has more than {most} springs"), most=MOST_SPRINGS)
    fields.text("apparatus", "")
    return Machine(
        name,
        springs,
        _settings(fields, labels),
        _fixing(fields, labels),
        _gears(fields),
        fields.whole("valid_days", 1, 3650, 365),
        fields.whole("most_springs", 1, MOST_SPRINGS) if fields.member("most_springs") else None,
        fields.node.line,
    )


def _spring(fields: Fields, day: date | None) -> Spring:
    label, own = fields.text("label"), fields.day("calibrated")
    readings = fields.each("readings", _reading, True)
    if readings and len({one.travel for one in readings}) < 2:
        fields.fault("readings", "one-travel", N_("needs readings at two different travels at least"))
    spring = Spring(label, readings, own or day or date.min, fields.flag("worn"))
    if len({one.travel for one in readings}) > 1 and spring.line.stiffness <= 0:
        fields.fault("readings", "no-spring", N_("the load must grow with the travel"))
    if own is None and day is None:
        fields.fault("calibrated", "missing", N_("is missing, here or for the whole machine"))
    return spring


def _reading(fields: Fields) -> Reading:
    return Reading(float(fields.number("travel", 0, 5)), float(fields.number("newtons", 0, 5000)))


def _settings(fields: Fields, labels: list[str]) -> tuple[tuple[int, tuple[str, ...]], ...]:
    found, settings = fields.member("settings"), []
    for key, node in found.items() if found else ():
        named = tuple(one.value for one in node.elements() if one.is_text)
        if (
            not key.isdecimal()
            or not named
            or any(name not in labels for name in named)
            or len(set(named)) < len(named)
        ):
            sentence = N_("must be a number of springs with a list of labels of: {labels}")
            fields.add(node, "not-a-setting", sentence, labels=", ".join(labels))
        else:
            settings.append((int(key), named))
    return tuple(settings)


def _fixing(fields: Fields, labels: list[str]) -> tuple[frozenset[str], ...]:
    if not fields.member("fixing"):
        return ()
    sets = []
    for node in fields.elements("fixing"):
        named = [one.value for one in node.elements()]
        if not named or any(name not in labels for name in named):
            sentence = N_("must be a list of labels of: {labels}")
            fields.add(node, "not-labels", sentence, labels=", ".join(labels))
        else:
            sets.append(frozenset(named))
    return tuple(sets)


def _gears(fields: Fields) -> tuple[tuple[str, float], ...]:
    def one(inner: Fields) -> tuple[str, float]:
        return inner.text("name"), float(inner.number("stretch", -1, 1))

    return fields.each("gears", one) if fields.member("gears") else ()
