"""What one criterion still lacks: what is to be done next, by whom, and how many days it takes."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from assessments.readiness.criteria import Criterion, Who
from assessments.readiness.evidence import Evidence, HoursEvidence, PracticalEvidence


@dataclass(frozen=True, slots=True)
class Lack:
    """One thing to do: a code for wording, who does it, and the days from starting until it is done."""

    code: str
    who: Who
    days: int
    values: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Finding:
    """Whether a criterion holds, with a code and values for wording, and everything it lacks in order."""

    met: bool
    code: str
    values: Mapping[str, object] = field(default_factory=dict)
    lacks: tuple[Lack, ...] = ()

    @property
    def shut(self) -> bool:
        """Whether what it gates has to wait; all is there today where a document ends soon or the training is too short."""
        return not self.met and self.code not in ("document-expires", "hours-early")

    @property
    def days(self) -> int:
        """Days until everything it lacks is done."""
        return sum(lack.days for lack in self.lacks)


def find(criterion: Criterion, evidence: Evidence, on: date, day: date, minutes_a_week: int) -> Finding:
    """What the evidence says of a criterion on `on`, for a certificate on `day`."""
    if criterion.kind == "hours":
        return hours_finding(criterion, dict(evidence.hours).get(criterion.subject), on, minutes_a_week)
    if criterion.kind == "practical":
        return practical_finding(criterion, evidence, on)
    if criterion.kind == "document":
        return document_finding(criterion, evidence, on, day)
    return module_finding(criterion, evidence, on)


def hours_finding(criterion: Criterion, hours: HoursEvidence | None, on: date, minutes_a_week: int) -> Finding:
    """Hours hold when nothing is left to do and the training took its least time.

    What waits is signed first, the rest takes its weeks.
    """
    if hours is None:
        return Finding(False, "hours-unknown", lacks=(Lack("hours-unknown", "school", criterion.takes_days),))
    values = {"credited": hours.credited_minutes, "needed": hours.needed_minutes, "further": hours.further_minutes}
    if hours.complete and hours.earliest_end and on < hours.earliest_end:
        values["until"] = hours.earliest_end
        wait = Lack("hours-wait", "trainee", (hours.earliest_end - on).days, values)
        return Finding(False, "hours-early", values, (wait,))
    if hours.complete:
        return Finding(True, "hours-complete", values)
    left, lacks = max(0, hours.further_minutes - hours.waiting_minutes), []
    if hours.waiting_minutes:
        lacks.append(Lack("hours-sign", "host", criterion.takes_days, {"minutes": hours.waiting_minutes}))
    if left:
        pace = hours.pace or minutes_a_week
        more = {"minutes": left, "pace": pace, "plan": hours.plan}
        lacks.append(Lack("hours-do", "trainee", -(-left * 7 // pace), more))
    return Finding(False, "hours-short", values, tuple(lacks))


def practical_finding(criterion: Criterion, evidence: Evidence, on: date) -> Finding:
    """A practical holds once it is passed."""
    found = next((one for one in evidence.practicals if one.practical == criterion.subject), None)
    if found is None:
        return Finding(False, "practical-open", lacks=(Lack("practical-apply", criterion.who, criterion.takes_days),))
    if found.state == "passed":
        return Finding(True, "practical-passed", {"on": found.on})
    return Finding(False, f"practical-{found.state}", {"on": found.on}, (_practical_lack(criterion, found, on),))


def _practical_lack(criterion: Criterion, found: PracticalEvidence, on: date) -> Lack:
    if found.state == "booked":
        until = max(0, (found.on - on).days) if found.on else criterion.takes_days
        return Lack("practical-take", "trainee", until, {"on": found.on})
    if found.state == "marking":
        return Lack("practical-mark", "examiner", 7)
    if found.state == "deciding":
        return Lack("practical-decide", "school", 7)
    values = {"parts": found.parts, "again_from": found.again_from, "attempts_left": found.attempts_left}
    if found.attempts_left < 1:
        return Lack("practical-no-attempt", "school", criterion.takes_days, values)
    wait = max(0, (found.again_from - on).days) if found.again_from else 0
    return Lack("practical-again", "trainee", max(wait, criterion.takes_days), values)


def document_finding(criterion: Criterion, evidence: Evidence, on: date, day: date) -> Finding:
    """A document holds when a checked one is valid on the day of the certificate."""
    mine = [one for one in evidence.documents if one.document == criterion.subject]
    checked = [one for one in mine if one.checked]
    holding = [one for one in checked if one.holds(day)]
    days, values = criterion.takes_days, {"day": day, "ends": max((one.ends for one in mine if one.ends), default=None)}
    if holding:
        ends = None if any(one.ends is None for one in holding) else max(one.ends for one in holding)
        return Finding(True, "document-holds", {"ends": ends})
    if any(one.holds(day) for one in mine):
        return Finding(False, "document-unchecked", values, (Lack("document-check", "school", min(days, 7)),))
    if not mine:
        return Finding(False, "document-missing", values, (Lack("document-hand-in", criterion.who, days, values),))
    code = "document-expires" if any(one.holds(on) for one in checked) else "document-out-of-date"
    return Finding(False, code, values, (Lack("document-renew", criterion.who, days, values),))


def module_finding(criterion: Criterion, evidence: Evidence, on: date) -> Finding:
    """A module holds once it is completed."""
    found = next((one for one in evidence.modules if one.module == criterion.subject), None)
    if found is None:
        return Finding(False, "module-open", lacks=(Lack("module-book", criterion.who, criterion.takes_days),))
    values = {"on": found.on}
    if found.state == "completed":
        return Finding(True, "module-completed", values)
    if found.state == "attended":
        return Finding(False, "module-attended", values, (Lack("module-register", "school", 7, values),))
    until = max(0, (found.on - on).days) if found.on else criterion.takes_days
    return Finding(False, "module-booked", values, (Lack("module-take", "trainee", until, values),))
