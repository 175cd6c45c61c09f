"""The proof of a school's record: receipts and roots to give away, and the audit of what is stored against them."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from app.queries.ledger_proof import SESSION_KINDS, WRITES, ledger_faults
from app.storage.work import Work
from assessments.records.receipt import Continuation, Entry, Held, Receipt, Recorded, Root
from assessments.records.tree import among, consistency, inclusion, root, whole
from curriculum.faults import N_, Fault

UNREADABLE = N_("Event {number} of the record can't be read as it was written.")
MISSING = N_("The record has no event {number}, but one with another number in its place.")
CUT = N_("The record should have {counted} events and has {found}.")
CHANGED = N_("The tree over the record no longer fits its events, first at event {number}.")
SHORTER = N_("The record has {size} events now, fewer than it had then ({then}).")
OTHER_ROOT = N_("The first {then} events of the record are no longer what they were then.")
OTHER_SCHOOL = N_("It is of another school's record.")
NOT_WHOLE = N_("The receipt itself was changed after it was written, or is no receipt.")
WORDS = N_("Words that somebody wrote are not those that were recorded ({text}).")
HASH = re.compile(rb"[0-9a-f]{64}")


@dataclass(frozen=True, slots=True)
class Audit:
    """What is stored: the tree made again from the events, and every fault found on the way."""

    school: str
    size: int
    levels: tuple[list[bytes], ...]
    faults: tuple[Fault, ...]

    @property
    def root(self) -> Root:
        return Root(self.school, self.size, root(among(self.levels), self.size))

    def against(self, held: Held) -> tuple[Fault, ...]:
        """What is wrong with the record, or with what is held, when one is laid beside the other."""
        if isinstance(held, Root):
            return tuple(self._against_root(held))
        whole = () if held.is_whole else (Fault("not-whole", NOT_WHOLE),)
        return whole or tuple(self._against_root(held.root))

    def _against_root(self, held: Root) -> Iterator[Fault]:
        then = {"then": held.size}
        if held.school != self.school:
            yield Fault("other-school", OTHER_SCHOOL)
        elif held.size > self.size:
            yield Fault("shorter", SHORTER, then | {"size": self.size})
        elif root(among(self.levels), held.size) != held.hash:
            yield Fault("other-root", OTHER_ROOT, then)


def audit(work: Work) -> Audit:
    """Read every stored byte of every event and make the tree again."""
    leaves: list[bytes] = []
    hashes: set[bytes] = set()
    recorded: list[Recorded] = []
    faults: list[Fault] = []
    for place, event in work.record.stored():
        if event is None:
            faults.append(Fault("unreadable", UNREADABLE, {"number": place}))
        elif event.number != place:
            faults.append(Fault("missing", MISSING, {"number": place}))
        leaves.append(event.leaf if event else b"")
        hashes.update(HASH.findall(event.body) if event else ())
        if event is not None and event.kind in SESSION_KINDS:
            recorded.append(event)
    levels, counted = whole(leaves), work.record.size()
    if counted != len(leaves):
        faults.append(Fault("cut", CUT, {"counted": counted, "found": len(leaves)}))
    faults += _tree_faults(work, levels)
    changed = [id for id, hash in work.record.hashes_of_words().items() if hash.encode() not in hashes]
    faults += [Fault("words", WORDS, {"text": id}) for id in sorted(changed)]
    faults += ledger_faults(work, recorded)
    return Audit(work.school_id, len(leaves), levels, tuple(faults))


def current_root(work: Work) -> Root:
    """The root over everything recorded so far."""
    size = work.record.size()
    return Root(work.school_id, size, root(work.record.node, size))


def continuation(work: Work, size: int) -> Continuation | None:
    """That the record of today continues that of its first `size` events; None if there never were so many."""
    top, node = current_root(work), work.record.node
    if size > top.size:
        return None
    return Continuation(Root(work.school_id, size, root(node, size)), top, consistency(node, size, top.size))


def receipt_of(work: Work, session_id: str, version: int) -> Receipt | None:
    """The receipt of a host's signature under one version of a session: what was put down, and that it was signed.

    None while nobody signed that version.
    """
    events = [one for one in work.record.of_subject(session_id) if one.content().get("version") == version]
    signed = [one for one in events if one.kind == "session-signed"]
    if not signed:
        return None
    top, node = current_root(work), work.record.node
    entries = (
        Entry(one.recorded(work.school_id), inclusion(node, one.number - 1, top.size))
        for one in events
        if one.kind in (*WRITES, "session-signed")
    )
    return Receipt(top, tuple(entries))


def _tree_faults(work: Work, levels: tuple[list[bytes], ...]) -> list[Fault]:
    """Where the stored tree differs from the one made again: the first event under the lowest difference."""
    stored = work.record.nodes()
    made = {(level, place): found for level, nodes in enumerate(levels) for place, found in enumerate(nodes)}
    wrong = {name for name, found in stored.items() if made.get(name) != found} | (made.keys() - stored.keys())
    if not wrong:
        return []
    level, place = min(wrong)
    return [Fault("changed", CHANGED, {"number": (place << level) + 1})]
