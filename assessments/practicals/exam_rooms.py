"""A room as it is written: its name, and after a colon the machines that stand in it, as “Hall: reformer 1, table”."""

from collections import Counter
from collections.abc import Iterable


def room_name(room: str) -> str:
    """The room without its machines."""
    return room.partition(":")[0].strip()


def machines_in(room: str) -> tuple[str, ...]:
    """The machines of a room, as they are written."""
    return tuple(name for one in room.partition(":")[2].split(",") if (name := " ".join(one.split())))


def same_room(one: str, other: str) -> bool:
    return bool(room_name(one)) and room_name(one).casefold() == room_name(other).casefold()


def shared_machines(one: str, other: str) -> tuple[str, ...]:
    """The machines of the first that are the other's too: a machine stands in one place."""
    others = {name.casefold() for name in machines_in(other)}
    return tuple(name for name in machines_in(one) if name.casefold() in others)


def machines_in_two_rooms(rooms: Iterable[str]) -> tuple[str, ...]:
    """The machines that more than one of the rooms names."""
    named = [name for room in rooms for name in {one.casefold(): one for one in machines_in(room)}.values()]
    counts = Counter(name.casefold() for name in named)
    return tuple({name.casefold(): name for name in reversed(named) if counts[name.casefold()] > 1}.values())
