"""Whether an examiner is calibrated for a practical on a day, and until when."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from assessments.calibration.comparing import Distance, together
from assessments.hours.calendar import months_after
from assessments.practicals.specification import Calibration


class State(StrEnum):
    """`HOLDS` and `NOT_ASKED` give a place on panels."""

    HOLDS = "holds"
    TOO_FEW = "too-few"
    OUTSIDE = "outside"
    LAPSED = "lapsed"
    NOT_ASKED = "not-asked"


@dataclass(frozen=True, slots=True)
class Scored:
    """A performance that somebody scored alone, beside its reference."""

    performance: str
    on: date
    distance: Distance


@dataclass(frozen=True, slots=True)
class Standing:
    """How somebody stands on a day; `until` is the last day it holds, `distance` is over the counted performances."""

    state: State
    counted: tuple[Scored, ...] = ()
    until: date | None = None
    distance: Distance | None = None

    @property
    def gives_a_place(self) -> bool:
        return self.state in (State.HOLDS, State.NOT_ASKED)


def standing(rules: Calibration, scored: Iterable[Scored], on: date) -> Standing:
    """Over the newest performances that have not lapsed, as many as the rules ask for, each counted once."""
    if not rules.performances:
        return Standing(State.NOT_ASKED)
    newest = {one.performance: one for one in sorted(scored, key=lambda one: one.on) if one.on <= on}
    known = sorted(newest.values(), key=lambda one: (one.on, one.performance), reverse=True)
    counted = tuple(one for one in known if _last_day(rules, one) >= on)[: rules.performances]
    distance = together(one.distance for one in counted) if counted else None
    if len(counted) < rules.performances:
        state = State.LAPSED if len(known) >= rules.performances else State.TOO_FEW
        return Standing(state, counted, None, distance)
    near = distance.levels <= rules.distance and abs(distance.stricter) <= rules.total
    until = min(_last_day(rules, one) for one in counted)
    return Standing(State.HOLDS if near else State.OUTSIDE, counted, until, distance)


def again_from(rules: Calibration, last: date) -> date:
    """From when a performance may be scored again: its reference is known, so half the time has to pass first."""
    return months_after(last, (rules.months + 1) // 2)


def _last_day(rules: Calibration, one: Scored) -> date:
    return months_after(one.on, rules.months) - timedelta(days=1)
