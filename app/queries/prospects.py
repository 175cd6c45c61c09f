"""What sessions of each kind would earn, so that a person is told before one that would earn nothing."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from app.queries.standing import facts_of, requirements_of
from app.storage.enrolments import Enrolment
from app.storage.work import Work
from app.wording.hours import REASONS
from app.wording.languages import Language
from app.wording.sessions import MODES
from assessments.hours.entry import Entry
from assessments.hours.session import Session, entries_of
from assessments.hours.standing import SetAside
from assessments.hours.warning import Prospect, prospects
from curriculum.faults import N_
from curriculum.requirements.requirement_set import RequirementSet

AN_HOUR = 60
OWN = "self"


def kinds_that_earn_nothing(
    work: Work, enrolment: Enrolment, activities: Iterable[str], today: date, language: Language
) -> dict[str, str]:
    """A sentence for each kind of which an hour today would earn nothing.

    A kind is `ACTIVITY|MODE`, and `ACTIVITY|MODE|self` for one's own practice that nobody signs.
    """
    kinds = {
        (activity, mode, own): Entry("kind", today, AN_HOUR, "attested" if own else "signed_off", fields)
        for activity in activities
        for mode in MODES
        for own in ((False, True) if activity == "self_practice" else (False,))
        for fields in [{"activity": (activity,), "mode": (mode,)}]
    }
    requirements = requirements_of(work.editions.by_id(enrolment.requirements_id))
    used = {part.mode for one in work.ledger.of_enrolment(enrolment.id) for part in one.parts}
    alike = {kind: _alike(requirements, entry, used) for kind, entry in kinds.items()}
    once = {which: (kinds[kind],) for kind, which in reversed(alike.items())}
    found = dict(zip(once, prospects_of(work, enrolment, list(once.values()), today), strict=True))
    return {
        "|".join([activity, mode, OWN] if own else [activity, mode]): _sentence(one.reasons, language)
        for (activity, mode, own), which in alike.items()
        for one in [found[which]]
        if not one.minutes
    }


def _alike(requirements: RequirementSet, entry: Entry, used: set[str]) -> tuple[object, ...]:
    """Equal for kinds that fare alike: no cap is full of a mode that was never logged, so only what accepts it matters."""
    (mode,) = entry.values("mode")
    accepting = tuple(one.id for one in requirements.categories if entry.matches(one.accepts))
    return entry.state, entry.values("activity"), accepting, mode if mode in used else ""


def why_it_earns_nothing(work: Work, enrolment: Enrolment, session: Session, today: date) -> str | None:
    """The codes of the reasons (joined with ", ") why this session would earn nothing if it were signed, or None."""
    state = "attested" if session.proof == "attested" else "signed_off"
    entries = entries_of(replace(session, state=state))
    (found,) = prospects_of(work, enrolment, [entries], today, but=session.id)
    return None if found.minutes else ", ".join(_reasons(found.reasons))


def prospects_of(
    work: Work, enrolment: Enrolment, sessions: list[tuple[Entry, ...]], today: date, but: str = ""
) -> list[Prospect]:
    """As if all that waits were signed: what is on its way fills a category too."""
    known = [entry for one in work.ledger.of_enrolment(enrolment.id) if one.id != but for entry in entries_of(one)]
    entries = [replace(one, state="signed_off") if one.state == "waiting" else one for one in known]
    requirements = requirements_of(work.editions.by_id(enrolment.requirements_id))
    return prospects(
        requirements, entries, sessions, facts_of(work, enrolment), as_of=today, enrolled=enrolment.enrolled_on
    )


def _reasons(reasons: Iterable[SetAside]) -> list[str]:
    return list(dict.fromkeys(one.reason for one in reasons)) or ["other_rules"]


def _sentence(reasons: Iterable[SetAside], language: Language) -> str:
    why = language.listed([language(REASONS[one]) for one in _reasons(reasons)])
    return language(N_("Such a session would earn nothing now: {why}."), why=why)
