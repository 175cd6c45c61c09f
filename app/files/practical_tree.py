"""A practical's YAML as a tree that a form can change, and back: every scalar stays the text that was written."""

from collections.abc import Mapping

import yaml

from app.files.yaml import parse_yaml
from curriculum.document import Node

Tree = dict[str, "Tree | list | str"]
WIDTH = 120


def tree_of(text: str, name: str) -> Tree:
    """The members of the file; `RefusedError` where it is no YAML. What is no mapping is read as an empty one."""
    found = _plain(parse_yaml(text, name))
    return found if isinstance(found, dict) else {}


def text_of(tree: Mapping, before: str = "") -> str:
    """The tree as YAML, under the comment that `before` began with; comments further down are not kept."""
    lines = before.split("\n")
    head = next((place for place, line in enumerate(lines) if not line.startswith("#")), len(lines))
    body = yaml.dump(dict(tree), Dumper=_AsWritten, allow_unicode=True, sort_keys=False, width=WIDTH)
    return "".join(f"{line}\n" for line in lines[:head]) + body


class _AsWritten(yaml.SafeDumper):
    """Writes 25 and yes without quotation marks: here every scalar is text, whatever other readers take it for."""

    def ignore_aliases(self, data: object) -> bool:
        return True


def _text(dumper: yaml.SafeDumper, value: str) -> yaml.ScalarNode:
    tag = dumper.resolve(yaml.ScalarNode, value, (True, False))
    return dumper.represent_scalar(tag, value)


_AsWritten.add_representer(str, _text)


def _plain(node: Node) -> "Tree | list | str":
    if node.is_mapping:
        return {key: _plain(inner) for key, inner in node.items()}
    if node.is_list:
        return [_plain(inner) for inner in node.elements()]
    return node.value or ""
