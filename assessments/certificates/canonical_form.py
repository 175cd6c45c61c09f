"""The hash of what a document says: JSON-LD expanded, canonicalised as RDF (RDFC-1.0, W3C 2024), SHA-256.

What would vanish on the way is refused: members that no context defines, types and ids that are no address, and control
characters, which canonicalisers write in different ways.
"""

import hashlib
import re
from collections.abc import Iterator, Mapping
from typing import Any

from pyld import jsonld

from curriculum.faults import N_, Fault, RefusedError

Document = Mapping[str, Any]
CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]")
UNDEFINED = N_("{name} is defined by no context of this document, so no signature would cover it")
NO_ADDRESS = N_("{name} is no address, so no signature would cover it")
CONTROL_SIGN = N_("a text holds a control character, which programs sign in different ways; take it out: {name}")
# What is no address of its own becomes one below this, and is seen.
NOWHERE = "nowhere:/"
NO_JSON_LD = N_("this can't be read as JSON-LD: {name}")


class Contexts:
    """The JSON-LD contexts a document may use, by address; nothing is fetched."""

    def __init__(self, known: Mapping[str, Document]) -> None:
        self.known = known

    def digest(self, document: Document) -> bytes:
        """SHA-256 of the canonical form (32 bytes); raises `RefusedError` for what a signature would not cover."""
        for text in texts(document):
            if CONTROL.search(text):
                raise _refusal("control-character", CONTROL_SIGN, repr(text)[:60])
        options = {"documentLoader": self._load, "base": NOWHERE}
        try:
            expanded = jsonld.expand(document, options, on_property_dropped=_refuse_dropped)
            _refuse_relative(expanded)
            lines = jsonld.normalize(expanded, options | {"algorithm": "URDNA2015", "format": "application/n-quads"})
        except jsonld.JsonLdError as error:
            raise _refusal("no-json-ld", NO_JSON_LD, _reason(error)) from error
        return hashlib.sha256(lines.encode()).digest()

    def _load(self, address: str, _options: object = None) -> dict[str, Any]:
        if address not in self.known:
            raise jsonld.JsonLdError(f"{address} is not a context that is known here", "unknown-context")
        # `static` lets the library keep what it made of a context.
        return {"contextUrl": None, "documentUrl": address, "document": self.known[address], "tag": "static"}


def texts(node: object) -> Iterator[str]:
    """Every text of a document, names of members too."""
    if isinstance(node, str):
        yield node
    elif isinstance(node, Mapping):
        for name, value in node.items():
            yield name
            yield from texts(value)
    elif isinstance(node, list | tuple):
        for value in node:
            yield from texts(value)


def _refuse_dropped(name: str) -> None:
    raise _refusal("undefined-term", UNDEFINED, name)


def _refuse_relative(node: object) -> None:
    if isinstance(node, Mapping):
        for name, value in node.items():
            if name in ("@id", "@type"):
                for one in value if isinstance(value, list) else [value]:
                    if one.startswith(NOWHERE):
                        raise _refusal("no-address", NO_ADDRESS, one.removeprefix(NOWHERE))
            _refuse_relative(value)
    elif isinstance(node, list):
        for value in node:
            _refuse_relative(value)


def _reason(error: BaseException) -> str:
    """What began it: the library wraps one error in another."""
    while isinstance(error.__cause__, jsonld.JsonLdError):
        error = error.__cause__
    return str(error.args[0]) if error.args else type(error).__name__


def _refusal(code: str, sentence: str, name: object) -> RefusedError:
    return RefusedError([Fault(code, sentence, {"name": str(name)})])
