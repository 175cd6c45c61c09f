"""Certificates as they stand: what was done, what a check says, and what a new one would say."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from fractions import Fraction

from app.queries.criteria import criteria_of
from app.queries.readiness import evidence_of
from app.queries.standing import standing_of
from app.storage.certificates import CertificateDecision, CertificateStep, KeptCertificate
from app.storage.enrolments import Enrolment
from app.storage.work import School, Work
from app.wording.certificates import HOURS
from app.wording.languages import Language
from assessments.certificates.credential import Certificate, Reached
from assessments.certificates.life import State, Taken, state_at, valid_until
from assessments.certificates.number import fits, read, written
from assessments.hours.calendar import months_after
from assessments.hours.standing import Standing
from assessments.readiness.certificate_terms import CertificateTerms
from assessments.readiness.criteria import ReadinessCriteria
from assessments.readiness.evidence import Evidence
from assessments.readiness.report import ReadinessReport, report

HOLDERS = ("shows-results", "hides-results")


@dataclass(frozen=True, slots=True)
class Candidate:
    """Who might be certified, by which criteria, with what there is to show."""

    enrolment: Enrolment
    criteria: ReadinessCriteria
    standing: Standing
    evidence: Evidence
    report: ReadinessReport

    @property
    def terms(self) -> CertificateTerms | None:
        return self.criteria.certificate


@dataclass(frozen=True, slots=True)
class Life:
    """A certificate with its steps, and its state at a moment."""

    certificate: KeptCertificate
    steps: tuple[CertificateStep, ...]
    state: State
    until: datetime | None

    @property
    def written(self) -> str:
        return written(self.certificate.number, self.certificate.code)

    @property
    def shows_results(self) -> bool:
        """Whether its holder chose to show them."""
        chosen = [one.step for one in self.steps if one.step in HOLDERS]
        return chosen[-1:] == ["shows-results"]

    @property
    def signed(self) -> CertificateStep:
        """The step that signed the credentials that hold."""
        return next(one for one in reversed(self.steps) if one.plain)


def candidate_of(work: Work, enrolment: Enrolment, today: date) -> Candidate:
    """Where somebody stands before the decision."""
    criteria = criteria_of(work.editions.by_id(enrolment.readiness_id))
    _, standing = standing_of(work, enrolment, today)
    evidence = evidence_of(work, enrolment, standing, today)
    return Candidate(enrolment, criteria, standing, evidence, report(criteria, evidence, today))


def lives_of(work: Work, certificates: Sequence[KeptCertificate], now: datetime) -> list[Life]:
    return [life_of(work, one, now) for one in certificates]


def life_of(work: Work, certificate: KeptCertificate, now: datetime) -> Life:
    steps = tuple(work.certificates.steps(certificate.id))
    taken = taken_of(steps)
    return Life(certificate, steps, state_at(taken, now), valid_until(taken))


def taken_of(steps: Sequence[CertificateStep]) -> tuple[Taken, ...]:
    """The steps that change what a check says."""
    return tuple(Taken(one.step, one.made_at, one.until) for one in steps if one.step not in HOLDERS)


def found(work: Work, text: str, now: datetime) -> Life | None:
    """The certificate that somebody typed, number with code; None where either is wrong, which looks the same."""
    typed = read(text)
    kept = work.certificates.by_id(typed[0]) if typed else None
    return life_of(work, kept, now) if kept and fits(kept.code, typed[1]) else None


def open_decisions(work: Work, enrolment_id: str) -> list[CertificateDecision]:
    """Decisions to certify since the last certificate or the last "not yet"."""
    issued = [
        step.made_at
        for one in work.certificates.of_enrolment(enrolment_id)
        for step in work.certificates.steps(one.id)
        if step.step == "issued"
    ]
    decisions = work.certificates.decisions(enrolment_id)
    since = max([*issued, *(one.made_at for one in decisions if one.decision == "not-yet")], default=None)
    return [one for one in decisions if one.decision == "certify" and (since is None or one.made_at > since)]


def what_it_says(  # noqa: PLR0913 - what stands on a certificate
    candidate: Candidate, holder: str, school: School, kept: KeptCertificate, at: datetime, until: datetime | None
) -> Certificate:
    """The certificate without results."""
    terms = candidate.terms
    return Certificate(
        written(kept.number, kept.code),
        kept.number,
        holder,
        school.name,
        kept.readiness_id,
        terms.title,
        terms.statement,
        "\n".join(f"- {one.title}" for one in candidate.criteria.criteria),
        candidate.criteria.edition,
        school.locale,
        kept.place,
        at,
        until,
    )


def end_of(terms: CertificateTerms, day: date) -> datetime | None:
    """The end of the last day of validity, UTC."""
    if not terms.valid_months:
        return None
    return datetime.combine(months_after(day, terms.valid_months), time(23, 59, 59), UTC)


def results_of(candidate: Candidate, language: Language) -> tuple[Reached, ...]:
    """What its holder may choose to show: hours by category, practicals passed, modules completed. No scores."""
    asks_hours = any(one.kind == "hours" for one in candidate.criteria.criteria)
    hours = tuple(
        Reached(f"hours-{one.id}", language(HOURS, title=one.title), "hours", _hours(one.credited), _hours(one.needed))
        for one in candidate.standing.categories
        if asks_hours
    )
    done = {("practical", one.practical) for one in candidate.evidence.practicals if one.state == "passed"}
    done |= {("module", one.module) for one in candidate.evidence.modules if one.state == "completed"}
    return hours + tuple(
        Reached(one.id, one.title, "outcome", "Completed")
        for one in candidate.criteria.criteria
        if (one.kind, one.subject) in done
    )


def _hours(minutes: int) -> str:
    """Hours to the quarter, rounded down, as text: a signature must not depend on how a number is written."""
    quarters = Fraction(minutes, 15).__floor__()
    whole, rest = divmod(quarters, 4)
    return f"{whole}{('', '.25', '.5', '.75')[rest]}"
