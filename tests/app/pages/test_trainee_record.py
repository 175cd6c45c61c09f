"""The director puts documents, modules and time on a trainee's record; readiness and the history follow."""

from tests.app.pages.conftest import Town

HERE = "/trainees/enrolment-1/record"


def test_a_document_is_recorded_and_replaced_and_history_says_who(town: Town, form_token) -> None:  # noqa: ANN001
    client = town.as_role("director")
    data = {"form_token": form_token(client, HERE), "kind": "first-aid", "from": "2026-11-01", "to": "2027-11-01"}
    for _ in range(2):
        assert client.post(f"{HERE}/documents", data=data).status_code == 303
    page = client.get(HERE).text
    for words in ("no longer stands", "Document seen: First aid certificate", "Maren Tollefsby"):
        assert words in page
    with town.store.reading("halden-row") as work:
        standing = [one for one in work.enrolments.documents("enrolment-1") if one.kind == "first-aid"]
        assert [str(one.valid_to) for one in standing] == ["2027-11-01"]


def test_every_fault_at_once_and_the_form_as_typed(town: Town, form_token) -> None:  # noqa: ANN001
    client = town.as_role("director")
    data = {"form_token": form_token(client, HERE), "granted": "leave", "first": "2020-01-01"}
    answer = client.post(f"{HERE}/time", data=data)
    assert answer.status_code == 422
    assert 'value="2020-01-01"' in answer.text
    for words in ("say why it is granted", "before the trainee was enrolled", "choose the last day"):
        assert words in answer.text


def test_a_module_opens_readiness_and_is_taken_once(town: Town, form_token) -> None:  # noqa: ANN001
    client = town.as_role("director")
    data = {"form_token": form_token(client, HERE), "module": "anatomy", "done": "2026-11-20"}
    met = client.get("/trainees/enrolment-1/readiness").text.count(">met<")
    assert client.post(f"{HERE}/modules", data=data).status_code == 303
    assert client.get("/trainees/enrolment-1/readiness").text.count(">met<") == met + 1
    assert client.post(f"{HERE}/modules", data=data).status_code == 422
