"""What the school has put on a trainee's record, and who did what and when."""

from dataclasses import dataclass

from app.queries.readiness import criteria_of
from app.storage.enrolments import Enrolment, ShownDocument
from app.storage.record import Event
from app.storage.work import Work
from app.wording.dates import day_text, moment_text
from app.wording.languages import Language
from app.wording.record import EVENTS, GRANTED, OTHER_EVENT
from curriculum.faults import N_

MOST_EVENTS = 60


@dataclass(frozen=True, slots=True)
class TraineeRecord:
    """Texts for people; `documents` are (id, words), `events` are (moment, who, what), newest first."""

    name: str
    documents: tuple[tuple[str, str], ...]
    withdrawn: tuple[str, ...]
    modules: tuple[str, ...]
    granted: tuple[str, ...]
    events: tuple[tuple[str, str, str], ...]
    kinds: tuple[tuple[str, str], ...]
    module_kinds: tuple[tuple[str, str], ...]


def trainee_record(work: Work, enrolment: Enrolment, zone: str, language: Language) -> TraineeRecord:
    """The record of one enrolment; documents and modules offered are those that readiness asks for."""
    names = work.people.names()
    criteria = criteria_of(work.editions.by_id(enrolment.readiness_id)).criteria
    titles = {one.id: one.title for one in criteria}

    def day(some) -> str:  # noqa: ANN001 - a date
        return day_text(some, language.locale)

    def document(one: ShownDocument) -> str:
        shown = {"kind": titles.get(one.kind, one.kind), "first": day(one.valid_from)}
        if one.valid_to is None:
            return language(N_("{kind}, from {first}, without an end"), **shown)
        return language(N_("{kind}, {first} to {last}"), **shown, last=day(one.valid_to))

    def granted(one) -> str:  # noqa: ANN001 - a TimeGranted
        shown = {"kind": language(GRANTED[one.kind]), "last": day(one.last_day), "reason": one.reason}
        if one.first_day is None:
            return language(N_("{kind} granted on {last}: {reason}"), **shown)
        return language(N_("{kind} from {first} to {last}: {reason}"), **shown, first=day(one.first_day))

    return TraineeRecord(
        names[enrolment.person_id],
        tuple((one.id, document(one)) for one in work.enrolments.documents(enrolment.id)),
        tuple(document(one) for one, _ in work.enrolments.documents_withdrawn(enrolment.id)),
        tuple(
            language(N_("{module}, completed on {day}"), module=titles.get(name, name), day=day(done))
            for name, done in work.enrolments.modules_done(enrolment.id).items()
        ),
        tuple(granted(one) for one in work.enrolments.time_granted(enrolment.id)),
        _events(work, enrolment, titles, zone, language),
        tuple((one.id, one.title) for one in criteria if one.kind == "document"),
        tuple((one.id, one.title) for one in criteria if one.kind == "module"),
    )


def _events(
    work: Work, enrolment: Enrolment, titles: dict[str, str], zone: str, language: Language
) -> tuple[tuple[str, str, str], ...]:
    days = {one.id: day_text(one.day, language.locale) for one in work.ledger.of_enrolment(enrolment.id)}
    exams = [one.id for one in work.exams.of_enrolment(enrolment.id)]
    found = work.record.newest_of([enrolment.id, enrolment.person_id, *exams, *days], MOST_EVENTS)
    actors = work.people.names() | {f"host:{one.id}": one.name for one in work.hosts.all()}

    def words(event: Event) -> str:
        body = event.content()
        if event.kind not in EVENTS:
            return language(OTHER_EVENT, kind=event.kind)
        kind = body.get("kind", "")
        kind = language(GRANTED[kind]) if event.kind == "time-granted" else titles.get(kind, kind)
        module = titles.get(body.get("module", ""), body.get("module", ""))
        shown = {"day": days.get(event.subject, ""), "kind": kind, "module": module}
        return language(EVENTS[event.kind], **shown, reason=body.get("reason", ""))

    return tuple((moment_text(one.at, zone, language.locale), actors.get(one.actor, ""), words(one)) for one in found)
