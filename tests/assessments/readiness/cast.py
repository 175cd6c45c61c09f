"""Criteria and evidence that the tests of this folder share."""

from dataclasses import replace
from datetime import date

from assessments.readiness.criteria import Criterion, ReadinessCriteria
from assessments.readiness.evidence import (
    DocumentEvidence,
    Evidence,
    HoursEvidence,
    ModuleEvidence,
    PracticalEvidence,
)

ON = date(2026, 3, 1)
HOURS = Criterion("hours", "hours", "set", "Hours", part_after=("insurance",), takes_days=7)
INSURANCE = Criterion("insurance", "document", "insurance", "Insurance", takes_days=10)
FIRST_AID = Criterion("first-aid", "document", "first-aid", "First aid", takes_days=35)
MODULE = Criterion("anatomy", "module", "anatomy", "Anatomy", takes_days=84)
FINAL = Criterion("final", "practical", "final", "Final", after=("hours", "anatomy"), takes_days=42)
ALL = ReadinessCriteria("p", "P", "1", (FINAL, FIRST_AID, HOURS, INSURANCE, MODULE), minutes_a_week=420)

COMPLETE = HoursEvidence(True, 0, 0, 27_000, date(2025, 1, 1), date(2026, 12, 31))
FULL = Evidence(
    hours=(("set", COMPLETE),),
    practicals=(PracticalEvidence("final", "passed", date(2026, 2, 1)),),
    documents=(DocumentEvidence("insurance", True), DocumentEvidence("first-aid", True, None, date(2026, 3, 1))),
    modules=(ModuleEvidence("anatomy", "completed", date(2025, 6, 1)),),
)

EARLY = replace(FULL, hours=(("set", replace(COMPLETE, earliest_end=date(2026, 6, 1))),))


def only(*criteria: Criterion) -> ReadinessCriteria:
    return replace(ALL, criteria=criteria)


def short(further: int, waiting: int = 0, **more) -> Evidence:
    """Hours with so many minutes still to do."""
    end = more.pop("window_end", date(2026, 12, 31))
    return Evidence(hours=(("set", HoursEvidence(False, further, waiting, 9_000, date(2025, 1, 1), end, **more)),))
