"""A receipt: events as they were recorded, each with its path to a root. It can be checked with nothing but itself."""

import json
from dataclasses import dataclass

from assessments.records.proofs import is_continued, is_included
from assessments.records.tree import leaf_hash


@dataclass(frozen=True, slots=True)
class Recorded:
    """An event as it is hashed. `at` is a moment in UTC, such as 2026-03-02T09:30:00.000000Z; `body` are its stored bytes."""

    school: str
    number: int
    kind: str
    subject: str
    actor: str
    at: str
    body: bytes

    @property
    def leaf(self) -> bytes:
        """The leaf hash: over the heading as one line of JSON (which holds no line break), a line break, the body."""
        heading = [self.school, self.number, self.kind, self.subject, self.actor, self.at]
        line = json.dumps(heading, ensure_ascii=True, separators=(",", ":"))
        return leaf_hash(line.encode() + b"\n" + self.body)


@dataclass(frozen=True, slots=True)
class Root:
    """The root over the first `size` events of a school's record."""

    school: str
    size: int
    hash: bytes


@dataclass(frozen=True, slots=True)
class Entry:
    """An event with its path to the receipt's root."""

    event: Recorded
    path: tuple[bytes, ...]


@dataclass(frozen=True, slots=True)
class Receipt:
    """What was recorded, and the root it was recorded under; at least one entry."""

    root: Root
    entries: tuple[Entry, ...]

    @property
    def is_whole(self) -> bool:
        """Whether every event leads to the root: nothing of the receipt was changed since it was written."""
        size, hash = self.root.size, self.root.hash
        return bool(self.entries) and all(
            one.event.school == self.root.school
            and is_included(one.event.leaf, one.event.number - 1, size, one.path, hash)
            for one in self.entries
        )


@dataclass(frozen=True, slots=True)
class Continuation:
    """That a later root stands on the very events of an older one."""

    older: Root
    root: Root
    path: tuple[bytes, ...]

    @property
    def is_whole(self) -> bool:
        """Whether the path leads from the older root to the later one."""
        same = self.older.school == self.root.school
        return same and is_continued(self.older.size, self.root.size, self.older.hash, self.root.hash, self.path)


# What people hold outside the record.
Held = Receipt | Continuation | Root
