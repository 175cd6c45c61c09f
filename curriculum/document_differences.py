"""Two documents compared member by member: what was added, taken out or changed, and where."""

from dataclasses import dataclass

from curriculum.document import Node

NAMES = ("id", "code")


@dataclass(frozen=True, slots=True)
class DocumentDifference:
    """One value that differs: its place, such as ``categories.observation.at_least``; "" is absent."""

    place: str
    before: str
    after: str


def document_differences(before: Node, after: Node) -> tuple[DocumentDifference, ...]:
    """Every value that differs, in the order of the newer document; elements go by their id or code, else by place."""
    return tuple(_differences("", before, after))


def _differences(place: str, before: Node | None, after: Node | None) -> list[DocumentDifference]:
    if _same(before, after):
        return []
    if before is None or after is None or not _comparable(before, after):
        return [DocumentDifference(place, _text(before), _text(after))]
    old, new = _members(before), _members(after)
    names = [*new, *(name for name in old if name not in new)]
    found = [
        difference
        for name in names
        for difference in _differences(f"{place}.{name}" if place else name, old.get(name), new.get(name))
    ]
    return found or [DocumentDifference(place, ", ".join(old), ", ".join(new))]


def _comparable(before: Node, after: Node) -> bool:
    """Mappings are compared by member; lists too where each element has a name."""
    if before.is_mapping and after.is_mapping:
        return True
    return before.is_list and after.is_list and all(map(_named, (*before.elements(), *after.elements())))


def _named(node: Node) -> str:
    found = next((node.get(key) for key in NAMES if node.get(key) is not None), None)
    return found.value if found is not None and isinstance(found.value, str) else ""


def _members(node: Node) -> dict[str, Node]:
    return dict(node.items()) if node.is_mapping else {_named(one): one for one in node.elements()}


def _same(before: Node | None, after: Node | None) -> bool:
    return _plain(before) == _plain(after)


def _plain(node: Node | None) -> object:
    """The values alone, without lines and paths; the order of a list counts, that of a mapping does not."""
    if node is None:
        return None
    if node.is_mapping:
        return {name: _plain(one) for name, one in node.items()}
    if node.is_list:
        return [_plain(one) for one in node.elements()]
    return node.value


def _text(node: Node | None) -> str:
    if node is None or node.value is None:
        return ""
    if node.is_mapping:
        return ", ".join(f"{name}: {_text(one)}" for name, one in node.items())
    if node.is_list:
        return "; ".join(_text(one) for one in node.elements())
    return " ".join(node.value.split())
