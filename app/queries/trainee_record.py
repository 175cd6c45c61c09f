"""What the school has put on a trainee's record, and who did what and when."""

from collections.abc import Mapping
from dataclasses import dataclass

from app.queries.criteria import criteria_of
from app.queries.standing import requirements_of
from app.storage.enrolments import Enrolment, ShownDocument
from app.storage.record import Event
from app.storage.work import Work
from app.wording.certificates import STEPS
from app.wording.dates import day_text, moment_text
from app.wording.languages import ENGLISH, Language
from app.wording.record import EVENTS, GRANTED, OTHER_EVENT
from app.wording.sessions import in_words
from curriculum.faults import N_

MOST_EVENTS = 60


@dataclass(frozen=True, slots=True)
class TraineeRecord:
    """Texts for people; `documents` and `modules` are (id, words), `events` are (moment, who, what), newest first."""

    name: str
    documents: tuple[tuple[str, str], ...]
    withdrawn: tuple[str, ...]
    modules: tuple[tuple[str, str], ...]
    granted: tuple[str, ...]
    events: tuple[tuple[str, str, str], ...]
    kinds: tuple[tuple[str, str], ...]
    module_kinds: tuple[tuple[str, str], ...]


def trainee_record(work: Work, enrolment: Enrolment, zone: str, language: Language) -> TraineeRecord:
    """The record of one enrolment; documents and modules offered are those that its readiness and hours ask for."""
    names = work.people.names()
    kinds, module_kinds = (asked_for(work, enrolment, kind) for kind in ("document", "module"))
    titles = dict((*kinds, *module_kinds))

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
            (name, language(N_("{module}, completed on {day}"), module=titles.get(name, name), day=day(done)))
            for name, done in work.enrolments.modules_done(enrolment.id).items()
        ),
        tuple(granted(one) for one in work.enrolments.time_granted(enrolment.id)),
        _events(work, enrolment, titles, zone, language),
        kinds,
        module_kinds,
    )


def asked_for(work: Work, enrolment: Enrolment, kind: str) -> tuple[tuple[str, str], ...]:
    """(id, title) of what readiness or a gate of the hours asks for, of the kind `document` or `module`."""
    criteria = criteria_of(work.editions.by_id(enrolment.readiness_id)).criteria
    gates = requirements_of(work.editions.by_id(enrolment.requirements_id)).gates
    opening = {one.name: in_words(one.name, {}, ENGLISH) for gate in gates for one in gate.when if one.kind == kind}
    return tuple((opening | {one.id: one.title for one in criteria if one.kind == kind}).items())


def named(kinds: tuple[tuple[str, str], ...], text: str) -> str:
    """The id of the kind that somebody named, or the name as it is where no kind is called so."""
    known = {name.casefold(): id for id, title in kinds for name in (id, title)}
    return known.get(text.casefold(), text)


def _events(
    work: Work, enrolment: Enrolment, titles: dict[str, str], zone: str, language: Language
) -> tuple[tuple[str, str, str], ...]:
    days = {one.id: day_text(one.day, language.locale) for one in work.ledger.of_enrolment(enrolment.id)}
    exams = [one.id for one in work.exams.of_enrolment(enrolment.id)]
    found = work.record.newest_of([enrolment.id, enrolment.person_id, *exams, *days], MOST_EVENTS)
    actors = work.people.names() | {f"host:{one.id}": one.name for one in work.hosts.all()}

    return tuple(
        (
            moment_text(one.at, zone, language.locale),
            actors.get(one.actor, ""),
            event_text(one, days.get(one.subject, ""), titles, language),
        )
        for one in found
    )


def event_text(event: Event, day: str, titles: Mapping[str, str], language: Language) -> str:
    """What happened; `day` is the session's, if it is about one; `titles` are those of documents and modules."""
    if event.kind not in EVENTS:
        return language(OTHER_EVENT, kind=event.kind)
    body = event.content()
    kind, module = body.get("kind", ""), body.get("module", "")
    shown = {
        "day": day,
        "kind": language(GRANTED[kind]) if event.kind == "time-granted" else titles.get(kind, kind),
        "module": titles.get(module, module),
    }
    said = {name: body.get(name, "") for name in ("reason", "evidence", "number")}
    said["step"] = language(STEPS[body["step"]]) if event.kind == "certificate-step" else ""
    return language(EVENTS[event.kind], **shown, **said)
