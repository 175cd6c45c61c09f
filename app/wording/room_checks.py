"""The check of rooms and machines in words."""

from collections.abc import Mapping

from assessments.practicals.room_check import FAULT, HAS_NONE, SOUND
from curriculum.faults import N_

POINTS: Mapping[str, str] = {
    "springs": N_("Springs and hooks"),
    "straps": N_("Straps, ropes and loops"),
    "wheels": N_("Wheels, rails and carriage"),
    "locks": N_("Locks, pins and bars"),
}
ANSWERS: Mapping[str, str] = {SOUND: N_("sound"), HAS_NONE: N_("it has none"), FAULT: N_("a fault")}
SIGNED = N_("Signed by {name} at {at}, before the first candidate.")
LATE = N_("Signed by {name} at {at}, after the first exam was to begin.")
FOUND_NOTHING = N_("No fault was found.")
WITHDRAWN = N_("Out of use since: {machines}.")
