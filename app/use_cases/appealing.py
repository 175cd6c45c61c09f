"""A candidate appeals or complains; a director assigns somebody who had no part in it; they decide with a reason, and it ends."""

import json
import secrets
from dataclasses import dataclass

from app.queries.appeals import (
    counted_from,
    decision_in_force,
    involved_in,
    open_appeals,
    outcome_text,
    staff_of,
    steps_of,
)
from app.queries.exam_facts import edition_of_exam
from app.storage.appeals import Appeal, AppealStep
from app.storage.exams import Exam
from app.storage.mail import OutgoingMail
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.use_cases.deciding_exams import DecideExam, decide_within
from app.use_cases.keeping_proof import mail_directors
from app.wording.appeals import ASSIGNED, ENDED, FILED, SHORT_KINDS, VERDICTS
from app.wording.dates import day_text
from assessments.practicals.appeal import (
    Filing,
    answer_by,
    assigned_to,
    assigning_faults,
    deciding_faults,
    filing_faults,
    is_open,
)
from assessments.practicals.deciding import Outcome, VoidCause
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError

CHANGED = N_("Something was done with this meanwhile. Open the page again to see how it stands.")
LONGEST_ID = 36


@dataclass(frozen=True, slots=True)
class DecideAppeal:
    """`outcome` is an exam's outcome for an appeal, `upheld` or `not-upheld` for a complaint; `known` counts the steps seen."""

    appeal_id: str
    outcome: str
    reason: str
    known: int
    refer_parts: tuple[str, ...] = ()
    void_cause: VoidCause | None = None


def file_appeal(store: Store, asker: Asker, exam_id: str, id: str, filing: Filing, address: str) -> None:
    """Keep it and tell the directors that there is something to read; every fault at once."""
    if not 0 < len(id) <= LONGEST_ID:
        raise RefusedError([Fault("no-id", N_("this form is damaged; open the page again"))])
    with store.writing(asker.school.id) as work:
        exam = work.exams.by_id(exam_id)
        if exam is None or work.enrolments.by_id(exam.enrolment_id).person_id != asker.person_id:
            raise NotFoundError
        if work.appeals.by_id(id) is not None:
            return
        rules, decision = edition_of_exam(work, exam).appeals, decision_in_force(work, exam)
        earlier = [one for one in work.appeals.of_exam(exam_id) if one.kind == "appeal"]
        already = _appealed(work, earlier)
        outcome, since = (
            Outcome(decision.outcome) if decision else None,
            counted_from(work, exam, asker.school.time_zone),
        )
        faults = [*filing_faults(filing, rules, outcome, since, asker.today, already)]
        if any(one.kind == filing.kind for one in open_appeals(work, exam_id)):
            faults.append(Fault("open", N_("one of this kind is open already; withdraw it, or wait for its end")))
        if faults:
            raise RefusedError(faults)
        words_id, words_hash = _keep(work, asker.person_id, filing.words)
        number, grounds = decision.number if decision else 0, json.dumps(sorted(filing.grounds))
        work.appeals.add(Appeal(id, exam_id, filing.kind, number, grounds, words_id, asker.person_id, asker.now))
        body = {
            "appeal": id,
            "kind": filing.kind,
            "about": number,
            "grounds": sorted(filing.grounds),
            "words": words_hash,
        }
        work.record.append("appeal-filed", exam_id, asker.person_id, asker.now, body)
        kind, day = asker.language(SHORT_KINDS[filing.kind]), answer_by(rules, asker.today)
        values = {"kind": kind, "day": day_text(day, asker.language.locale), "address": f"{address}/appeals/{id}"}
        mail_directors(work, asker, *(asker.language(one, **values) for one in FILED))
        work.commit()


def withdraw(store: Store, asker: Asker, appeal_id: str, known: int) -> None:
    """The candidate takes it back; that ends it."""
    with store.writing(asker.school.id) as work:
        kept, exam, steps = _open(work, appeal_id, known)
        if kept.filed_by != asker.person_id:
            raise NotFoundError
        _add(
            work,
            asker,
            exam,
            AppealStep(kept.id, len(steps) + 1, "withdrawn", asker.person_id, "", "", asker.person_id, asker.now),
        )
        work.commit()


def assign(store: Store, asker: Asker, appeal_id: str, person_id: str, known: int, address: str) -> None:
    """Give it to somebody who had no part in the exam or its decision; they are told by mail."""
    with store.writing(asker.school.id) as work:
        kept, exam, steps = _open(work, appeal_id, known)
        candidate = work.enrolments.by_id(exam.enrolment_id).person_id
        faults = assigning_faults(person_id, staff_of(work), involved_in(work, exam, asker.today), candidate)
        if faults:
            raise RefusedError(faults)
        if assigned_to([one.made for one in steps]) == person_id:
            return
        _add(
            work,
            asker,
            exam,
            AppealStep(kept.id, len(steps) + 1, "assigned", person_id, "", "", asker.person_id, asker.now),
        )
        due = answer_by(edition_of_exam(work, exam).appeals, kept.filed_at.date())
        values = {"day": day_text(due, asker.language.locale), "address": f"{address}/appeals/{kept.id}"}
        _mail(work, asker, person_id, ASSIGNED, kept.kind, values)
        work.commit()


def decide_appeal(store: Store, asker: Asker, request: DecideAppeal, address: str) -> None:
    """Decide it with the reason: an appeal that changes the outcome becomes the decision that stands."""
    with store.writing(asker.school.id) as work:
        kept, exam, steps = _open(work, request.appeal_id, request.known)
        if assigned_to([one.made for one in steps]) != asker.person_id:
            raise NotFoundError
        outcome = _outcome(work, exam, kept, request)
        before, _, after = outcome.partition(">")
        if kept.kind == "appeal" and before != after:
            decision = DecideExam(
                exam.id, Outcome(after), request.reason, request.refer_parts, request.void_cause,
                known=len(work.exams.decisions(exam.id)),
            )  # fmt: skip
            decide_within(work, asker, decision)
        words_id, words_hash = _keep(work, kept.filed_by, request.reason)
        step = AppealStep(
            kept.id, len(steps) + 1, "decided", asker.person_id, outcome, words_id, asker.person_id, asker.now
        )
        _add(work, asker, exam, step, {"outcome": outcome, "words": words_hash})
        values = {"outcome": outcome_text(kept, step, asker.language), "address": f"{address}/my-practicals/{exam.id}"}
        _mail(work, asker, kept.filed_by, ENDED, kept.kind, values)
        work.commit()


def _outcome(work: Work, exam: Exam, kept: Appeal, request: DecideAppeal) -> str:
    """What is kept of the outcome; refuses what can't be decided, all at once."""
    faults = [] if request.reason.strip() else [Fault("no-reason", N_("a decision needs its reason"), field="reason")]
    allowed = set(VERDICTS) if kept.kind == "complaint" else set(Outcome)
    if request.outcome not in allowed:
        faults.append(Fault("no-outcome", N_("choose what is decided"), field="outcome"))
    decision = decision_in_force(work, exam)
    before = Outcome(decision.outcome) if decision else None
    if kept.kind == "appeal" and not faults:
        faults += deciding_faults(edition_of_exam(work, exam).appeals, kept.kind, before, Outcome(request.outcome))
    if faults:
        raise RefusedError(faults)
    return request.outcome if kept.kind == "complaint" else f"{before}>{request.outcome}"


def _appealed(work: Work, earlier: list[Appeal]) -> bool:
    """Whether an appeal of this exam was decided: that was the end, whatever came of it."""
    return any(step.step == "decided" for one in earlier for step in steps_of(work, one.id))


def _open(work: Work, appeal_id: str, known: int) -> tuple[Appeal, Exam, list[AppealStep]]:
    kept = work.appeals.by_id(appeal_id)
    if kept is None:
        raise NotFoundError
    steps = steps_of(work, appeal_id)
    if len(steps) != known or not is_open([one.made for one in steps]):
        raise ConflictError(CHANGED)
    return kept, work.exams.by_id(kept.exam_id), steps


def _keep(work: Work, person_id: str, words: str) -> tuple[str, str]:
    """The words belong to the candidate, whoever wrote them: they go when the candidate asks for it."""
    words_id = secrets.token_hex(16)
    return words_id, work.record.keep_words(words_id, person_id, words.strip(), secrets.token_bytes(16))


def _add(work: Work, asker: Asker, exam: Exam, step: AppealStep, more: dict | None = None) -> None:
    work.appeals.add_step(step)
    body = {"appeal": step.appeal_id, "step": step.step, "person": step.person_id} | (more or {})
    work.record.append("appeal-step", exam.id, asker.person_id, asker.now, body)


def _mail(work: Work, asker: Asker, person_id: str, texts: tuple[str, str], kind: str, values: dict) -> None:
    person = work.people.by_id(person_id)
    said = values | {"kind": asker.language(SHORT_KINDS[kind])}
    subject, text = (asker.language(one, **said) for one in texts)
    work.mail.add(OutgoingMail(secrets.token_hex(16), person.email, person.name, subject, text, asker.now))
