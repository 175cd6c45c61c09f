"""The tree and its proofs, held against published vectors and against the definitions written out.

Vectors: the eight entries, their roots and proofs that implementations of RFC 6962 and RFC 9162 share, as published in
github.com/transparency-dev/merkle, `proof/verify_test.go` (Apache-2.0), which counts leaves from 1. RFC 9162 hashes as
RFC 6962 does.
"""

import hashlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assessments.records.proofs import is_continued, is_included
from assessments.records.tree import EMPTY, among, consistency, grown, inclusion, leaf_hash, root, whole

ENTRIES = [
    bytes.fromhex(text)
    for text in ("", "00", "10", "2021", "3031", "40414243", "5051525354555657", "606162636465666768696a6b6c6d6e6f")
]
ROOTS = [
    "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
    "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
    "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125",
    "aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77",
    "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
    "4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4",
    "76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef",
    "ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c",
    "5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328",
]
INCLUSION = {
    (2, 3): ["fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125"],
    (1, 5): [
        "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
        "5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e",
        "bc1a0643b12e4d2d7c77918f44e0f4f79a838b6cf9ec5b5c283e1f4d88599e6b",
    ],
    (0, 8): [
        "96a296d224f285c67bee93c30f8a309157f0daa35dc5b87e410b78630a09cfc7",
        "5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e",
        "6b47aaf29ee3c2af9af889bc1fb9254dabd31177f16232dd6aab035ca39bf6e4",
    ],
    (5, 8): [
        "bc1a0643b12e4d2d7c77918f44e0f4f79a838b6cf9ec5b5c283e1f4d88599e6b",
        "ca854ea128ed050b41b35ffc1b87b8eb2bde461e9e3b5596ece6b9d5975a0ae0",
        "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
    ],
}
CONSISTENCY = {
    (1, 1): [],
    (1, 8): [
        "96a296d224f285c67bee93c30f8a309157f0daa35dc5b87e410b78630a09cfc7",
        "5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e",
        "6b47aaf29ee3c2af9af889bc1fb9254dabd31177f16232dd6aab035ca39bf6e4",
    ],
    (6, 7): [
        "0ebc5d3437fbe2db158b9f126a1d118e308181031d0a949f8dededebc558ef6a",
        "b08693ec2e721597130641e8211e7eedccb4c26413963eee6c1e2ed16ffb1a5f",
        "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
    ],
    (6, 8): [
        "0ebc5d3437fbe2db158b9f126a1d118e308181031d0a949f8dededebc558ef6a",
        "ca854ea128ed050b41b35ffc1b87b8eb2bde461e9e3b5596ece6b9d5975a0ae0",
        "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
    ],
    (2, 5): [
        "5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e",
        "bc1a0643b12e4d2d7c77918f44e0f4f79a838b6cf9ec5b5c283e1f4d88599e6b",
    ],
}
LEAVES = [leaf_hash(entry) for entry in ENTRIES]
PUBLISHED = among(whole(LEAVES))


def from_hex(texts):
    return tuple(bytes.fromhex(text) for text in texts)


@pytest.mark.parametrize("size", range(9))
def test_roots_are_those_published(size):
    assert root(among(whole(LEAVES[:size])), size).hex() == ROOTS[size]
    assert root(PUBLISHED, size).hex() == ROOTS[size]


@pytest.mark.parametrize(("place", "size"), INCLUSION)
def test_inclusion_paths_are_those_published_and_hold(place, size):
    path = from_hex(INCLUSION[place, size])
    assert inclusion(PUBLISHED, place, size) == path
    assert is_included(LEAVES[place], place, size, path, bytes.fromhex(ROOTS[size]))


@pytest.mark.parametrize(("older", "size"), CONSISTENCY)
def test_consistency_paths_are_those_published_and_hold(older, size):
    path = from_hex(CONSISTENCY[older, size])
    assert consistency(PUBLISHED, older, size) == path
    assert is_continued(older, size, *from_hex([ROOTS[older], ROOTS[size]]), path)


def defined(leaves):
    """The root as RFC 9162, section 2.1.1, defines it, over entries."""
    if len(leaves) < 2:
        return leaf_hash(leaves[0]) if leaves else EMPTY
    k = max(2**power for power in range(20) if 2**power < len(leaves))
    return hashlib.sha256(b"\x01" + defined(leaves[:k]) + defined(leaves[k:])).digest()


MANY = [str(number).encode() for number in range(40)]
TREE = among(whole([leaf_hash(one) for one in MANY]))


def test_every_proof_of_every_tree_up_to_forty_holds_and_no_other_place_size_or_root_does():
    roots = [defined(MANY[:size]) for size in range(41)]
    for size in range(1, 41):
        assert root(TREE, size) == roots[size]
        for place in range(size):
            leaf, path = leaf_hash(MANY[place]), inclusion(TREE, place, size)
            assert is_included(leaf, place, size, path, roots[size])
            assert not is_included(leaf, (place + 1) % (size + 1), size, path, roots[size])
            assert not is_included(leaf, place, size, path, roots[size - 1])
            assert not is_included(leaf, place, size, (*path, leaf), roots[size])
            assert not path or not is_included(leaf, place, size, path[:-1], roots[size])
        for older in range(size + 1):
            path = consistency(TREE, older, size)
            assert is_continued(older, size, roots[older], roots[size], path)
            assert older == 0 or not is_continued(older, size, roots[older - 1], roots[size], path)
            assert not is_continued(older, size, roots[older], roots[size], (*path, EMPTY))
            assert not path or not is_continued(older, size, roots[older], roots[size], path[:-1])


def test_a_tree_that_grew_leaf_by_leaf_has_the_nodes_of_one_made_at_once():
    kept = {}
    for place, entry in enumerate(MANY):
        for level, at, found in grown(lambda *name: kept[name], place, leaf_hash(entry)):
            kept[level, at] = found
    levels = whole([leaf_hash(one) for one in MANY])
    assert kept == {(level, at): found for level, row in enumerate(levels) for at, found in enumerate(row)}


@given(st.integers(1, 40), st.data())
def test_a_changed_bit_anywhere_in_a_proof_is_seen(size, data):
    place = data.draw(st.integers(0, size - 1))
    path = [bytearray(one) for one in (leaf_hash(MANY[place]), *inclusion(TREE, place, size), root(TREE, size))]
    path[data.draw(st.integers(0, len(path) - 1))][data.draw(st.integers(0, 31))] ^= 1 << data.draw(st.integers(0, 7))
    leaf, *between, top = map(bytes, path)
    assert not is_included(leaf, place, size, between, top)


@pytest.mark.parametrize(("place", "size"), [(-1, 3), (3, 3), (0, 0)])
def test_what_is_not_in_the_tree_has_no_path(place, size):
    with pytest.raises(ValueError, match="no entry"):
        inclusion(TREE, place, size)
    assert not is_included(EMPTY, place, size, (), EMPTY)
