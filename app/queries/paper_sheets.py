"""Score sheets to print: everything the sheet in the room asks, with a code to type it in by."""

from datetime import date

from app.queries.sheets import PartShown, ScoreSheet, score_sheet
from app.storage.exams import Exam
from app.storage.work import Work
from app.wording.languages import Language
from assessments.practicals.paper_code import paper_code

# So many empty lines are printed where the list of exercises is not known yet.
EMPTY_LINES = 10


def printed_sheets(
    work: Work, exam: Exam, examiners: list[str], today: date, zone: str, language: Language
) -> list[dict[str, object]]:
    """A sheet for each examiner, in plain values; empty, whatever was kept on a device."""
    return [
        _sheet(work, exam, one, score_sheet(work, exam, one, today, zone, language, blank=True)) for one in examiners
    ]


def _sheet(work: Work, exam: Exam, examiner: str, asked: ScoreSheet) -> dict[str, object]:
    line = asked.exam
    return {
        "code": paper_code(exam.id, examiner),
        "examiner": work.people.names()[examiner],
        "candidate": line.candidate,
        "practical": line.practical,
        "when": " · ".join(one for one in (line.when, line.room) if one),
        "adjusted": asked.adjusted,
        "parts": [_part(one, asked) for one in asked.parts],
        "critical": [sentence for _, sentence in asked.critical],
    }


def _part(part: PartShown, asked: ScoreSheet) -> dict[str, object]:
    return {
        "title": part.title,
        "exercises": [name for _, name in part.exercises] or [""] * (EMPTY_LINES if asked.sealed else 0),
        "noticed": [words for _, words in asked.noticed],
        "blocks": [
            {
                "title": "" if block.title == part.title else block.title,
                "criteria": [
                    {"title": one.title, "levels": [level for _, level, _ in one.levels]} for one in block.criteria
                ],
                "grades": [words for _, words in asked.grades],
            }
            for block in part.blocks
        ],
    }
