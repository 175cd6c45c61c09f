"""The client of an exam: codes only, the list screened, the swap seen on the sheet, the intake erased afterwards."""

from app.queries.proof import audit
from app.storage.exams import ExamDecision
from app.use_cases.demo import SCHOOL
from tests.app.pages.conftest import NOW, Town

TOLD = {
    "known": "0", "here": "client", "client-code": "c-014", "client-by": "candidate", "client-no_teacher": "yes",
    "client-observed": "yes", "client-cautions": ["pregnancy"], "reserve-code": "C-015", "reserve-by": "candidate",
    "reserve-no_teacher": "yes", "reserve-observed": "yes",
}  # fmt: skip


def test_the_list_is_screened_against_the_client_and_the_examiner_sees_the_swap(town: Town, form_token) -> None:  # noqa: ANN001
    director, examiner = town.as_role("director"), town.as_role("examiner")
    page = "/exams/exam/client"
    data = TOLD | {"form_token": form_token(director, page)}
    refused = director.post(page, data=data | {"client-code": "Anna <Berg>", "reserve-code": "C-014"})
    assert refused.status_code == 422
    assert "never a name" in refused.text
    assert "ANNA &lt;BERG&gt;" in refused.text

    assert [director.post(page, data=data).status_code for _ in range(2)] == [303, 303]
    assert director.post(page, data=data | {"client-code": "C-020"}).status_code == 409
    shown = examiner.get("/sheets/exam/client").text
    assert "Hundred is withheld for this client (Pregnancy, and the time after a birth); instead:" in shown
    assert "No touch: another way of cueing serves as well." in shown
    assert "neither diagnoses nor clears" in shown
    sheet = examiner.get("/sheets/exam").text
    assert ", instead of Hundred" in sheet
    assert 'name="noticed.reformer-hundred"' not in sheet
    assert town.as_role("trainee").get(page).status_code == 404

    reserve = data | {"known": "1", "here": "reserve", "form_token": form_token(examiner, "/sheets/exam/client")}
    assert examiner.post("/sheets/exam/client", data=reserve).status_code == 303
    assert ", instead of Hundred" not in examiner.get("/sheets/exam").text

    forget = {"form_token": data["form_token"]}
    assert director.post(f"{page}/forget", data=forget).status_code == 409
    with town.store.writing(SCHOOL.id) as work:
        work.exams.add_decision(ExamDecision("exam", 1, "void", "Ill.", "director", NOW, void_cause="illness"))
        work.commit()
    assert director.post(f"{page}/forget", data=forget).status_code == 303
    with town.store.reading(SCHOOL.id) as work:
        assert "pregnancy" not in work.exam_papers.of("exam", "client").content
        assert not [one for one in work.record.of_subject("exam") if b"pregnancy" in one.body]
        assert audit(work).faults == ()
    assert director.post(page, data=data | {"known": "3"}).status_code == 409
