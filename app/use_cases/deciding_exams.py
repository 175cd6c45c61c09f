"""What the director decides after an exam, by somebody who neither taught nor examined the candidate."""

import json
import secrets
from dataclasses import dataclass
from datetime import date

from app.queries.appeals import open_appeals
from app.queries.exam_facts import edition_of_exam, error_in_use, practical_of, result_of, tasks_of, ties_of
from app.queries.set_aside import set_aside
from app.storage.exams import Exam, ExamDecision, KeptWaiver
from app.storage.mail import OutgoingMail
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.wording.dates import day_text
from app.wording.exam_mails import exam_decided
from app.wording.practicals import OUTCOMES
from assessments.practicals.deciding import Decision, Outcome, VoidCause, Waiver, decision_faults, tie_faults
from assessments.practicals.set_aside import against_deciding
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError


@dataclass(frozen=True, slots=True)
class DecideExam:
    """A decision as asked for; `known` is how many decisions its maker had seen."""

    exam_id: str
    outcome: Outcome
    reason: str
    refer_parts: tuple[str, ...] = ()
    void_cause: VoidCause | None = None
    waiver: str = ""
    known: int = 0
    refer_tasks: tuple[tuple[str, str], ...] = ()
    again_from: date | None = None
    extra_minutes: int = 0
    extra_on: str = ""


def decide_exam(store: Store, asker: Asker, request: DecideExam) -> ExamDecision:
    """Keep the decision, and the waiver if one was needed; every fault at once, and then nothing is kept."""
    with store.writing(asker.school.id) as work:
        if any(one.kind == "appeal" for one in open_appeals(work, request.exam_id)):
            raise ConflictError(N_("An appeal against this decision is open; whoever it is assigned to decides."))
        kept = decide_within(work, asker, request)
        work.commit()
    return kept


def decide_within(work: Work, asker: Asker, request: DecideExam) -> ExamDecision:
    """The same within work that decides more than the exam."""
    exam = work.exams.by_id(request.exam_id)
    if exam is None:
        raise NotFoundError
    earlier = work.exams.decisions(exam.id)
    if len(earlier) != request.known:
        raise ConflictError(N_("This exam was decided meanwhile. Open it again to see how it stands."))
    candidate = work.enrolments.by_id(exam.enrolment_id).person_id
    wanted = _decision(asker, request, candidate)
    ties = ties_of(work, candidate)
    faults = decision_faults(edition_of_exam(work, exam), result_of(work, exam), wanted, ties)
    faults = (*faults, *_unknown_tasks(work, exam, request), *_further_sheet(work, exam, wanted))
    aside = set_aside(work, exam.id) if not earlier else None
    if aside:
        faults = (*faults, *against_deciding(aside.noted, request.outcome))
    if faults:
        raise RefusedError(faults)
    kept = _keep(work, asker, request, len(earlier) + 1, error_in_use(work, exam))
    months = practical_of(work, exam).months_apart
    if wanted.waiver and tie_faults(asker.person_id, candidate, ties, asker.today, months):
        _keep_waiver(work, asker, exam.id, wanted.waiver)
    _tell(work, asker, exam, candidate, kept)
    return kept


def _further_sheet(work: Work, exam: Exam, wanted: Decision) -> tuple[Fault, ...]:
    """Who was seated to mark further has sent, or has declined, before anything that uses an attempt is decided."""
    sent = {one.examiner_id for one in work.exams.sheets(exam.id)}
    if not wanted.uses_attempt or work.exams.second_markers(exam.id) <= sent:
        return ()
    return (Fault("further-open", N_("the further examiner's sheet is not in yet"), field="outcome"),)


def _unknown_tasks(work: Work, exam: Exam, request: DecideExam) -> tuple[Fault, ...]:
    listed = {(part, task) for part, tasks in tasks_of(work, exam).items() for task in tasks}
    if set(request.refer_tasks) <= listed:
        return ()
    return (Fault("no-such-task", N_("only tasks of this exam can be named"), field="refer_tasks"),)


def _tell(work: Work, asker: Asker, exam: Exam, candidate_id: str, kept: ExamDecision) -> None:
    """Mail to the candidate: what was decided, and why."""
    language, person = asker.language, work.people.by_id(candidate_id)
    title, day = practical_of(work, exam).title, day_text(exam.day, language.locale)
    subject, words = exam_decided(title, day, language(OUTCOMES[kept.outcome]), kept.reason, language)
    work.mail.add(OutgoingMail(secrets.token_hex(16), person.email, person.name, subject, words, asker.now))


def _decision(asker: Asker, request: DecideExam, candidate: str) -> Decision:
    waiver = Waiver(asker.person_id, asker.person_id, candidate, request.waiver) if request.waiver.strip() else None
    return Decision(
        request.exam_id, candidate, asker.person_id, request.outcome, request.reason, asker.today,
        request.refer_parts, request.void_cause, waiver, request.refer_tasks, request.again_from,
        request.extra_minutes, request.extra_on,
    )  # fmt: skip


def _keep(work: Work, asker: Asker, request: DecideExam, number: int, season_error: float | None) -> ExamDecision:
    parts = json.dumps(sorted(request.refer_parts))
    kept = ExamDecision(
        request.exam_id, number, request.outcome, request.reason.strip(), asker.person_id, asker.now, parts,
        request.void_cause or "", season_error, json.dumps(sorted(request.refer_tasks)), request.again_from,
        request.extra_minutes, request.extra_on.strip(),
    )  # fmt: skip
    work.exams.add_decision(kept)
    body = {
        "exam": request.exam_id, "number": number, "outcome": str(request.outcome), "reason": request.reason.strip(),
        "refer": sorted(request.refer_parts), "void": request.void_cause or "",
        "season_error": "" if season_error is None else repr(season_error),
    }  # fmt: skip
    if request.outcome in (Outcome.REFER, Outcome.FAIL):
        body |= {
            "tasks": [list(one) for one in sorted(request.refer_tasks)],
            "again_from": request.again_from.isoformat() if request.again_from else "",
            "extra_minutes": request.extra_minutes, "extra_on": request.extra_on.strip(),
        }  # fmt: skip
    work.record.append("exam-decided", request.exam_id, asker.person_id, asker.now, body)
    return kept


def _keep_waiver(work: Work, asker: Asker, exam_id: str, waiver: Waiver) -> None:
    """Kept only where something stands between the two: a reason typed without need is no waiver."""
    id, reason = secrets.token_hex(16), waiver.reason.strip()
    work.exams.add_waiver(KeptWaiver(id, exam_id, waiver.person, "decides", reason, waiver.by, asker.now))
