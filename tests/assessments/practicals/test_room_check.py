"""What a room's check must say. That springs, straps, wheels and locks are looked at, and that a machine with a fault is not
used, is common practice."""

from assessments.practicals.room_check import FAULT, HAS_NONE, POINTS, SOUND, MachineCheck, RoomCheck, room_check_faults

SOUND_ONE = MachineCheck("reformer 1", dict.fromkeys(POINTS, SOUND))
MAT = MachineCheck("mat", dict.fromkeys(POINTS, HAS_NONE))
WORN = MachineCheck("chair", {**dict.fromkeys(POINTS, SOUND), "straps": FAULT}, "A seam is open.")


def fields(check: RoomCheck, signed: bool = True) -> list[str]:
    return [one.field for one in room_check_faults(check, signed)]


def test_a_fault_withdraws_its_machine_alone() -> None:
    check = RoomCheck((SOUND_ONE, MAT, WORN), "Dry floor.")
    assert fields(check) == []
    assert check.withdrawn == ("chair",)


def test_everything_missing_is_said_at_its_place_at_once() -> None:
    silent = MachineCheck("table", {"springs": SOUND, "straps": "perhaps"})
    found = fields(RoomCheck((MachineCheck("chair", WORN.points), silent), " "), signed=False)
    assert found == ["words-1", "straps-2", "wheels-2", "locks-2", "record", "signed"]


def test_words_have_an_end() -> None:
    long = MachineCheck("chair", WORN.points, "x" * 1001)
    assert fields(RoomCheck((long,), "y" * 1001)) == ["words-1", "record"]
