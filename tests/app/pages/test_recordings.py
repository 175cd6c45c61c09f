"""A recording from the candidate's word to its end: who may open it, that it is told of when due, and what is forgotten."""

from dataclasses import replace
from datetime import timedelta

from app.files.exam_papers import Clients, write_clients
from app.queries.proof import audit
from app.storage.exam_papers import CLIENT, ExamPaper
from app.storage.exams import ExamDecision
from app.use_cases.asker import Asker
from app.use_cases.demo import SCHOOL
from app.use_cases.recordings import look_at_recordings, open_recording
from assessments.practicals.client import Intake
from tests.app.pages.conftest import NOW, Town

PAGE, LINK = "/exams/exam/recording", "https://store.example/exams/14"


def test_a_recording_lives_from_consent_to_deletion(town: Town, form_token) -> None:  # noqa: ANN001
    director, trainee, examiner = (town.as_role(role) for role in ("director", "trainee", "examiner"))
    clients = Clients(Intake("C-014", "school", True, ("disc",), True, True, True))
    with town.store.writing(SCHOOL.id) as work:
        work.exam_papers.put(ExamPaper("exam", CLIENT, 1, write_clients(clients), "director", NOW))
        work.commit()
    data = {"form_token": form_token(director, PAGE), "known": "0", "link": LINK}
    refused = director.post(PAGE, data=data)
    assert refused.status_code == 422
    assert "the candidate has not agreed to be recorded" in refused.text
    own = {"form_token": form_token(trainee, "/my-practicals/exam"), "agreed": "yes"}
    assert trainee.post("/my-practicals/exam/recording", data=own).status_code == 303
    assert trainee.post("/my-practicals/others/recording", data=own).status_code == 404

    noted = data | {"known": "1"}
    assert [director.post(PAGE, data=noted).status_code for _ in range(2)] == [303, 303]
    assert LINK not in director.get(PAGE).text
    assert LINK in director.post(f"{PAGE}/open", data=data).text
    assert "Maren Tollefsby" in director.get(PAGE).text
    asked = {"form_token": form_token(examiner, "/sheets/exam")}
    assert "Show where it is" not in examiner.get("/sheets/exam/recording").text
    assert examiner.post("/sheets/exam/recording/open", data=asked).status_code == 404
    assert trainee.post("/my-practicals/exam/recording", data=own | {"agreed": "no"}).status_code == 409

    with town.store.writing(SCHOOL.id) as work:
        work.exams.add_seat("exam", "director-2", second_marking=True)
        work.commit()
    assert open_recording(town.store, Asker(SCHOOL, "director-2", "Isolde", NOW), "exam", is_director=False) == LINK
    morning = Asker(SCHOOL, "", SCHOOL.name, NOW + timedelta(days=31))
    with town.store.writing(SCHOOL.id) as work:
        work.exams.add_decision(ExamDecision("exam", 1, "void", "Ill.", "director", NOW, void_cause="illness"))
        work.commit()
    assert look_at_recordings(town.store, replace(morning, now=NOW)) == 0
    assert [look_at_recordings(town.store, morning) for _ in range(2)] == [1, 0]
    with town.store.reading(SCHOOL.id) as work:
        assert "disc" not in work.exam_papers.of("exam", "client").content
        assert [one.subject for one in work.mail.newest(50) if "Recordings" in one.subject] == 2 * [
            "Recordings to be deleted"
        ]
    assert director.post(f"{PAGE}/deleted", data=data | {"known": "1"}).status_code == 409
    assert director.post(f"{PAGE}/deleted", data=data | {"known": "2"}).status_code == 303
    assert director.post(f"{PAGE}/open", data=data).status_code == 404
    assert "Ida Marlowe" in director.get("/recordings").text
    with town.store.reading(SCHOOL.id) as work:
        assert not [one for one in work.record.of_subject("exam") if b"store.example" in one.body]
        assert "store.example" not in work.exam_papers.of("exam", "recording").content
        assert audit(work).faults == ()
