"""Exams of the demo school: one to score today, one whose examiners are apart, one passed months ago. All invented."""

import json
from dataclasses import dataclass
from datetime import datetime, timedelta
from random import Random

from app.clock import day_in
from app.queries.exam_facts import practical_of
from app.storage.exams import Exam
from app.storage.work import School, Store
from app.use_cases.asker import Asker
from app.use_cases.deciding_exams import DecideExam, decide_exam
from app.use_cases.demo_appeals import add_demo_complaint
from app.use_cases.drawing_lists import DrawLists, draw_lists
from app.use_cases.exams import send_sheet
from assessments.practicals.deciding import Outcome
from assessments.practicals.sheets import Grade, LeftOut, Manner, Mark, Noticed, Sheet, Tap
from assessments.practicals.specification import Practical

EXAMINERS = ("examiner-1", "examiner-2")
FOOTWORK = ["reformer-footwork", "reformer-hundred", "reformer-leg-circles", "reformer-frog"]
BOX = ["reformer-short-box-round", "reformer-short-box-flat", "reformer-elephant", "reformer-knee-stretch-round"]
MAT = ["mat-hundred", "mat-roll-up", "mat-one-leg-circle", "mat-rolling-back", "mat-one-leg-stretch"]
TASKS = {
    "basic": {
        "lesson": [*FOOTWORK, *BOX, *MAT],
        "drawn": ["table-roll-back", "table-breathing", "chair-pump-toes", "chair-push-down", "chair-swan"],
    },
    "final": {
        "lesson": [*FOOTWORK, "reformer-stomach-massage-round", "reformer-stomach-massage-reach", *BOX],
        "drawn": ["table-tower", "table-monkey", "table-half-hang", "chair-swan", "chair-going-up-front"],
    },
}


@dataclass(frozen=True, slots=True)
class DemoExam:
    """One exam of the demo; `strict` gives by examiner how many of ten marks are level 2, and how many level 4."""

    id: str
    trainee: int
    practical: str
    days_ago: int
    starts: int
    room: str
    strict: tuple[tuple[int, int], ...] = ()
    passed: bool = False


EXAMS = (
    DemoExam("exam-to-score", 7, "final", 0, 11 * 60 + 30, "North room: reformer 1, trapeze table 1"),
    DemoExam("exam-to-talk-over", 3, "basic", 4, 10 * 60, "River studio", ((1, 4), (6, 0))),
    DemoExam("exam-coming", 5, "basic", -12, 9 * 60 + 30, "North room"),
    DemoExam("exam-passed", 7, "basic", 150, 14 * 60, "Upper hall", ((0, 7), (0, 6)), passed=True),
)
OWN = DemoExam("exam-of-the-trainee", 1, "basic", 60, 10 * 60 + 15, "River studio", ((0, 4), (0, 5)), passed=True)
DRAWN = DrawLists(
    "lists-of-the-demo", "practical-basic", "drawn", ("exam-coming",), ("trapeze-table", "chair", "ladder-barrel"),
    ("basic",), 2.25, {"tasks": 5, "floors": {"apparatus": 1}, "caps": {"family": 2}},
)  # fmt: skip
NOTES = (
    "Calm in the room; speaks less as the lesson goes on, and the client moves better for it.",
    "Sees much from the foot end, less from the head end.",
)


def add_demo_exams(store: Store, school: School, now: datetime) -> None:
    """Set the exams whose candidates are enrolled, send their sheets, and decide the one that is passed."""
    with store.reading(school.id) as work:
        enrolled = {one.id for one in work.enrolments.all()}
    for one in EXAMS:
        if f"enrolment-{one.trainee}" in enrolled:
            _hold(store, school, one, now - timedelta(days=one.days_ago))
    if "enrolment-5" in enrolled:
        draw_lists(store, Asker(school, "director", "director", now), DRAWN)


def add_own_exam(store: Store, school: School, now: datetime) -> None:
    """The exam that the first trainee has behind them, with something to work on, and their complaint about it."""
    _hold(store, school, OWN, now - timedelta(days=OWN.days_ago))
    add_demo_complaint(store, school, OWN.id, now)


def _hold(store: Store, school: School, one: DemoExam, at: datetime) -> None:
    exam = Exam(
        one.id, f"enrolment-{one.trainee}", f"practical-{one.practical}", day_in(at, school.time_zone), one.starts,
        one.room, json.dumps(TASKS[one.practical], sort_keys=True),
    )  # fmt: skip
    with store.writing(school.id) as work:
        work.exams.add(exam, EXAMINERS)
        body = {
            "exam": exam.id, "enrolment": exam.enrolment_id, "practical": exam.practical_id,
            "day": exam.day.isoformat(), "starts": exam.starts_minute, "room": exam.room, "examiners": [*EXAMINERS],
        }  # fmt: skip
        work.record.append("exam-set", exam.id, "director", at - timedelta(days=14), body)
        practical = practical_of(work, exam)
        work.commit()
    for place, (examiner, strict) in enumerate(zip(EXAMINERS, one.strict, strict=False)):
        sheet = _sheet(practical, exam, examiner, place, strict)
        send_sheet(store, Asker(school, examiner, examiner, at), exam.id, sheet)
    if one.passed:
        reason = "Clear of the cut and every floor reached, on both sheets."
        decided = DecideExam(exam.id, Outcome.PASS, reason)
        decide_exam(store, Asker(school, "director", "director", at + timedelta(days=2)), decided)


def _sheet(practical: Practical, exam: Exam, examiner: str, place: int, strict: tuple[int, int]) -> Sheet:
    low, high = strict
    chance = Random(f"{exam.id} {examiner}")
    cells = practical.cells()
    levels = [2 if tenth < low else 4 if tenth >= 10 - high else 3 for tenth in range(10)]
    marks = [Mark(cell.block, cell.criterion, cell.scale.lowest + chance.choice(levels) - 1) for cell in cells]
    marks[-1] = Mark(cells[-1].block, cells[-1].criterion, left_out=LeftOut.NOT_SEEN)
    marks[2] = Mark(cells[2].block, cells[2].criterion, marks[2].level, manner=Manner.AFTER_PROMPT)
    blocks = dict.fromkeys(cell.block for cell in cells)
    grade = 1 if low > high else 3 if high > 5 else 2
    taps = (Tap("reformer-hundred", Noticed.FAULT_MENDED, 380), Tap("reformer-frog", Noticed.PROMPTED, 655))
    missed = (Tap("table-roll-back", Noticed.FAULT_MISSED, 2480),) if exam.id == OWN.id else ()
    return Sheet(
        exam.id, examiner, practical.id, practical.edition, marks=tuple(marks),
        taps=(*taps[: place + 1], *missed), grades=tuple(Grade(block, grade) for block in blocks), note=NOTES[place],
    )  # fmt: skip
