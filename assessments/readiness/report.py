"""The readiness report: per criterion met or not, and what blocks the certificate in the order to clear it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date

from assessments.readiness.criteria import Criterion, Kind, ReadinessCriteria, Who
from assessments.readiness.evidence import Evidence, HoursEvidence
from assessments.readiness.gaps import Finding, find
from assessments.readiness.schedule import Timing, clearing_order, day_after, timings


@dataclass(frozen=True, slots=True)
class CriterionLine:
    """One criterion as it stands, with a code and values for wording, in declared order."""

    id: str
    title: str
    kind: Kind
    met: bool
    code: str
    values: Mapping[str, object]


@dataclass(frozen=True, slots=True)
class Gap:
    """One thing to do before the certificate.

    `can_start_today` is False while the criteria named in `waits_for` (ids) are open. `earliest` is the day it
    can be done, at the usual pace. `latest_start` is the last day to begin it and still make the deadline;
    None without a deadline. `late` says that this day has passed.
    """

    criterion: str
    title: str
    code: str
    who: Who
    values: Mapping[str, object]
    can_start_today: bool
    waits_for: tuple[str, ...]
    days: int
    earliest: date
    latest_start: date | None
    late: bool


@dataclass(frozen=True, slots=True)
class ReadinessReport:
    """Readiness of one trainee on one day.

    `day` is the day of the certificate that documents are held against: the one asked for, else the earliest
    that can be. `deadline` is the earlier of the window's end and the day asked for. `feasible` is None without
    a deadline. `gaps` come in the order in which to clear them; `waiting_on` counts them per person.
    """

    programme: str
    title: str
    edition: str
    on: date
    day: date
    ready: bool
    lines: tuple[CriterionLine, ...]
    gaps: tuple[Gap, ...]
    hours: HoursEvidence | None
    deadline: date | None
    feasible: bool | None

    @property
    def waiting_on(self) -> dict[Who, int]:
        """How many gaps wait on whom, in the order they come up."""
        found: dict[Who, int] = {}
        for gap in self.gaps:
            found[gap.who] = found.get(gap.who, 0) + 1
        return found


def report(
    criteria: ReadinessCriteria, evidence: Evidence, on: date, certificate_day: date | None = None
) -> ReadinessReport:
    """The report as of `on`; without a certificate day, documents must last until the earliest one possible."""
    day, findings = _settle(criteria, evidence, on, certificate_day)
    hours = _hours(criteria, evidence)
    deadline = min((d for d in (hours and hours.window_end, certificate_day) if d), default=None)
    gated = _gated(criteria, findings)
    timed = timings(gated, _days(findings))
    end = max((one.end for one in timed.values()), default=0)
    return ReadinessReport(
        programme=criteria.id,
        title=criteria.title,
        edition=criteria.edition,
        on=on,
        day=day,
        ready=all(one.met for one in findings.values()),
        lines=tuple(_line(one, findings[one.id]) for one in criteria.criteria),
        gaps=tuple(_gaps(gated, findings, timed, on, deadline)),
        hours=hours,
        deadline=deadline,
        feasible=None if deadline is None else day_after(on, end) <= deadline,
    )


def _settle(
    criteria: ReadinessCriteria, evidence: Evidence, on: date, asked: date | None
) -> tuple[date, dict[str, Finding]]:
    """The certificate's day and the findings for it; a later day can only make more documents run out."""
    day = asked or on
    for _ in range(len(criteria.criteria) + 1):
        findings = {one.id: find(one, evidence, on, day, criteria.minutes_a_week) for one in criteria.criteria}
        ends = [one.end for one in timings(_gated(criteria, findings), _days(findings)).values()]
        earliest = day_after(on, max(ends, default=0))
        if asked or earliest <= day:
            break
        day = earliest
    return day, findings


def _gated(criteria: ReadinessCriteria, findings: Mapping[str, Finding]) -> tuple[Criterion, ...]:
    """The criteria with only those gates that are shut."""
    return tuple(
        replace(
            one,
            after=tuple(id for id in one.after if findings[id].shut),
            part_after=tuple(id for id in one.part_after if findings[id].shut),
        )
        for one in criteria.criteria
    )


def _days(findings: Mapping[str, Finding]) -> dict[str, int]:
    return {id: one.days for id, one in findings.items() if not one.met}


def _hours(criteria: ReadinessCriteria, evidence: Evidence) -> HoursEvidence | None:
    found = dict(evidence.hours)
    return next((found[one.subject] for one in criteria.criteria if one.kind == "hours" and one.subject in found), None)


def _line(criterion: Criterion, finding: Finding) -> CriterionLine:
    return CriterionLine(criterion.id, criterion.title, criterion.kind, finding.met, finding.code, finding.values)


def _gaps(
    criteria: tuple[Criterion, ...],
    findings: Mapping[str, Finding],
    timed: Mapping[str, Timing],
    on: date,
    deadline: date | None,
) -> Iterator[Gap]:
    for one in clearing_order(criteria, timed):
        before, timing = 0, timed[one.id]
        for lack in findings[one.id].lacks:
            after = before + lack.days
            latest = None if deadline is None else day_after(deadline, before - timing.chain)
            done = timing.end if after == findings[one.id].days else timing.start + after
            yield Gap(
                criterion=one.id,
                title=one.title,
                code=lack.code,
                who=lack.who,
                values=lack.values,
                can_start_today=not one.after,
                waits_for=one.after,
                days=lack.days,
                earliest=day_after(on, done),
                latest_start=latest,
                late=latest is not None and latest < on,
            )
            before = after
