"""YAML read into nodes that know their line; every scalar stays the text that was written."""

from dataclasses import dataclass
from pathlib import Path

import yaml

from curriculum.document import Node
from curriculum.faults import N_, Fault, RefusedError

MOST_BYTES = 4 * 1024 * 1024
MOST_DEPTH = 40
MOST_NODES = 200_000
FAST = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


def read_yaml(path: Path | str, name: str | None = None) -> Node:
    """Read one YAML file; raise `RefusedError` with the line of what can't be read."""
    path = Path(path)
    shown = name or str(path)
    try:
        size = path.stat().st_size
        if size > MOST_BYTES:
            raise RefusedError([_fault(shown, None, N_("the file is larger than {most} bytes"), most=MOST_BYTES)])
        return parse_yaml(path.read_bytes(), shown)
    except OSError as error:
        problem = error.strerror or str(error)
        raise RefusedError([_fault(shown, None, N_("can't be read: {problem}"), problem=problem)]) from error


def parse_yaml(text: bytes | str, name: str) -> Node:
    """Parse YAML text named `name`; raise `RefusedError` with every problem's line."""
    try:
        decoded = text.decode("utf-8-sig") if isinstance(text, bytes) else text
        root = _composed(decoded)
    except UnicodeDecodeError as error:
        line = text[: error.start].count(b"\n") + 1
        raise RefusedError([_fault(name, line, N_("is not UTF-8 text"))]) from error
    except yaml.YAMLError as error:
        mark = getattr(error, "problem_mark", None)
        line = mark.line + 1 if mark else None
        problem = getattr(error, "problem", None) or str(error)
        raise RefusedError([_fault(name, line, N_("is not YAML: {problem}"), problem=problem)]) from error
    except RecursionError as error:
        raise RefusedError([_fault(name, None, N_("is nested more than {most} deep"), most=MOST_DEPTH)]) from error
    if root is None:
        raise RefusedError([_fault(name, 1, N_("is empty"))])
    faults: list[Fault] = []
    try:
        node = _node(root, "", 0, _Reading(faults))
    except RefusedError as refusal:
        faults += refusal.faults
    if faults:
        raise RefusedError(fault.within(name) for fault in faults)
    return node


def _composed(text: str) -> yaml.Node | None:
    """A safe loader's composer alone: no tag is ever constructed.

    libyaml's is ten times as fast. What it refuses is read again by the other, whose lines and sentences are shown.
    """
    try:
        return yaml.compose(text, Loader=FAST)
    except (yaml.YAMLError, UnicodeEncodeError):
        return yaml.compose(text, Loader=yaml.SafeLoader)


@dataclass(slots=True)
class _Reading:
    """What was found so far; `_node` stops at the cap, since a few lines of references can stand for any number."""

    faults: list[Fault]
    nodes: int = 0

    def count(self, line: int) -> None:
        self.nodes += 1
        if self.nodes > MOST_NODES:
            sentence = N_("holds more than {most} values, references to others counted each time")
            raise RefusedError([Fault("too-many", sentence, {"most": MOST_NODES}, line=line)])


def _fault(name: str, line: int | None, sentence: str, **values: object) -> Fault:
    return Fault("unreadable", sentence, values, line=line, source=name)


def _node(node: yaml.Node, path: str, depth: int, reading: _Reading) -> Node:
    line = node.start_mark.line + 1
    reading.count(line)
    if depth > MOST_DEPTH:
        sentence = N_("is nested more than {most} deep, or refers to itself")
        reading.faults.append(Fault("too-deep", sentence, {"most": MOST_DEPTH}, path, line))
        return Node(None, line, path)
    if isinstance(node, yaml.MappingNode):
        return _mapping(node, path, depth, reading)
    if isinstance(node, yaml.SequenceNode):
        inner = (_node(item, f"{path}[{i}]", depth + 1, reading) for i, item in enumerate(node.value))
        return Node(tuple(inner), line, path)
    empty = node.value in ("", "~") and not node.style
    return Node(None if empty else node.value, line, path)


def _mapping(node: yaml.MappingNode, path: str, depth: int, reading: _Reading) -> Node:
    members: dict[str, Node] = {}
    key_lines: dict[str, int] = {}
    for key, value in node.value:
        line = key.start_mark.line + 1
        name = key.value if isinstance(key, yaml.ScalarNode) else str(key.tag)
        inner = f"{path}.{name}" if path else name
        if name in members:
            reading.faults.append(Fault("twice", N_("stands twice"), {}, inner, line))
        members[name] = _node(value, inner, depth + 1, reading)
        key_lines[name] = line
    return Node(members, node.start_mark.line + 1, path, key_lines)
