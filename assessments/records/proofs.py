"""Whether a proof holds: a function of what somebody holds in hand, without the record.

Source: RFC 9162, sections 2.1.3.2 (inclusion) and 2.1.4.2 (consistency).
"""

import hmac
from collections.abc import Sequence

from assessments.records.tree import EMPTY, node_hash


def is_included(leaf: bytes, place: int, size: int, path: Sequence[bytes], root: bytes) -> bool:
    """Whether the path leads from the leaf hash at `place` (from 0) to the root over `size` entries."""
    if not 0 <= place < size:
        return False
    here, last, found = place, size - 1, leaf
    for beside in path:
        if last == 0:
            return False
        if here % 2 or here == last:
            found = node_hash(beside, found)
            while here % 2 == 0 and here:
                here, last = here >> 1, last >> 1
        else:
            found = node_hash(found, beside)
        here, last = here >> 1, last >> 1
    return last == 0 and hmac.compare_digest(found, root)


def is_continued(older: int, size: int, older_root: bytes, root: bytes, path: Sequence[bytes]) -> bool:
    """Whether the root over `size` entries stands on the very entries of the root over the first `older`."""
    if not 0 <= older <= size:
        return False
    if older == size:
        return not path and hmac.compare_digest(older_root, root)
    if older == 0:
        return not path and hmac.compare_digest(older_root, EMPTY)
    hashes = list(path)
    if older & (older - 1) == 0:
        hashes.insert(0, older_root)
    return bool(hashes) and _continued(older - 1, size - 1, hashes, older_root, root)


def _continued(here: int, last: int, hashes: list[bytes], older_root: bytes, root: bytes) -> bool:
    while here % 2:
        here, last = here >> 1, last >> 1
    before = now = hashes[0]
    for beside in hashes[1:]:
        if last == 0:
            return False
        if here % 2 or here == last:
            before, now = node_hash(beside, before), node_hash(beside, now)
            while here % 2 == 0 and here:
                here, last = here >> 1, last >> 1
        else:
            now = node_hash(now, beside)
        here, last = here >> 1, last >> 1
    return last == 0 and hmac.compare_digest(before, older_root) and hmac.compare_digest(now, root)
