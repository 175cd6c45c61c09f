"""A worry of a host reaches the directors and nobody else: not the trainee, not an examiner, no mail."""

from app.queries.proof import audit
from app.use_cases.demo import SCHOOL
from app.web.visit import token_hash
from tests.app.pages.conftest import NOW, Town

LINK = "/h/halden-row.a-link-that-works"
WORDS = "She taught a client <alone> with a new hip."


def test_a_worry_is_read_and_closed_by_directors_alone(town: Town, form_token) -> None:  # noqa: ANN001
    with town.store.writing(SCHOOL.id) as work:
        session = next(one for one in work.ledger.of_enrolment("enrolment-1") if one.host)
        work.hosts.add_link(token_hash("a-link-that-works"), session.host, NOW, NOW.replace(year=2027))
        work.commit()
    host, page = town.visitor(), f"{LINK}/sessions/{session.id}"
    data = {"form_token": form_token(host, page), "id": "the-worry", "worry": " "}
    assert host.post(f"{page}/worry", data=data).status_code == 422
    for _ in range(2):
        assert host.post(f"{page}/worry", data=data | {"worry": WORDS}).status_code == 303
    trainee, director = town.as_role("trainee"), town.as_role("director")
    assert "worr" not in trainee.get(f"/hours/sessions/{session.id}").text
    assert [town.as_role(role).get("/worries").status_code for role in ("trainee", "examiner")] == [404, 404]
    with town.store.reading(SCHOOL.id) as work:
        sent = [mail for mail in work.mail.newest(20) if "told the school" in mail.subject]
        assert (len(work.worries.newest(9)), audit(work).faults) == (1, ())
    assert {mail.to_address for mail in sent} == {"director@halden-row.example", "deputy@halden-row.example"}
    assert len(sent) == 2, "one mail each, though it came twice"
    assert not any("hip" in mail.words for mail in sent)
    assert "She taught a client &lt;alone&gt; with a new hip." in director.get("/worries").text
    assert "new hip" not in host.get(page).text, "the host's own page does not show it to whoever holds the phone"
    answer = {"form_token": form_token(director, "/worries"), "answer-the-worry": "Talked with both; supervised again."}
    assert director.post("/worries/the-worry", data=answer | {"answer-the-worry": ""}).status_code == 422
    assert director.post("/worries/the-worry", data=answer).status_code == 303
    assert director.post("/worries/the-worry", data=answer).status_code == 409
    assert "Talked with both; supervised again. (Maren Tollefsby" in director.get("/worries").text
    erase = {"form_token": form_token(director, f"/hosts/{session.host}")}
    assert director.post(f"/hosts/{session.host}/words", data=erase).status_code == 303
    assert "new hip" not in director.get("/worries").text
    assert "The words were erased" in director.get("/worries").text
    assert "Own words erased on request" in director.get(f"/hosts/{session.host}").text
    with town.store.reading(SCHOOL.id) as work:
        assert audit(work).faults == (), "every proof stays whole"
