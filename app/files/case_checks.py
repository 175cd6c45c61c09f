"""Whether a text is a CASE package: every fault with its place. Nothing of a faulty package is taken in."""

import json
import re
from collections.abc import Iterator

from curriculum.faults import N_, Fault, RefusedError

# The official pattern has no anchors (CASE 1.1, 5.2); it is held to the whole text here.
IDENTIFIER = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-[1-5][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}")
NEEDED = {
    "CFDocument": ("identifier", "uri", "creator", "title", "lastChangeDateTime"),
    "CFItems": ("identifier", "uri", "fullStatement", "lastChangeDateTime"),
    "CFAssociations": (
        "identifier", "uri", "associationType", "originNodeURI", "destinationNodeURI", "lastChangeDateTime",
    ),
}  # fmt: skip
MOST_ITEMS = 100_000
MOST_FAULTS = 200


def checked_package(text: str | bytes, most_bytes: int) -> dict:
    """The package in a JSON text; raises `RefusedError` with every fault (at most 200)."""
    size = len(text.encode()) if isinstance(text, str) else len(text)
    if size > most_bytes:
        raise RefusedError([Fault("too-large", N_("is larger than {most} bytes"), {"most": most_bytes})])
    try:
        found = json.loads(text)
    except (ValueError, RecursionError) as damage:
        line = getattr(damage, "lineno", 1)
        raise RefusedError([Fault("not-json", N_("is not JSON, from line {line} on"), {"line": line})]) from damage
    faults = list(_faults(found))[:MOST_FAULTS]
    if faults:
        raise RefusedError(faults)
    return found


def _faults(found: object) -> Iterator[Fault]:
    if not isinstance(found, dict) or not isinstance(found.get("CFDocument"), dict):
        yield Fault("no-package", N_("is not a CASE package: it has no CFDocument"), field="CFDocument")
        return
    shaped = list(_shapes(found))
    yield from shaped
    if not shaped:
        yield from _identifiers(found)
        yield from _ends(found)
        yield from _cycles(found)


def _shapes(found: dict) -> Iterator[Fault]:
    yield from _needed(found["CFDocument"], "CFDocument", NEEDED["CFDocument"])
    for name in ("CFItems", "CFAssociations"):
        listed = found.get(name, [])
        if not isinstance(listed, list) or len(listed) > MOST_ITEMS:
            yield Fault("not-a-list", N_("must be a list of at most {most}"), {"most": MOST_ITEMS}, name)
            continue
        for place, one in enumerate(listed):
            where = f"{name}[{place}]"
            if not isinstance(one, dict):
                yield Fault("no-object", N_("must be an object"), field=where)
                continue
            yield from _needed(one, where, NEEDED[name])
            for end in ("originNodeURI", "destinationNodeURI") if name == "CFAssociations" else ():
                link = one.get(end)
                if link is not None and not (isinstance(link, dict) and isinstance(link.get("identifier"), str)):
                    yield Fault("no-link", N_("must name a node by its identifier"), field=f"{where}.{end}")
            extensions = one.get("extensions", {})
            if not isinstance(extensions, dict):
                yield Fault("no-object", N_("must be an object"), field=f"{where}.extensions")


def _needed(one: dict, where: str, names: tuple[str, ...]) -> Iterator[Fault]:
    for name in names:
        if one.get(name) is None:
            yield Fault("missing", N_("is missing"), field=f"{where}.{name}")
        elif not name.endswith("NodeURI") and not isinstance(one[name], str):
            yield Fault("no-text", N_("must be a text"), field=f"{where}.{name}")


def _identifiers(found: dict) -> Iterator[Fault]:
    seen: set[str] = set()
    for where, one in _every(found):
        id = one["identifier"]
        if not IDENTIFIER.fullmatch(id):
            yield Fault("not-an-identifier", N_("“{value}” is not a UUID in small letters"), {"value": id}, where)
        if id in seen:
            yield Fault("twice", N_("the identifier {value} stands twice"), {"value": id}, where)
        seen.add(id)


def _ends(found: dict) -> Iterator[Fault]:
    """An association within the tree begins at an item of the package."""
    items = {one["identifier"] for one in found.get("CFItems", ())}
    for place, one in enumerate(found.get("CFAssociations", ())):
        origin = one["originNodeURI"]["identifier"]
        if one["associationType"] == "isChildOf" and origin not in items:
            where = f"CFAssociations[{place}].originNodeURI"
            yield Fault("no-such-item", N_("there is no item {value} in the package"), {"value": origin}, where)


def _cycles(found: dict) -> Iterator[Fault]:
    """Nothing is a child of itself, however far down."""
    parents: dict[str, set[str]] = {}
    for one in found.get("CFAssociations", ()):
        if one["associationType"] == "isChildOf":
            origin = one["originNodeURI"]["identifier"]
            parents.setdefault(origin, set()).add(one["destinationNodeURI"]["identifier"])
    done: set[str] = set()
    for start in parents:
        path, stack = set(), [(start, False)]
        while stack:
            id, leaving = stack.pop()
            if leaving:
                path.discard(id)
                done.add(id)
            elif id in path:
                yield Fault("cycle", N_("{value} is its own child"), {"value": id}, "CFAssociations")
                return
            elif id not in done:
                path.add(id)
                stack.append((id, True))
                stack += [(one, False) for one in parents.get(id, ())]


def _every(found: dict) -> Iterator[tuple[str, dict]]:
    yield "CFDocument.identifier", found["CFDocument"]
    for name in ("CFItems", "CFAssociations"):
        for place, one in enumerate(found.get(name, ())):
            yield f"{name}[{place}].identifier", one
