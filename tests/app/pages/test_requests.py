"""A trainee asks; it is answered with a reason; a granted leave is on the record; one appeal, answered by somebody else."""

from app.use_cases.demo import PASSWORD, SCHOOL
from tests.app.pages.conftest import Town


def deputy(town: Town):  # noqa: ANN201
    client = town.visitor()
    client.post(f"/sign-in/{SCHOOL.slug}", data={"email": "deputy@halden-row.example", "password": PASSWORD})
    return client


def test_a_leave_is_asked_for_once_and_granted_onto_the_record(town: Town, form_token) -> None:  # noqa: ANN001
    trainee, director = town.as_role("trainee"), town.as_role("director")
    form = {"id": "mine", "kind": "leave", "words": "<b>Abroad</b>", "first": "2026-12-01", "last": "2026-11-01"}
    token = {"form_token": form_token(trainee, "/my-requests/new")}
    wrong = trainee.post("/my-requests/new", data=form | token | {"kind": "", "words": " "})
    assert [one in wrong.text for one in ("choose what you ask for", "say what you ask for, and why")] == [True, True]
    assert "the last day is before the first" in trainee.post("/my-requests/new", data=form | token).text
    good = form | token | {"last": "2026-12-31"}
    assert [trainee.post("/my-requests/new", data=good).status_code for _ in range(2)] == [303, 303]
    page, answer = "/requests/mine", {"known": "0", "answer": "granted", "words": "As asked."}
    answer["form_token"] = form_token(director, page)
    assert "&lt;b&gt;Abroad" in director.get(page).text
    assert "say why" in director.post(page, data=answer | {"words": ""}).text
    assert director.post(page, data=answer).status_code == 303
    assert director.post(page, data=answer).status_code == 409
    with town.store.reading(SCHOOL.id) as work:
        (leave,) = [one for one in work.enrolments.time_granted("enrolment-1") if one.kind == "leave"]
        assert (leave.first_day.isoformat(), leave.last_day.isoformat()) == ("2026-12-01", "2026-12-31")
        assert len(work.requests.of_enrolment("enrolment-1")) == 1
    assert "granted" in trainee.get("/my-requests/mine").text


def test_an_appeal_is_answered_by_somebody_else_and_ends_it(town: Town, form_token) -> None:  # noqa: ANN001
    trainee, first, second = town.as_role("trainee"), town.as_role("director"), deputy(town)
    own, page = "/my-requests/mine", "/requests/mine"
    token = {"form_token": form_token(trainee, "/my-requests/new")}
    trainee.post("/my-requests/new", data=token | {"id": "mine", "kind": "waiver", "words": "Please."})
    refusal = {"answer": "refused", "words": "As for others.", "form_token": form_token(first, page)}
    first.post(page, data=refusal | {"known": "0"})
    assert "say what was wrong" in trainee.post(own, data=token | {"step": "appealed", "words": "", "known": "1"}).text
    assert trainee.post(own, data=token | {"step": "appealed", "words": "It was not.", "known": "1"}).status_code == 303
    assert "somebody who did not answer before" in first.post(page, data=refusal | {"known": "2"}).text
    last = {"answer": "in-part", "words": "Half of it.", "known": "2", "form_token": form_token(second, page)}
    assert second.post(page, data=last).status_code == 303
    assert "This has ended." in trainee.get(own).text
    for stranger in (town.as_role("examiner"), town.visitor()):
        assert stranger.get(own).status_code in (401, 404)
    with town.store.reading(SCHOOL.id) as work:
        assert len([one for one in work.mail.newest(20) if one.to_address == "trainee@halden-row.example"]) == 2
