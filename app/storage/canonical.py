"""Canonical bytes of a JSON value: the subset of RFC 8785 without fractions, so that a hash is stable."""

import json
from collections.abc import Mapping
from typing import Any

# RFC 8785 section 3.2.2.3 and RFC 7493 section 2.2: whole numbers that a double holds exactly.
LARGEST = 2**53 - 1


def canonical(value: Any) -> bytes:
    """Keys in UTF-16 order (RFC 8785 section 3.2.3), no spaces, UTF-8. TypeError or ValueError if it can't be."""
    return json.dumps(ordered(value), ensure_ascii=False, separators=(",", ":"), allow_nan=False).encode()


def ordered(value: Any) -> Any:
    if isinstance(value, Mapping):
        if not all(isinstance(key, str) for key in value):
            raise TypeError("a key is text")
        return {key: ordered(value[key]) for key in sorted(value, key=lambda key: key.encode("utf-16-be"))}
    if isinstance(value, list | tuple):
        return [ordered(item) for item in value]
    if isinstance(value, int) and abs(value) > LARGEST:
        raise ValueError(f"{value} is too large to be exact everywhere")
    if isinstance(value, str | int):
        return value
    raise TypeError(f"{type(value).__name__} has no canonical form here")
