"""The rest of a day seated again, held against every possible order of small days."""

from itertools import permutations, product

import pytest

from assessments.practicals.exam_rooms import machines_in, machines_in_two_rooms, room_name, same_room, shared_machines
from assessments.practicals.reseating import Held, reseat
from curriculum.faults import RefusedError

HALL, NORTH = "Hall: reformer 1, table", "North room"
REST = (
    Held("b", 600, 60, HALL, ("x1", "x2", "cb")),
    Held("c", 600, 60, NORTH, ("x3", "x4", "cc")),
    Held("d", 675, 60, HALL, ("x1", "x3", "cd")),
    Held("e", 675, 60, NORTH, ("x2", "x4", "ce")),
)
BEGINS = (640, 715, 790, 865)


def earliest(rest: tuple, going_on: tuple, begins: tuple, rooms: tuple) -> int:
    """The least sum of begins over every way to give each exam a time and a room (full enumeration)."""
    best = None
    for chosen in permutations(product(begins, rooms), len(rest)):
        here = [Held(one.id, at, one.minutes, room, one.people) for one, (at, room) in zip(rest, chosen, strict=True)]
        pairs = [(one, other) for place, one in enumerate(here) for other in (*here[place + 1 :], *going_on)]
        clash = any(
            one.starts < other.starts + other.minutes
            and other.starts < one.starts + one.minutes
            and (same_room(one.room, other.room) or set(one.people) & set(other.people))
            for one, other in pairs
        )
        total = sum(at for at, _ in chosen)
        best = total if not clash and (best is None or total < best) else best
    return best


@pytest.mark.parametrize("going_on", [(), (Held("a", 540, 130, HALL, ("x1", "x2", "ca")),)])
@pytest.mark.parametrize("rooms", [(HALL, NORTH), (NORTH,)])
def test_it_begins_as_early_as_any_order_can(going_on: tuple, rooms: tuple) -> None:
    found = reseat(REST, going_on, BEGINS, rooms)
    assert sum(one.starts for one in found) == earliest(REST, going_on, BEGINS, rooms)
    assert [one.id for one in found] == ["b", "c", "d", "e"]


def test_order_and_rooms_stay_where_they_can_and_who_waits_for_a_client_comes_last() -> None:
    found = {one.id: one for one in reseat(REST, (), BEGINS, (HALL, NORTH))}
    assert {id: (one.starts, one.room) for id, one in found.items()} == {
        "b": (640, HALL), "c": (640, NORTH), "d": (715, HALL), "e": (715, NORTH),
    }  # fmt: skip
    late = (Held("b", 600, 60, HALL, ("x1", "x2", "cb"), last=True), *REST[1:])
    assert max(reseat(late, (), BEGINS, (NORTH,)), key=lambda one: one.starts).id == "b"


def test_what_does_not_fit_is_refused_with_the_count() -> None:
    with pytest.raises(RefusedError, match="4 exams do not fit: the times and rooms hold 3"):
        reseat(REST, (), BEGINS[:3], (NORTH,))
    with pytest.raises(RefusedError, match="nobody can be in two"):
        reseat(REST[:1], (Held("a", 600, 400, NORTH, ("x1",)),), BEGINS, (HALL,))


def test_a_room_says_after_a_colon_which_machines_stand_in_it() -> None:
    assert room_name(HALL) == "Hall"
    assert machines_in(HALL) == ("reformer 1", "table")
    assert machines_in(NORTH) == ()
    assert same_room("hall", HALL)
    assert not same_room("", "")
    assert shared_machines(HALL, "Studio: Table , chair") == ("table",)
    assert machines_in_two_rooms([HALL, "Studio: Table", NORTH]) == ("table",)
