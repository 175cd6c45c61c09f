"""Described performances of the demo school, as its examiners scored them. All invented."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from fractions import Fraction
from random import Random

from app.files.calibration import write_levels
from app.queries.calibration_facts import InUse, in_use
from app.storage.calibration import PerformanceScoring
from app.storage.work import School, Store, Work
from assessments.calibration.comparing import cells_of
from assessments.calibration.performance import Performance
from assessments.practicals.specification import Cell


@dataclass(frozen=True, slots=True)
class DemoCalibrated:
    """One examiner: of ten marks so many a level lower and higher than the reference, and the days it was done."""

    person: str
    lower: int
    higher: int
    days_ago: dict[str, tuple[int, ...]]
    founding: bool = True


EXAMINERS = (
    DemoCalibrated("examiner-1", 1, 2, {"basic": (100, 100, 99), "final": (99, 98)}, founding=False),
    DemoCalibrated("examiner-2", 2, 1, {"basic": (236, 235, 235), "final": (235, 234)}),
    DemoCalibrated("examiner-3", 2, 2, {"basic": (233, 233, 232)}),
    DemoCalibrated("examiner-4", 0, 3, {"basic": (231, 230, 230), "final": (230, 229)}),
    DemoCalibrated("examiner-5", 9, 0, {"basic": (229, 229, 228)}),
    DemoCalibrated("examiner-6", 1, 1, {"basic": (400, 400, 399), "final": (228,)}),
)
FOUNDED_DAYS_AGO = 20
NOTE = "The set-up decided most of it."


def add_demo_calibration(store: Store, school: School, now: datetime) -> None:
    """Scorings of those examiners who are there; one performance waits for its founding panel."""
    with store.writing(school.id) as work:
        here = work.people.names()
        for use in in_use(work):
            for one in EXAMINERS:
                if one.person in here:
                    _score_all(work, use, one, now)
        work.commit()


def _score_all(work: Work, use: InUse, one: DemoCalibrated, now: datetime) -> None:
    with_reference = [performance for performance in use.fitting if performance.reference]
    days = one.days_ago.get(use.practical.id, ())
    for performance, ago in zip(with_reference, days, strict=False):
        _score(work, use, performance, one, now - timedelta(days=ago, hours=2))
    for performance in use.fitting if one.founding else ():
        if performance.reference is None:
            _score(work, use, performance, one, now - timedelta(days=FOUNDED_DAYS_AGO))


def _score(work: Work, use: InUse, performance: Performance, one: DemoCalibrated, at: datetime) -> None:
    chance = Random(f"{performance.id} {one.person}")
    steps = [-1] * one.lower + [1] * one.higher + [0] * (10 - one.lower - one.higher)
    levels = {
        (cell.block, cell.criterion): _level(cell, performance, chance.choice(steps))
        for cell in cells_of(use.practical, performance)
    }
    id = f"scored-{performance.id}-{one.person}"[:36]
    kept = (id, one.person, use.edition_id, performance.id, use.practical_id, write_levels(levels), NOTE)
    work.calibrations.add(PerformanceScoring(*kept, at))
    body = {"performance": performance.id, "edition": use.edition_id, "scoring": id}
    work.record.append("performance-scored", use.practical_id, one.person, at, body)


def _level(cell: Cell, performance: Performance, step: int) -> Fraction:
    """A step from the reference, or from the middle of the scale where there is none."""
    middle = cell.scale.levels()[len(cell.scale.levels()) // 2]
    level = performance.levels.get((cell.block, cell.criterion), middle) + step * cell.scale.step
    return min(max(level, cell.scale.lowest), cell.scale.highest)
