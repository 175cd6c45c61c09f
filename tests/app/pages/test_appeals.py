"""A fail is appealed, given to somebody who had no part in it, and ends; nobody else reads it."""

import re
from datetime import date

from app.files.exam_papers import write_recording
from app.queries.recordings import recordings_due
from app.storage.exam_papers import RECORDING, ExamPaper
from app.storage.exams import Exam
from app.use_cases.demo import PASSWORD, SCHOOL
from assessments.practicals.recording import Recording
from tests.app.pages.conftest import NOW, Town
from tests.app.pages.test_retakes import send

HERE = "/my-practicals/failed/appeal"
APPEAL = {"id": "appeal", "kind": "appeal", "grounds": "procedure", "words": "The <list> was another one than mine."}


def test_an_appeal_is_decided_by_other_people_and_that_is_the_end(town: Town, form_token) -> None:  # noqa: ANN001
    with town.store.writing(SCHOOL.id) as work:
        exam = Exam("failed", "enrolment-1", "practical-basic", date(2026, 11, 2), 600, "North room")
        work.exams.add(exam, ("examiner-1", "examiner-2"))
        work.commit()
    send(town, "failed", {"lesson": 0, "drawn": 0})
    director, trainee, deputy = town.as_role("director"), town.as_role("trainee"), town.visitor()
    deputy.post(f"/sign-in/{SCHOOL.slug}", data={"email": "deputy@halden-row.example", "password": PASSWORD})

    def fill(client, path: str, **typed: str):  # noqa: ANN001, ANN202
        token = form_token(client, "/repertoire")
        return client.post(path, data={"form_token": token} | typed, headers={"accept": "text/html"})

    fail = {"outcome": "fail", "reason": "Under every floor.", "known": "0"}
    assert fill(director, "/exams/failed/decision", **fail).status_code == 303
    refused = fill(trainee, HERE, **APPEAL | {"words": ""})
    assert (refused.status_code, 'value="procedure"' in refused.text) == (422, True)
    assert re.search(r'value="procedure"[^>]*checked', refused.text)
    assert [fill(trainee, HERE, **APPEAL).status_code for _ in range(2)] == [303, 303]
    assert fill(trainee, HERE, **APPEAL | {"id": "another"}).status_code == 422
    # Filed on 25 November; 42 days on is 6 January.
    assert "decided by 6 Jan 2027" in trainee.get(HERE).text
    assert "The &lt;list&gt; was another one" in director.get("/appeals/appeal").text
    assert town.as_role("examiner").get("/appeals/appeal").status_code == 404
    with town.store.writing(SCHOOL.id) as work:
        kept = write_recording(Recording("yes", "https://store.halden-row.example/7"))
        work.exam_papers.put(ExamPaper("failed", RECORDING, 1, kept, "director", NOW))
        work.commit()
        # Kept to the end of the appeal, however long that takes.
        assert recordings_due(work, date(2030, 1, 1), "UTC") == []
    assert fill(director, "/exams/failed/recording/deleted", known="1").status_code == 409
    assert fill(director, "/exams/failed/decision", **fail | {"outcome": "pass", "known": "1"}).status_code == 409
    for person in ("director", "examiner-1", "trainee-1"):
        assert fill(director, "/appeals/appeal/assigned", person=person, known="0").status_code == 422
    assert fill(director, "/appeals/appeal/assigned", person="director-2", known="0").status_code == 303
    decided = {"outcome": "void", "void_cause": "set-in-error", "reason": "Another list was handed out.", "known": "1"}
    assert fill(director, "/appeals/appeal/decided", **decided).status_code == 404
    assert fill(director, "/appeals/appeal/recording").status_code == 404
    assert "https://store.halden-row.example/7" in fill(deputy, "/appeals/appeal/recording").text
    assert fill(deputy, "/appeals/appeal/decided", **decided | {"reason": " "}).status_code == 422
    assert fill(deputy, "/appeals/appeal/decided", **decided | {"known": "0"}).status_code == 409
    assert fill(deputy, "/appeals/appeal/decided", **decided).status_code == 303
    page = trainee.get(HERE).text
    assert "The outcome is now: void" in page
    assert "Another list was handed out." in page
    assert fill(deputy, "/appeals/appeal/decided", **decided | {"known": "2"}).status_code == 409
    assert fill(trainee, HERE, **APPEAL | {"id": "third"}).status_code == 422
    with town.store.reading(SCHOOL.id) as work:
        assert [one.id for one in recordings_due(work, date(2030, 1, 1), "UTC")] == ["failed"]
        assert [one.outcome for one in work.exams.decisions("failed")] == ["fail", "void"]
        assert len([one for one in work.mail.newest(20) if "Appeal" in one.subject or "Your" in one.subject]) >= 3
