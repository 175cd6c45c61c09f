"""An examiner declines a place with a reason; the director reads it and seats somebody whom the rules allow."""

import html
import re

from app.storage.people import Person
from app.use_cases.demo import SCHOOL
from tests.app.pages.conftest import NOW, Town


def test_a_declined_place_is_filled_by_the_rules_and_the_reason_stays(town: Town, form_token) -> None:  # noqa: ANN001
    """The exam of this evening; who taught the candidate is seated only for a reason that stays in view."""
    examiner, director = town.as_role("examiner"), town.as_role("director")
    page = "/sheets/exam/decline"

    def post(client, path, form, **typed):  # noqa: ANN001, ANN003, ANN202
        data = {"form_token": form_token(client, form)} | typed
        return client.post(path, data=data, headers={"accept": "text/html"})

    assert post(examiner, page, page, reason=" ").status_code == 422
    for _ in range(2):
        assert post(examiner, page, page, reason="I taught her last year ✓").status_code == 303
    assert examiner.get("/sheets/exam").status_code == 404
    assert "a place on the panel is open" in director.get("/exams").text
    shown = html.unescape(director.get("/exams/exam/panel").text)
    assert "I taught her last year ✓" in shown
    assert "1 place is open" in shown
    panel = "/exams/exam/panel"
    assert "declined this exam" in post(director, panel, panel, examiner="examiner-1").text
    with town.store.writing(SCHOOL.id) as work:
        told = {one.to_address for one in work.mail.newest(9) if "A place on a panel is open" in one.subject}
        work.people.add(Person("examiner-9", "Third One", "x9@x.example", "h"), frozenset({"examiner"}), NOW)
        work.commit()
    assert told == {"director@halden-row.example", "deputy@halden-row.example"}
    refused = html.unescape(post(director, panel, panel, examiner="examiner-9").text)
    assert "has no calibration that holds on that day" in refused
    seated = post(director, panel, panel, examiner="examiner-9", waiver="Nobody else is free tonight.")
    assert seated.status_code == 303
    assert post(director, panel, panel, examiner="examiner-2").status_code == 303
    assert "The panel is whole." in director.get(panel).text
    assert "Nobody else is free tonight." in director.get("/exams/exam").text
    with town.store.reading(SCHOOL.id) as work:
        assert set(work.exams.seats("exam")) == {"examiner-2", "examiner-9"}


def test_an_outsider_comes_by_a_link_to_that_exam_alone_until_it_is_withdrawn(town: Town, form_token) -> None:  # noqa: ANN001
    examiner, director, outside = town.as_role("examiner"), town.as_role("director"), town.visitor()
    form, page = "/exams/exam/outsider", {"accept": "text/html"}
    decline = {"form_token": form_token(examiner, "/sheets/exam/decline"), "reason": "Ill."}
    assert examiner.post("/sheets/exam/decline", data=decline).status_code == 303

    def invite(**typed):  # noqa: ANN003, ANN202
        return director.post(form, data={"form_token": form_token(director, form)} | typed, headers=page)

    assert len(re.findall(r'href="#f-(?:name|email|reason)"', invite(email="nobody").text)) == 3
    known = invite(name="Piet", email="examiner@halden-row.example", reason="R")
    assert "has an account at the school" in known.text
    asked = {"name": "Ada Outside", "email": "ada@away.example", "reason": "Both of ours taught her."}
    for _ in range(2):
        assert invite(**asked).status_code == 303
    with town.store.reading(SCHOOL.id) as work:
        (mail,) = [one for one in work.mail.newest(9) if one.to_address == "ada@away.example"]
    link = re.search(r"/invited/\S+", mail.words).group()
    assert "Both of ours taught her." in director.get("/exams/exam").text
    assert outside.get(link).status_code == 200
    assert outside.get("/sheets", headers=page).headers["location"] == "/sign-in"
    assert outside.post(link).status_code == 303
    assert "Ida Marlowe" in outside.get("/sheets").text
    assert outside.get("/sheets/exam").status_code == 200
    for elsewhere in ("/sheets/other", "/repertoire", "/exams", "/cohort", "/calibration", "/my-scoring", "/hours"):
        assert outside.get(elsewhere, headers=page).status_code == 404, elsewhere
    with town.store.reading(SCHOOL.id) as work:
        person = work.people.by_email("ada@away.example").id
    taken = {"form_token": form_token(director, "/exams/exam/panel"), "person": person}
    for _ in range(2):
        assert director.post("/exams/exam/outsider/withdrawn", data=taken).status_code == 303
    assert outside.get("/sheets", headers=page).headers["location"] == "/sign-in"
    assert outside.post(link).status_code == 410
