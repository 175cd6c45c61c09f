"""A document as read from a file or a form: nested values that know their line, text as written."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from curriculum.faults import Fault


@dataclass(frozen=True, slots=True)
class Node:
    """A scalar (always text, exactly as written), a list, or a mapping of a document.

    `value` is ``str``, ``None`` (an empty value), ``tuple[Node, ...]`` or ``dict[str, Node]``;
    `line` counts from 1; `path` is where it stands, such as ``categories[0].id``.
    """

    value: "str | None | tuple[Node, ...] | dict[str, Node]"
    line: int | None = None
    path: str = ""
    key_lines: dict[str, int] = field(default_factory=dict, compare=False)

    @property
    def is_mapping(self) -> bool:
        return isinstance(self.value, dict)

    @property
    def is_list(self) -> bool:
        return isinstance(self.value, tuple)

    @property
    def is_text(self) -> bool:
        return isinstance(self.value, str)

    def get(self, key: str) -> "Node | None":
        """The member of a mapping, or None."""
        return self.value.get(key) if isinstance(self.value, dict) else None

    def items(self) -> Iterator[tuple[str, "Node"]]:
        yield from self.value.items() if isinstance(self.value, dict) else ()

    def elements(self) -> "tuple[Node, ...]":
        return self.value if isinstance(self.value, tuple) else ()

    def fault(self, code: str, sentence: str, **values: object) -> Fault:
        """A fault at this place."""
        return Fault(code, sentence, values, field=self.path, line=self.line)


def node_of(data: object, path: str = "") -> Node:
    """A `Node` made from plain Python data (for forms and tests); numbers become their text."""
    if isinstance(data, dict):
        inner = {str(k): node_of(v, f"{path}.{k}" if path else str(k)) for k, v in data.items()}
        return Node(inner, path=path)
    if isinstance(data, (list, tuple)):
        return Node(tuple(node_of(v, f"{path}[{i}]") for i, v in enumerate(data)), path=path)
    return Node(None if data is None else str(data), path=path)
