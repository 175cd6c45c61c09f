"""An examiner's sheet as JSON text and back, exact to the fraction."""

import json
from collections.abc import Mapping
from dataclasses import asdict
from fractions import Fraction

from assessments.practicals.sheets import (
    CriticalSighting,
    Grade,
    LeftOut,
    Manner,
    Mark,
    Noticed,
    Sheet,
    SheetState,
    SteppedIn,
    Tap,
)
from curriculum.faults import N_, Fault, RefusedError


def write_sheet(sheet: Sheet) -> str:
    """The sheet as JSON with sorted keys; levels are exact, such as "7/2"."""
    return json.dumps(asdict(sheet), default=_exact, ensure_ascii=False, sort_keys=True, separators=(",", ":"))


def read_sheet(text: str) -> Sheet:
    """The sheet that `write_sheet` wrote; raises `RefusedError` when the text is no sheet."""
    try:
        return _sheet(json.loads(text))
    except (AttributeError, KeyError, TypeError, ValueError, ZeroDivisionError) as damage:
        fault = Fault("not-a-sheet", N_("is not a sheet as it was kept: {damage}"), {"damage": str(damage)}, "sheet")
        raise RefusedError([fault]) from damage


def _sheet(found: Mapping) -> Sheet:
    read = {
        "state": SheetState(found["state"]),
        "marks": tuple(_mark(one) for one in found["marks"]),
        "taps": tuple(Tap(**{**one, "noticed": Noticed(one["noticed"])}) for one in found["taps"]),
        "critical": tuple(CriticalSighting(**one) for one in found["critical"]),
        "stepped_in": tuple(SteppedIn(**one) for one in found["stepped_in"]),
        "grades": tuple(Grade(**one) for one in found["grades"]),
    }
    return Sheet(**{**found, **read})


def _mark(found: Mapping) -> Mark:
    level, left_out = found["level"], found["left_out"]
    read = {
        "level": None if level is None else Fraction(level),
        "left_out": None if left_out is None else LeftOut(left_out),
        "manner": Manner(found["manner"]),
    }
    return Mark(**{**found, **read})


def _exact(value: object) -> str:
    if isinstance(value, Fraction):
        return str(value)
    raise TypeError(f"{type(value).__name__} has no place on a sheet")
