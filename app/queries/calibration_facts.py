"""What stands of calibration: performances in use, how each was scored, and whether an examiner may take a place."""

import json
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from app.clock import day_in
from app.files.calibration import published_performances, read_levels
from app.queries.exam_facts import practical_edition, practical_in
from app.storage.calibration import PerformanceScoring, ReferenceFounding
from app.storage.work import Work
from assessments.calibration.comparing import Distance, Levels, cells_of, compare, founded, misfits
from assessments.calibration.performance import Performance, Performances
from assessments.calibration.standing import Scored, Standing, standing
from assessments.practicals.specification import Practical
from curriculum.faults import NotFoundError


@dataclass(frozen=True, slots=True)
class InUse:
    """A practical's newest edition with the newest performances for it; `made` None where none are published."""

    practical_id: str
    practical: Practical
    edition_id: str = ""
    made: Performances | None = None

    @property
    def fitting(self) -> tuple[Performance, ...]:
        """The performances that this edition of the practical can score."""
        found = self.made.performances if self.made else ()
        return tuple(one for one in found if not any(misfits(self.practical, one)))


class Gathered:
    """Every scoring and founding of a school, each scoring beside its reference."""

    def __init__(self, work: Work, zone: str) -> None:
        self._work, self._zone = work, zone
        self.scorings = work.calibrations.all()
        self.foundings = work.calibrations.foundings()
        self._by_id = {one.id: one for one in self.scorings}

    def of(self, person_id: str, performance: str) -> list[PerformanceScoring]:
        """Somebody's scorings of one performance, the newest last."""
        return [one for one in self.scorings if (one.person_id, one.performance) == (person_id, performance)]

    def day(self, one: PerformanceScoring) -> date:
        return day_in(one.sent_at, self._zone)

    def founded_on(self, one: ReferenceFounding) -> date:
        return day_in(one.founded_at, self._zone)

    def performance(self, one: PerformanceScoring) -> Performance:
        (text,) = self._work.editions.by_id(one.edition_id).documents.values()
        return published_performances(text).one(one.performance)

    def reference(self, one: PerformanceScoring) -> Levels:
        """What a scoring is held against: the published reference, else the founding panel without the scorer."""
        return self.performance(one).levels or self._founded(one.performance, one.person_id)

    def distance(self, one: PerformanceScoring) -> Distance | None:
        """None where no reference is set yet."""
        practical = practical_edition(self._work, one.practical_id)
        cells = cells_of(practical, self.performance(one))
        return compare(cells, read_levels(one.levels), self.reference(one))

    def scored(self, person_id: str, practical: str) -> tuple[Scored, ...]:
        """What somebody scored of a practical (its id) that has a reference."""
        found = []
        for one in self.scorings:
            if one.person_id == person_id and practical_edition(self._work, one.practical_id).id == practical:
                distance = self.distance(one)
                found += [Scored(one.performance, self.day(one), distance)] if distance else []
        return tuple(found)

    def standing(self, person_id: str, practical: Practical, on: date) -> Standing:
        """Whether somebody's calibration for a practical holds on a day."""
        return standing(practical.calibration, self.scored(person_id, practical.id), on)

    def _founded(self, performance: str, but: str) -> Levels:
        founding = self.foundings.get(performance)
        panel = panel_of(founding) if founding else ()
        others = [one for id in panel if (one := self._by_id[id]).person_id != but]
        return founded([read_levels(one.levels) for one in others])


def panel_of(founding: ReferenceFounding) -> tuple[str, ...]:
    """The ids of the scorings that founded a reference."""
    return tuple(json.loads(founding.panel))


def in_use(work: Work) -> tuple[InUse, ...]:
    """Every practical on offer with its described performances."""
    newest = {one.name: one for one in sorted(work.editions.of_kind("practical"), key=lambda one: one.published_at)}
    made = {}
    for edition in sorted(work.editions.of_kind("performances"), key=lambda one: one.published_at):
        (text,) = edition.documents.values()
        found = published_performances(text)
        made[found.practical] = (edition.id, found)
    practicals = [(one.id, practical_in(json.dumps(one.documents, sort_keys=True))) for one in newest.values()]
    found = (InUse(id, one, *made.get(one.id, ())) for id, one in practicals)
    return tuple(sorted(found, key=lambda one: one.practical.title))


def performance_in_use(work: Work, practical: str, performance_id: str) -> tuple[InUse, Performance]:
    """One performance of a practical (its id) that can be scored now; `NotFoundError` if there is none."""
    for use in in_use(work):
        for one in use.fitting if use.practical.id == practical else ():
            if one.id == performance_id:
                return use, one
    raise NotFoundError


def uncalibrated(work: Work, practical: Practical, people: Iterable[str], on: date, zone: str) -> frozenset[str]:
    """Those of these people who have no calibration that holds on that day."""
    if not practical.calibration.performances:
        return frozenset()
    gathered = Gathered(work, zone)
    return frozenset(one for one in people if not gathered.standing(one, practical, on).gives_a_place)
