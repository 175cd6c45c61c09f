"""What the answers of several nouns are made of: texts that every database can keep, and pages of a list."""

import base64
import binascii
from collections.abc import Callable, Sequence
from typing import Annotated, Generic, TypeVar

from fastapi import Query
from pydantic import AfterValidator, BaseModel, ConfigDict, Field

from curriculum.faults import N_, Fault, RefusedError

Item = TypeVar("Item")
MOST = 200


def _whole(text: str) -> str:
    """Half a character, or the one that PostgreSQL can't keep, is no text."""
    if "\x00" in text or any("\ud800" <= letter <= "\udfff" for letter in text):
        raise ValueError("this is no text: it holds a character that can't be kept")
    return text


Text = Annotated[str, Field(max_length=400), AfterValidator(_whole)]
LongText = Annotated[str, Field(max_length=4000), AfterValidator(_whole)]
Limit = Annotated[int, Query(ge=1, le=MOST, description="How many at most.")]
Cursor = Annotated[str, Query(max_length=400, description="`next` of the page before; empty for the first page.")]


class Answer(BaseModel):
    """An answer, made of a frozen value that has its fields' names."""

    model_config = ConfigDict(from_attributes=True)


class Question(BaseModel):
    """What a program sends; a member that is not known is refused, since it might be one misspelt."""

    model_config = ConfigDict(extra="forbid")


class Problem(BaseModel):
    """What could not be done, after RFC 9457; `errors` are the places of what was sent that can't be taken."""

    class Error(BaseModel):
        pointer: str = Field(description="JSON pointer (RFC 6901) into what was sent.", examples=["#/parts/0/minutes"])
        detail: str

    type: str = "about:blank"
    title: str
    status: int
    detail: str = ""
    instance: str = ""
    errors: list[Error] = []


class Page(BaseModel, Generic[Item]):
    """Part of a list. What is added or taken away meanwhile moves no page: `next` says after what to go on."""

    items: list[Item]
    next: str | None = Field(description="The `cursor` of the next page; null on the last.")


def page(items: Sequence[Item], key: Callable[[Item], str], limit: int, cursor: str) -> dict[str, object]:
    """The items whose key comes after the cursor's, in the order of their keys."""
    after = _read(cursor) if cursor else None
    ordered = sorted(((key(one), one) for one in items), key=lambda pair: pair[0])
    rest = [pair for pair in ordered if after is None or pair[0] > after]
    last = rest[limit - 1][0] if len(rest) > limit else None
    return {"items": [one for _, one in rest[:limit]], "next": _written(last) if last else None}


def _written(key: str) -> str:
    return base64.urlsafe_b64encode(key.encode()).decode().rstrip("=")


def _read(cursor: str) -> str:
    try:
        return base64.b64decode(cursor + "=" * (-len(cursor) % 4), altchars=b"-_", validate=True).decode()
    except (binascii.Error, ValueError):
        sentence = N_("this is no cursor; take it from the page before")
        raise RefusedError([Fault("no-cursor", sentence, field="cursor")]) from None
