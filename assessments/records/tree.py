"""The Merkle tree of a record. Source: RFC 9162 (Certificate Transparency 2.0), section 2.1; SHA-256.

A node is named by its level (0: leaves) and its place from the left; only nodes over a whole power of two of leaves are
kept, every other hash follows from them.
"""

import hashlib
from collections.abc import Callable, Iterator, Sequence

Nodes = Callable[[int, int], bytes]
EMPTY = hashlib.sha256(b"").digest()


def leaf_hash(data: bytes) -> bytes:
    """The hash of one entry (section 2.1.1)."""
    return hashlib.sha256(b"\x00" + data).digest()


def node_hash(left: bytes, right: bytes) -> bytes:
    """The hash of two subtrees (section 2.1.1)."""
    return hashlib.sha256(b"\x01" + left + right).digest()


def grown(nodes: Nodes, place: int, leaf: bytes) -> Iterator[tuple[int, int, bytes]]:
    """The nodes (level, place, hash) that a leaf at this place completes; `nodes` knows all that were before."""
    level, found = 0, leaf
    yield level, place, found
    while place % 2:
        found = node_hash(nodes(level, place - 1), found)
        level, place = level + 1, place // 2
        yield level, place, found


def whole(leaves: Sequence[bytes]) -> tuple[list[bytes], ...]:
    """Every node over a whole power of two of these leaf hashes, by level."""
    levels = [list(leaves)]
    while len(levels[-1]) > 1:
        below = levels[-1]
        levels.append([node_hash(below[one], below[one + 1]) for one in range(0, len(below) - 1, 2)])
    return tuple(levels)


def among(levels: Sequence[Sequence[bytes]]) -> Nodes:
    """The nodes of levels, to be asked by name."""
    return lambda level, place: levels[level][place]


def root(nodes: Nodes, size: int) -> bytes:
    """The root over the first `size` entries (section 2.1.1)."""
    return _subtree(nodes, 0, size) if size else EMPTY


def inclusion(nodes: Nodes, place: int, size: int) -> tuple[bytes, ...]:
    """The path from the entry at `place` (from 0) to the root over `size` entries (section 2.1.3.1)."""
    if not 0 <= place < size:
        raise ValueError(f"no entry {place} among {size}")
    return tuple(_path(nodes, place, 0, size))


def consistency(nodes: Nodes, older: int, size: int) -> tuple[bytes, ...]:
    """What shows that the first `older` of `size` entries are those of the older root (section 2.1.4.1)."""
    if not 0 <= older <= size:
        raise ValueError(f"{older} entries are no beginning of {size}")
    return tuple(_beginning(nodes, older, 0, size, True)) if 0 < older < size else ()


def _split(size: int) -> int:
    """The largest power of two below a size over 1."""
    return 1 << ((size - 1).bit_length() - 1)


def _subtree(nodes: Nodes, first: int, end: int) -> bytes:
    size = end - first
    if size & (size - 1) == 0:
        level = size.bit_length() - 1
        return nodes(level, first >> level)
    middle = first + _split(size)
    return node_hash(_subtree(nodes, first, middle), _subtree(nodes, middle, end))


def _path(nodes: Nodes, place: int, first: int, end: int) -> Iterator[bytes]:
    if end - first == 1:
        return
    middle = first + _split(end - first)
    if place < middle:
        yield from _path(nodes, place, first, middle)
        yield _subtree(nodes, middle, end)
    else:
        yield from _path(nodes, place, middle, end)
        yield _subtree(nodes, first, middle)


def _beginning(nodes: Nodes, older: int, first: int, end: int, known: bool) -> Iterator[bytes]:
    """`older` is where the older tree ends; `known` while the subtree is all of the older tree, so its hash is known."""
    if older == end:
        if not known:
            yield _subtree(nodes, first, end)
        return
    middle = first + _split(end - first)
    if older <= middle:
        yield from _beginning(nodes, older, first, middle, known)
        yield _subtree(nodes, middle, end)
    else:
        yield from _beginning(nodes, older, middle, end, False)
        yield _subtree(nodes, first, middle)
