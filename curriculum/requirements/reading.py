"""A requirement set read from a document; every fault at once, each with its line and what is allowed."""

from fractions import Fraction

from curriculum.document import Node
from curriculum.faults import N_, Fault, RefusedError
from curriculum.requirements.members import Members, field_name, texts
from curriculum.requirements.reading_category import (
    read_cap,
    read_category,
    read_counts,
)
from curriculum.requirements.references import reference_faults
from curriculum.requirements.requirement_set import (
    TIMES,
    Category,
    Choice,
    Condition,
    Gate,
    ModuleRule,
    RequirementSet,
    Signing,
    Total,
    Window,
)

KEYS = (
    "title",
    "edition",
    "unit",
    "counts",
    "fields",
    "window",
    "signing",
    "modules",
    "categories",
    "totals",
    "limits",
    "choose",
    "gates",
)
WINDOW = ("months", "least_months", "extension_months", "lapses_after_months")
SIGNING = ("within_days", "at_once", "host_day")
CONDITIONS = ("category", "total", "practical", "document", "module")


def read_requirements(node: Node) -> RequirementSet:
    """The requirement set a document holds; raises `RefusedError` with every fault."""
    faults: list[Fault] = []
    members = Members(node, KEYS, faults)
    unit = read_unit(members, 60)
    counts = read_counts(members, ("signed_off",))
    categories = tuple(read_category(one, unit, counts, faults) for one in members.list("categories"))
    if node.is_mapping and not categories:
        members.missing("categories", "a list with at least one category")
    read = RequirementSet(
        title=members.required_text("title", "the set needs a title"),
        edition=members.text("edition"),
        unit=unit,
        fields=_fields(members, faults),
        window=_window(node.get("window"), faults),
        signing=_signing(node.get("signing"), faults),
        modules=tuple(_module(one, faults) for one in members.list("modules")),
        categories=categories,
        totals=tuple(_total(one, unit, faults) for one in members.list("totals")),
        limits=tuple(read_cap(one, unit, faults, overall=True) for one in members.list("limits")),
        choose=tuple(_choice(one, faults) for one in members.list("choose")),
        gates=tuple(_gate(one, unit, categories, faults) for one in members.list("gates")),
    )
    faults.extend(reference_faults(read, node))
    if faults:
        raise RefusedError(sorted(faults, key=lambda fault: fault.line or 0))
    return read


def read_unit(members: Members, default: int) -> int:
    """What `h` means, in minutes."""
    minutes = members.duration("unit", 60)
    if minutes is not None and minutes < 1:
        members.faults.append(members.node.get("unit").fault("no-unit", N_("must be at least 1 min")))
        return default
    return int(minutes or default)


def _fields(members: Members, faults: list[Fault]) -> dict[str, tuple[str, ...]]:
    node = members.node.get("fields")
    if node is None or node.value is None:
        return {}
    if not node.is_mapping:
        faults.append(node.fault("no-mapping", N_("must name fields, each with the list of its values")))
    for name, value in node.items():
        if not field_name(name):
            sentence = N_("“{value}” can't have a closed list; allowed: activity or a further column of the log")
            faults.append(value.fault("not-a-field", sentence, value=name))
    return {name: texts(value, faults) for name, value in node.items()}


def _window(node: Node | None, faults: list[Fault]) -> Window:
    if node is None or node.value is None:
        return Window()
    members = Members(node, WINDOW, faults)
    return Window(*(members.count(key) for key in WINDOW))


def _signing(node: Node | None, faults: list[Fault]) -> Signing:
    """Times are by the clock: an hour is 60 minutes here, whatever the unit of the set."""
    if node is None or node.value is None:
        return Signing()
    members = Members(node, SIGNING, faults)
    return Signing(members.count("within_days"), members.duration("at_once", 60), members.duration("host_day", 60))


def _module(node: Node, faults: list[Fault]) -> ModuleRule:
    members = Members(node, ("module", "missed_at_most"), faults)
    if node.is_mapping and node.get("missed_at_most") is None:
        members.missing("missed_at_most", "how many days may be missed, 0 or more")
    return ModuleRule(members.id("module"), members.count("missed_at_most", 0) or 0)


def _total(node: Node, unit: int, faults: list[Fault]) -> Total:
    members = Members(node, ("id", "title", "of", "accepts", "at_least"), faults)
    of = members.texts("of")
    if node.is_mapping and node.get("of") is None:
        members.missing("of", "all, or a list of categories")
    return Total(
        id=members.id(),
        of=() if of == ("all",) else of,
        at_least=members.required_duration("at_least", unit),
        accepts=members.accepts(),
        title=members.text("title"),
        line=node.line,
    )


def _choice(node: Node, faults: list[Fault]) -> Choice:
    members = Members(node, ("id", "title", "at_least", "among"), faults)
    among = members.texts("among")
    least = members.required_count("at_least")
    if node.is_mapping and node.get("among") is None:
        members.missing("among", "a list of categories or rules")
    elif least > len(among):
        sentence = N_("asks for {least} of {among}; allowed: at most as many as are named")
        faults.append(members.node.fault("too-many", sentence, least=least, among=len(among)))
    return Choice(members.id(), least, among, members.text("title"), node.line)


def _gate(node: Node, unit: int, categories: tuple[Category, ...], faults: list[Fault]) -> Gate:
    members = Members(node, ("id", "title", "category", "when"), faults)
    when = tuple(_condition(one, unit, categories, faults) for one in members.list("when"))
    if node.is_mapping and not when:
        members.missing("when", "a list of conditions: " + ", ".join(CONDITIONS))
    category = members.required_text("category", "the category it guards")
    return Gate(members.id(), category, when, members.text("title"), node.line)


def _condition(node: Node, unit: int, categories: tuple[Category, ...], faults: list[Fault]) -> Condition:
    kinds = [kind for kind in CONDITIONS if node.get(kind) is not None]
    if len(kinds) != 1:
        sentence = N_("must be exactly one of: {allowed}")
        faults.append(node.fault("no-condition", sentence, allowed=", ".join(CONDITIONS)))
        return Condition("practical")
    kind = kinds[0]
    if kind not in ("category", "total"):
        return Condition(kind, Members(node, (kind,), faults).id(kind))
    members = Members(node, (kind, "accepts", "at_least"), faults)
    name = members.text(kind)
    if kind == "total" and name != "all":
        faults.append(
            node.get(kind).fault(
                "unknown-total",
                N_("“{value}” is not allowed here; allowed: all"),
                value=name,
            )
        )
    base = next((one for one in categories if one.id == name), None)
    if base is None:
        least = members.required_duration("at_least", unit)
    else:
        least = members.required_floor("at_least", base.unit, base.at_least)
    return Condition(kind, name, least or Fraction(0), members.accepts())


__all__ = ["TIMES", "read_requirements"]
