"""A trainee asks the school; a director answers with a reason; against a refusal one appeals once, and somebody else answers."""

import secrets
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from app.queries.requests import taken_of
from app.storage.mail import OutgoingMail
from app.storage.requests import Request, RequestStep
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.use_cases.keeping_proof import mail_directors
from app.use_cases.trainees import LONGEST_REASON, GrantTime, put_time
from app.use_cases.words import words_faults
from app.wording.dates import day_text
from app.wording.requests import ANSWERED, ASKED, SHORT_KINDS, STEPS
from assessments.requests.life import ANSWER_DAYS, ANSWERS, KINDS, Taken, step_faults
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError

MOST_LETTERS = 4000
LONGEST_ID = 36


@dataclass(frozen=True, slots=True)
class AskSchool:
    """What is asked; `id` was made by the form, so that sending it twice asks once. Days are a leave's."""

    id: str
    kind: str
    words: str
    first_day: date | None = None
    last_day: date | None = None


def ask_school(store: Store, asker: Asker, enrolment_id: str, asked: AskSchool, unread: Iterable[Fault] = ()) -> None:
    """Keep it and tell the directors; raises `RefusedError` with every reason."""
    faults = [*unread, *words_faults(asked.words, "words", MOST_LETTERS, N_("say what you ask for, and why"))]
    if asked.kind not in KINDS:
        faults.append(Fault("no-kind", N_("choose what you ask for"), field="kind"))
    if asked.kind == "leave":
        faults += _leave_faults(asked)
    if not 0 < len(asked.id) <= LONGEST_ID:
        faults.append(Fault("no-id", N_("this form is damaged; open the page again")))
    if faults:
        raise RefusedError(faults)
    days = (asked.first_day, asked.last_day) if asked.kind == "leave" else (None, None)
    with store.writing(asker.school.id) as work:
        if work.requests.by_id(asked.id) is not None:
            return
        words_id, words_hash = _keep(work, asker, asker.person_id, asked.words)
        work.requests.add(Request(asked.id, enrolment_id, asked.kind, *days, words_id, asker.now))
        body = {"request": asked.id, "kind": asked.kind, "words": words_hash}
        work.record.append("request-made", enrolment_id, asker.person_id, asker.now, body)
        due = day_text(asker.today + timedelta(days=ANSWER_DAYS), asker.language.locale)
        values = {"kind": asker.language(SHORT_KINDS[asked.kind]), "name": asker.name, "day": due}
        mail_directors(work, asker, *(asker.language(one, **values) for one in ASKED))
        work.commit()


def answer_request(
    store: Store, asker: Asker, request_id: str, answer: str, words: str, known: int, address: str
) -> None:
    """Grant, grant in part or refuse; an extension or a leave that is granted goes on the trainee's record at once."""
    faults = words_faults(words, "words", MOST_LETTERS, N_("say why; the trainee reads it"))
    if answer not in ANSWERS:
        faults.append(Fault("no-answer", N_("choose an answer"), field="answer"))
    with store.writing(asker.school.id) as work:
        request, steps = _found(work, request_id, known)
        enrolment = work.enrolments.by_id(request.enrolment_id)
        if enrolment.person_id == asker.person_id:
            faults.append(Fault("own", N_("nobody answers their own request")))
        if not faults:
            faults += step_faults(taken_of(steps), Taken(answer, asker.person_id, asker.now), asker.today)
        if faults:
            raise RefusedError(faults)
        _add_step(work, asker, request, steps, answer, words)
        if answer == "granted" and request.kind in ("extension", "leave"):
            reason = words.strip()[:LONGEST_REASON]
            put_time(work, asker, enrolment, GrantTime(request.kind, request.first_day, request.last_day, reason))
        person = work.people.by_id(enrolment.person_id)
        values = {
            "kind": asker.language(SHORT_KINDS[request.kind]), "answer": asker.language(STEPS[answer]),
            "address": f"{address}/my-requests/{request.id}",
        }  # fmt: skip
        subject, text = (asker.language(one, **values) for one in ANSWERED)
        work.mail.add(OutgoingMail(secrets.token_hex(16), person.email, person.name, subject, text, asker.now))
        work.commit()


def take_own_step(store: Store, asker: Asker, request_id: str, step: str, words: str, known: int) -> None:
    """Withdraw what was asked, or appeal against the answer with the grounds."""
    faults = (
        words_faults(words, "words", MOST_LETTERS, N_("say what was wrong with the answer"))
        if step == "appealed"
        else []
    )
    with store.writing(asker.school.id) as work:
        request, steps = _found(work, request_id, known)
        if work.enrolments.by_id(request.enrolment_id).person_id != asker.person_id or step not in (
            "withdrawn",
            "appealed",
        ):
            raise NotFoundError
        faults += step_faults(taken_of(steps), Taken(step, asker.person_id, asker.now), asker.today)
        if faults:
            raise RefusedError(faults)
        _add_step(work, asker, request, steps, step, words)
        if step == "appealed":
            due = day_text(asker.today + timedelta(days=ANSWER_DAYS), asker.language.locale)
            values = {"kind": asker.language(SHORT_KINDS[request.kind]), "name": asker.name, "day": due}
            mail_directors(work, asker, *(asker.language(one, **values) for one in ASKED))
        work.commit()


def _found(work: Work, request_id: str, known: int) -> tuple[Request, list[RequestStep]]:
    request = work.requests.by_id(request_id)
    if request is None:
        raise NotFoundError
    steps = work.requests.steps().get(request_id, [])
    if len(steps) != known:
        raise ConflictError(N_("Something was done with this request meanwhile. Open the page again."))
    return request, steps


def _add_step(work: Work, asker: Asker, request: Request, steps: list[RequestStep], step: str, words: str) -> None:
    enrolment = work.enrolments.by_id(request.enrolment_id)
    words_id, words_hash = _keep(work, asker, enrolment.person_id, words)
    made = RequestStep(request.id, len(steps) + 1, step, words_id, asker.person_id, asker.now)
    work.requests.add_step(made)
    body = {"request": request.id, "kind": request.kind, "step": step, "words": words_hash}
    work.record.append("request-step", request.enrolment_id, asker.person_id, asker.now, body)


def _keep(work: Work, asker: Asker, person_id: str, words: str) -> tuple[str, str]:
    """The words belong to the trainee, whoever wrote them: they go when the trainee asks for it."""
    words_id = secrets.token_hex(16)
    return words_id, work.record.keep_words(words_id, person_id, words.strip(), secrets.token_bytes(16))


def _leave_faults(asked: AskSchool) -> list[Fault]:
    faults = [
        Fault("no-day", N_("choose the day"), field=field)
        for field, day in (("first", asked.first_day), ("last", asked.last_day))
        if day is None
    ]
    if not faults and asked.last_day < asked.first_day:
        faults.append(Fault("ends-early", N_("the last day is before the first"), field="last"))
    return faults
