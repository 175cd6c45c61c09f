"""An exam is referred with named parts, tasks, a day and extra hours; the next one covers those parts alone."""

import json
from datetime import date

from app.queries.exam_facts import practical_of
from app.storage.exams import Exam
from app.use_cases.asker import Asker
from app.use_cases.demo import SCHOOL
from app.use_cases.exams import send_sheet
from assessments.practicals.sheets import Grade, Mark, Sheet
from tests.app.pages.conftest import NOW, Town

TASKS = '{"lesson": ["reformer-footwork", "reformer-hundred"], "drawn": ["chair-swan"]}'
SECOND = {
    "id": "second", "enrolment": "enrolment-2", "practical": "practical-basic", "day": "2026-11-25", "starts": "09:30",
    "room": "North room", "examiner-0": "examiner-1", "examiner-1": "examiner-2",
}  # fmt: skip
REFER = {
    "outcome": "refer", "reason": "The lesson again.", "known": "0", "refer_tasks": "lesson/reformer-hundred",
    "again_from": "2026-11-25", "extra_hours": "6", "extra_on": "spotting at the chair",
}  # fmt: skip


def send(town: Town, exam_id: str, levels: dict[str, int]) -> list[str]:
    """Both sheets, one level in each part; gives the parts that were asked for."""
    with town.store.reading(SCHOOL.id) as work:
        made = practical_of(work, work.exams.by_id(exam_id))
    marks = tuple(Mark(one.block, one.criterion, one.scale.lowest + levels[one.part]) for one in made.cells())
    grades = tuple(Grade(block, 2) for block in dict.fromkeys(one.block for one in made.cells()))
    for examiner in ("examiner-1", "examiner-2"):
        sheet = Sheet(exam_id, examiner, made.id, made.edition, marks=marks, grades=grades)
        send_sheet(town.store, Asker(SCHOOL, examiner, examiner, NOW), exam_id, sheet)
    return [part.id for part in made.parts]


def test_a_resit_covers_the_referred_part_and_counts_with_what_stood(town: Town, form_token) -> None:  # noqa: ANN001
    with town.store.writing(SCHOOL.id) as work:
        first = Exam("first", "enrolment-2", "practical-basic", date(2026, 10, 1), 600, "North room", TASKS)
        work.exams.add(first, ("examiner-1", "examiner-2"))
        work.commit()
    assert send(town, "first", {"lesson": 1, "drawn": 3}) == ["lesson", "drawn"]
    client = town.as_role("director")
    token = form_token(client, "/exams/new")

    def fill(path: str, **typed: str):  # noqa: ANN202
        return client.post(path, data={"form_token": token} | typed, headers={"accept": "text/html"})

    wrong = fill("/exams/first/decision", **REFER | {"extra_on": "", "again_from": "2026-11-01"})
    assert wrong.status_code == 422
    assert 'value="lesson/reformer-hundred" id="f-refer_tasks-2" checked' in wrong.text
    assert all(code in wrong.text for code in ('href="#f-again_from"', 'href="#f-extra_hours"'))
    assert fill("/exams/first/decision", **REFER | {"refer_tasks": "lesson/chair-swan"}).status_code == 422
    assert fill("/exams/first/decision", **REFER).status_code == 303
    said = client.get("/exams/first").text + client.get("/exams/first/feedback").text
    assert said.count("Extra hours first: 6 h on spotting at the chair.") == 2
    assert "comes on 25 Nov 2026 or later" in fill("/exams/new", **SECOND | {"day": "2026-11-24"}).text
    assert [fill("/exams/new", **SECOND).status_code for _ in range(2)] == [303, 303]
    with town.store.writing(SCHOOL.id) as work:
        exam = work.exams.by_id("second")
        assert (exam.resit_of, json.loads(exam.parts), json.loads(exam.tasks)) == (
            "first", ["lesson"], {"lesson": ["reformer-hundred"]},
        )  # fmt: skip
        assert practical_of(work, exam).minutes == 40
    assert send(town, "second", {"lesson": 3}) == ["lesson"]
    page = client.get("/exams/second").text
    assert "at One lesson, reformer and mat alone" in page
    # The best level in both: the drawn part stood with its 30 %.
    assert "the total of 100 % counts as 75 %" in page
    assert fill("/exams/second/decision", outcome="pass", reason="Clear.", known="0").status_code == 303
    assert "on a further attempt it counts as the cut score of 75 %" in client.get("/exams/second/feedback").text
