"""Facts about trainees read from YAML: practicals, modules, documents, extensions and leave, with their dates."""

from collections.abc import Mapping
from datetime import date
from pathlib import Path

from app.files.yaml import read_yaml
from assessments.hours.entry import Facts, Span
from curriculum.document import Node
from curriculum.faults import N_, Fault, RefusedError

KEYS = ("practicals", "modules", "documents", "extensions", "leave")


def facts_from_file(path: Path | str) -> Mapping[str, Facts]:
    """The facts in a file, by trainee; raises `RefusedError`, each fault with file and line."""
    node = read_yaml(path)
    faults: list[Fault] = []
    found = {trainee: _facts(one, faults) for trainee, one in _members(node, faults)}
    if faults:
        raise RefusedError(fault.within(str(path)) for fault in sorted(faults, key=lambda one: one.line or 0))
    return found


def _members(node: Node | None, faults: list[Fault], allowed: tuple[str, ...] = ()) -> list[tuple[str, Node]]:
    if node is None or node.value is None:
        return []
    if not node.is_mapping:
        faults.append(node.fault("no-mapping", N_("must be a group of named members")))
    for key, one in node.items():
        if allowed and key not in allowed:
            sentence = N_("is not known here; allowed: {allowed}")
            line = node.key_lines.get(key, one.line)
            faults.append(
                Fault(
                    "unknown-key",
                    sentence,
                    {"allowed": ", ".join(allowed)},
                    one.path,
                    line,
                )
            )
    return list(node.items())


def _list(node: Node | None, faults: list[Fault]) -> tuple[Node, ...]:
    if node is None or node.value is None:
        return ()
    if not node.is_list:
        faults.append(node.fault("not-a-list", N_("must be a list")))
    return node.elements()


def _facts(node: Node, faults: list[Fault]) -> Facts:
    _members(node, faults, KEYS)
    return Facts(
        practicals={key: _date(one, faults) for key, one in _members(node.get("practicals"), faults)},
        modules={key: _date(one, faults) for key, one in _members(node.get("modules"), faults)},
        documents={key: _span(one, faults) for key, one in _members(node.get("documents"), faults)},
        extensions=tuple(_date(one, faults) for one in _list(node.get("extensions"), faults)),
        leave=tuple(_span(one, faults) for one in _list(node.get("leave"), faults)),
    )


def _span(node: Node, faults: list[Fault]) -> Span:
    _members(node, faults, ("from", "to"))
    start, end = node.get("from"), node.get("to")
    if node.is_mapping and start is None:
        faults.append(node.fault("missing", N_("from is missing; a date such as 2026-11-25")))
    first = _date(start, faults) if start is not None else date.min
    last = _date(end, faults) if end is not None and end.value is not None else None
    if last is not None and start is not None and last < first:
        faults.append(node.fault("backwards", N_("ends before it begins: from must not be after to")))
    return Span(first, last)


def _date(node: Node, faults: list[Fault]) -> date:
    try:
        if node.is_text and len(node.value.strip()) == 10:
            return date.fromisoformat(node.value.strip())
    except ValueError:
        pass
    shown = f"“{node.value}”" if node.is_text else "this"
    faults.append(
        node.fault(
            "not-a-date",
            N_("{value} is not a date; allowed: such as 2026-11-25"),
            value=shown,
        )
    )
    return date.min
