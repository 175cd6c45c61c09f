"""Score sheets that were written on paper, typed in by their examiner or a director as that examiner's sheets."""

from dataclasses import replace

from app.permissions import DIRECTOR
from app.storage.exams import Exam
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.use_cases.exams import send_sheet
from assessments.practicals.paper_code import paper_code, read_code
from assessments.practicals.sheets import Sheet
from curriculum.faults import N_, Fault, NotFoundError, RefusedError

NO_SUCH = N_("no sheet that you may type in has this code; look at the top of the paper")


def paper_of(work: Work, asker: Asker, typed: str) -> tuple[Exam, str]:
    """The exam and the examiner of a code; `NotFoundError` where there is none that the asker may type in.

    An examiner types in their own; a director anybody's, but of no exam that they examine in themselves.
    """
    code = read_code(typed)
    for exam_id, seats in work.exams.all_seats().items():
        for examiner in seats:
            if paper_code(exam_id, examiner) == code and _may(work, asker, seats, examiner):
                return work.exams.by_id(exam_id), examiner
    raise NotFoundError


def find_paper(work: Work, asker: Asker, typed: str) -> str:
    """The code as it is written; `RefusedError` where there is no such sheet."""
    try:
        paper_of(work, asker, typed)
    except NotFoundError as error:
        raise RefusedError([Fault("no-such-code", NO_SUCH, field="code")]) from error
    return read_code(typed)


def send_paper(store: Store, asker: Asker, code: str, sheet: Sheet) -> Sheet:
    """Send what stands on the paper as its examiner's sheet, marked as from paper; what a device held gives way to it."""
    with store.reading(asker.school.id) as work:
        exam, examiner = paper_of(work, asker, code)
    return send_sheet(store, replace(asker, person_id=examiner), exam.id, sheet, from_paper=asker.person_id)


def _may(work: Work, asker: Asker, seats: list[str], examiner: str) -> bool:
    if asker.person_id in seats:
        return examiner == asker.person_id
    return DIRECTOR in work.people.roles(asker.person_id)
