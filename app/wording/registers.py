"""Registers of taught modules in words."""

from assessments.hours.attendance import Kind
from curriculum.faults import N_

MARKS: dict[Kind, str] = {
    "here": N_("There"),
    "late": N_("Came late"),
    "missing": N_("Missing"),
    "makes_up": N_("Makes up a missed day"),
}
