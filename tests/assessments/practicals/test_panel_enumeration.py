"""Seating held against full enumeration of small days, and being linked against scipy's connected components."""

from collections import Counter
from itertools import combinations, product

from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

from assessments.practicals.panel import Examiner, seat
from curriculum.faults import RefusedError

small = st.fixed_dictionaries(
    {
        "examiners": st.lists(
            st.tuples(st.booleans(), st.integers(0, 1), st.integers(1, 3), st.sampled_from(["", "s0", "s1", "s0 s1"])),
            min_size=2, max_size=4,
        ),
        "candidates": st.lists(st.sampled_from(["", "s0", "s1"]), min_size=1, max_size=3),
        "conflicts": st.sets(st.tuples(st.integers(0, 2), st.integers(0, 3)), max_size=3),
        "rooms": st.integers(1, 2),
    }
)  # fmt: skip


@settings(max_examples=60, deadline=None, derandomize=True)
@given(small)
def test_a_day_is_seated_exactly_when_full_enumeration_finds_one(day):
    """Every panel and time of up to three candidates is tried; being linked is scipy's connected components."""
    examiners = tuple(
        Examiner(f"x{i}", senior, least, most, frozenset(slots.split()))
        for i, (senior, least, most, slots) in enumerate(day["examiners"])
    )
    candidates = {f"c{i}": frozenset(slots.split()) for i, slots in enumerate(day["candidates"])}
    conflicts = frozenset((f"c{c}", f"x{e}") for c, e in day["conflicts"])
    rooms = {slot: tuple(f"r{i}" for i in range(day["rooms"])) for slot in ("s0", "s1")}
    try:
        exams = seat(candidates, examiners, conflicts, rooms)
    except RefusedError:
        exams = ()
    found = any(whole(chosen, examiners, rooms) for chosen in every_way(candidates, examiners, conflicts, rooms))
    assert bool(exams) == found
    assert not exams or whole([(one.candidate, one.examiners, one.slot) for one in exams], examiners, rooms)


def every_way(candidates, examiners, conflicts, rooms):
    panels = [p for p in combinations(examiners, 2) if any(one.senior for one in p)]
    ways = [
        [
            (name, tuple(one.id for one in p), slot)
            for p in panels
            for slot in rooms
            if (not own or slot in own)
            and not any((name, one.id) in conflicts or (one.slots and slot not in one.slots) for one in p)
        ]
        for name, own in candidates.items()
    ]
    return product(*ways)


def whole(chosen, examiners, rooms) -> bool:
    loads = Counter(who for _, panel, _ in chosen for who in panel)
    at_once = Counter((slot, who) for _, panel, slot in chosen for who in panel)
    taken = Counter(slot for *_, slot in chosen)
    return (
        all(one.at_least <= loads[one.id] <= one.at_most for one in examiners)
        and max(at_once.values()) == 1
        and all(taken[slot] <= len(names) for slot, names in rooms.items())
        and linked(panel for _, panel, _ in chosen)
    )


def linked(panels) -> bool:
    panels = list(panels)
    place = {who: n for n, who in enumerate(sorted({who for panel in panels for who in panel}))}
    rows, columns = zip(*((place[panel[0]], place[panel[1]]) for panel in panels), strict=True)
    graph = coo_array(([1] * len(panels), (rows, columns)), shape=(len(place), len(place)))
    return connected_components(graph, directed=False)[0] == 1
