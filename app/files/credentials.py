"""A certificate's file as somebody sent it. It is compared with what was signed, never worked out: a file that is made for it
could keep a canonicaliser busy for hours."""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from assessments.certificates.checking import refuse_odd_members
from curriculum.faults import RefusedError

LARGEST = 200_000


@dataclass(frozen=True, slots=True)
class Sent:
    """What was sent, and the number with its code that it names."""

    document: dict[str, Any]
    written: str


def sent_certificate(content: bytes) -> Sent | None:
    """The certificate in a file, or None where it is none."""
    if len(content) > LARGEST:
        return None
    try:
        made = json.loads(content.decode("utf-8-sig"))
        refuse_odd_members({name: value for name, value in made.items() if name != "@context"})
        return Sent(made, made["id"].rpartition("/")[0].rpartition("/")[2])
    except (ValueError, KeyError, AttributeError, TypeError, RecursionError, RefusedError):
        return None


def compared(sent: Sent, signed: Sequence[dict[str, Any]]) -> bool:
    """Whether it is one of the documents that were signed, member for member."""
    return any(sent.document == one for one in signed)
