"""A room's check as JSON text and back."""

import json
from dataclasses import asdict

from assessments.practicals.room_check import MachineCheck, RoomCheck


def write_room_check(check: RoomCheck) -> str:
    return json.dumps(asdict(check), ensure_ascii=False, sort_keys=True, separators=(",", ":"))


def read_room_check(text: str) -> RoomCheck:
    """The check that `write_room_check` wrote."""
    found = json.loads(text)
    return RoomCheck(tuple(MachineCheck(**one) for one in found["machines"]), found["record"])
