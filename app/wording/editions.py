"""Editions in words."""

from collections.abc import Mapping

from curriculum.faults import N_

KINDS: Mapping[str, str] = {
    "requirements": N_("Requirement sets"),
    "repertoire": N_("Repertoire"),
    "practical": N_("Practicals"),
    "readiness": N_("Readiness"),
    "machines": N_("Machines and their springs"),
    "spotting": N_("Lessons for fault spotting"),
    "performances": N_("Described performances"),
}
CHANGES: Mapping[str, str] = {
    "added": N_("Added"),
    "removed": N_("Taken out"),
    "moved": N_("Moved in the order"),
    "changed": N_("Changed"),
    "shared": N_("For all exercises"),
}
