"""What examiners do with their sheets: keep a draft, send it, keep or change it after talking."""

from dataclasses import replace

from app.files.sheets import write_sheet
from app.queries.exam_facts import practical_of, sent_sheets
from app.queries.sheet_facts import draft_stamp, may_talk, records_of
from app.storage.exams import Exam, SentSheet
from app.storage.work import Store, Work
from app.use_cases.admitting import refuse_unadmitted
from app.use_cases.asker import Asker
from assessments.practicals.sheet_changes import changes
from assessments.practicals.sheet_checks import send
from assessments.practicals.sheets import Sheet, SheetState, correct, in_order
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError


class SentAlreadyError(ConflictError):
    """The sheet is sent; `same` says that what was asked for is what was sent."""

    def __init__(self, same: bool):
        self.same = same
        super().__init__(N_("This sheet is sent and does not change."))


class KeptElsewhereError(ConflictError):
    """The draft was changed in another window since this one was opened."""


def own_exam(work: Work, exam_id: str, examiner_id: str) -> Exam:
    """The examiner's own exam; `NotFoundError` for anybody else."""
    exam = work.exams.by_id(exam_id)
    if exam is None or examiner_id not in work.exams.seats(exam_id):
        raise NotFoundError
    return exam


def keep_sheet(store: Store, asker: Asker, exam_id: str, sheet: Sheet, known: str | None = None) -> Sheet:
    """Keep a draft; `ConflictError` once the sheet is sent, or if the draft is not the one `known` by its stamp."""
    with store.writing(asker.school.id) as work:
        kept = _own(work, asker, exam_id, sheet)
        content = write_sheet(kept)
        _refuse_stale(work, asker, exam_id, content, known)
        _tell_in_records(work, asker, kept)
        work.exams.put_draft(exam_id, asker.person_id, content, asker.now)
        work.commit()
    return kept


def send_sheet(
    store: Store, asker: Asker, exam_id: str, sheet: Sheet, known: str | None = None, from_paper: str = ""
) -> Sheet:
    """Send a sheet for good; `RefusedError` with every gap, and then nothing is sent. `from_paper` names who typed in what
    the asker wrote on paper."""
    with store.writing(asker.school.id) as work:
        kept = _own(work, asker, exam_id, replace(sheet, from_paper=from_paper))
        exam = work.exams.by_id(exam_id)
        sent = send(practical_of(work, exam), kept)
        if exam.day > asker.today:
            raise RefusedError([Fault("too-early", N_("this exam is still to come; its sheet can be kept, not sent"))])
        refuse_unadmitted(work, exam)
        _refuse_stale(work, asker, exam_id, write_sheet(kept), known)
        _tell_in_records(work, asker, kept)
        _add(work, asker, sent)
        work.commit()
    return sent


def keep_after_talking(store: Store, asker: Asker, exam_id: str, reason: str) -> Sheet:
    """The examiners were apart and have talked: the sheet stays as it is, as a new version with its reason."""
    with store.writing(asker.school.id) as work:
        exam, standing = _talking(work, asker, exam_id)
        _, fresh = correct(standing, reason.strip(), "kept")
        sent = send(practical_of(work, exam), fresh)
        _add(work, asker, sent)
        work.commit()
    return sent


def change_after_talking(store: Store, asker: Asker, exam_id: str, sheet: Sheet, reason: str) -> Sheet:
    """The examiners were apart and have talked: what `sheet` holds, as a new version with its reason."""
    with store.writing(asker.school.id) as work:
        exam, standing = _talking(work, asker, exam_id)
        _, fresh = correct(standing, reason.strip(), "changed")
        own = {name: getattr(sheet, name) for name in ("marks", "taps", "critical", "stepped_in", "grades", "note")}
        changed = replace(fresh, **own)
        if scores_of(changed) == scores_of(standing):
            sentence = N_("nothing is changed; change what you would now give otherwise, or keep your sheet")
            raise RefusedError([Fault("unchanged", sentence)])
        sent = send(practical_of(work, exam), changed)
        _add(work, asker, sent)
        work.commit()
    return sent


def scores_of(sheet: Sheet) -> tuple:
    """What a sheet says of the candidate, in no order."""
    return (
        frozenset(sheet.marks), frozenset(sheet.critical), frozenset(sheet.grades), frozenset(sheet.stepped_in),
    )  # fmt: skip


def _own(work: Work, asker: Asker, exam_id: str, sheet: Sheet) -> Sheet:
    kept = own_sheet(work, own_exam(work, exam_id, asker.person_id), asker.person_id, sheet)
    sent = [one for one in work.exams.sheets(exam_id) if one.examiner_id == asker.person_id]
    if sent:
        raise SentAlreadyError(sent[-1].content == write_sheet(replace(kept, state=SheetState.SENT)))
    if work.exams.decisions(exam_id):
        raise ConflictError(N_("This exam is decided; its sheets do not change any more."))
    return kept


def own_sheet(work: Work, exam: Exam, examiner_id: str, sheet: Sheet) -> Sheet:
    """What was typed or tapped, as this examiner's first sheet of the exam, in order."""
    own = {"exam": exam.id, "examiner": examiner_id, "version": 1, "state": SheetState.ON_DEVICE}
    further = examiner_id in work.exams.second_markers(exam.id)
    return replace(in_order(practical_of(work, exam), sheet), **own, second_marking=further)


def _tell_in_records(work: Work, asker: Asker, kept: Sheet) -> None:
    """What the form changed, in records, so that a device that has the sheet open learns of it."""
    exam = work.exams.by_id(kept.exam)
    known = records_of(work, exam, asker.person_id)
    told = work.sheet_records.ids(exam.id, asker.person_id)
    added = [*known, *changes(practical_of(work, exam), known, kept)]
    work.sheet_records.add(exam.id, asker.person_id, [one for one in added if one.id not in told], asker.now)


def _talking(work: Work, asker: Asker, exam_id: str) -> tuple[Exam, Sheet]:
    exam = own_exam(work, exam_id, asker.person_id)
    if not may_talk(work, exam, asker.person_id):
        raise ConflictError(N_("There is nothing to talk over: your sheet stands, or the sheets are close enough."))
    return exam, next(one for one in sent_sheets(work, exam_id) if one.examiner == asker.person_id)


def _refuse_stale(work: Work, asker: Asker, exam_id: str, content: str, known: str | None) -> None:
    draft = work.exams.draft(exam_id, asker.person_id)
    if known is not None and draft != content and draft_stamp(draft) != known:
        raise KeptElsewhereError(N_("This sheet was kept in another window meanwhile."))


def _add(work: Work, asker: Asker, sent: Sheet) -> None:
    kept = SentSheet(sent.exam, asker.person_id, sent.version, write_sheet(sent), sent.reason, asker.now)
    work.exams.add_sheet(kept)
    body = {"exam": sent.exam, "version": sent.version}
    if sent.after_talking:
        body |= {"after_talking": sent.after_talking, "reason": sent.reason}
    if sent.from_paper:
        body |= {"from_paper_of": asker.person_id}
    work.record.append("sheet-sent", sent.exam, sent.from_paper or asker.person_id, asker.now, body)
