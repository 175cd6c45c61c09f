"""The director puts documents, modules and time on a trainee's record; readiness and the history follow."""

from datetime import UTC, date, datetime

from app.queries.standing import facts_of
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


def test_a_document_outside_the_list_is_recorded_by_its_name(town: Town, form_token) -> None:  # noqa: ANN001
    client = town.as_role("director")
    data = {"form_token": form_token(client, HERE), "other": "Hall key receipt", "from": "2026-11-01"}
    assert client.post(f"{HERE}/documents", data=data).status_code == 303
    assert "Hall key receipt, from 1 Nov 2026, without an end" in client.get(HERE).text
    assert client.post(f"{HERE}/documents", data=data | {"other": "FIRST AID certificate"}).status_code == 303
    with town.store.reading("halden-row") as work:
        kinds = [one.kind for one in work.enrolments.documents("enrolment-1")]
    assert "Hall key receipt" in kinds
    assert kinds.count("first-aid") == 1, "a name that the list has is the one of the list"
    both = client.post(f"{HERE}/documents", data=data | {"kind": "insurance", "from": "yesterday"})
    assert both.status_code == 422
    assert "not both" in both.text
    assert "choose the day" in both.text
    assert 'value="Hall key receipt"' in both.text


def test_a_document_is_withdrawn_with_a_reason_and_nothing_in_its_place(town: Town, form_token) -> None:  # noqa: ANN001
    client = town.as_role("director")
    data = {"form_token": form_token(client, HERE), "document": "enrolment-1-insurance"}
    answer = client.post(f"{HERE}/documents/withdraw", data=data)
    assert answer.status_code == 422
    assert "say why it no longer stands" in answer.text
    data |= {"document-reason": "Cancelled by the insurer"}
    assert client.post("/trainees/enrolment-2/record/documents/withdraw", data=data).status_code == 404
    assert client.post(f"{HERE}/documents/withdraw", data=data).status_code == 303
    assert client.post(f"{HERE}/documents/withdraw", data=data).status_code == 409
    assert "Cancelled by the insurer" in client.get(HERE).text
    with town.store.reading("halden-row") as work:
        assert "insurance" not in [one.kind for one in work.enrolments.documents("enrolment-1")]


def test_a_module_recorded_by_mistake_is_taken_back_and_can_come_again(town: Town, form_token) -> None:  # noqa: ANN001
    client = town.as_role("director")
    token = form_token(client, HERE)
    done = {"form_token": token, "module": "anatomy", "done": "2026-11-20"}
    back = {"form_token": token, "gone": "anatomy", "module-reason": "Another trainee's"}
    met = client.get("/trainees/enrolment-1/readiness").text.count(">met<")
    assert client.post(f"{HERE}/modules", data=done).status_code == 303
    assert client.post(f"{HERE}/modules/withdraw", data=back | {"module-reason": ""}).status_code == 422
    assert client.post(f"{HERE}/modules/withdraw", data=back).status_code == 303
    assert client.get("/trainees/enrolment-1/readiness").text.count(">met<") == met
    assert client.post(f"{HERE}/modules/withdraw", data=back).status_code == 409
    assert "Another trainee&#39;s" in client.get(HERE).text
    assert client.post(f"{HERE}/modules", data=done | {"done": "2026-11-21"}).status_code == 303
    with town.store.reading("halden-row") as work:
        assert work.enrolments.modules_done("enrolment-1") == {"anatomy": date(2026, 11, 21)}


def test_leave_and_an_extension_move_the_end_of_the_window(town: Town, form_token) -> None:  # noqa: ANN001
    """Eighteen months from 29 Jan 2026 end on 29 Jul 2027; ten days of leave and six months more by the calendar."""
    client = town.as_role("director")
    token = form_token(client, HERE)
    assert "Window ends 29 Jul 2027" in client.get("/trainees/enrolment-1").text
    leave = {"form_token": token, "granted": "leave", "first": "2026-12-01", "last": "2026-12-10", "why": "Illness"}
    assert client.post(f"{HERE}/time", data=leave).status_code == 303
    assert "Window ends 8 Aug 2027" in client.get("/trainees/enrolment-1").text
    answer = client.post(f"{HERE}/time", data=leave | {"first": "2026-12-10", "last": "2026-12-20"})
    assert answer.status_code == 422
    assert "granted for some of these days already" in answer.text
    longer = {"form_token": token, "granted": "extension", "why": "A move"}
    assert client.post(f"{HERE}/time", data=longer).status_code == 303
    assert "Window ends 8 Feb 2028" in client.get("/trainees/enrolment-1").text
    page = client.get(HERE).text
    assert "Leave from 1 Dec 2026 to 10 Dec 2026: Illness" in page
    assert "Extension granted on 25 Nov 2026: A move" in page


def test_an_extension_is_granted_on_the_schools_own_day(town: Town, form_token) -> None:  # noqa: ANN001
    """Half past eleven at night by UTC is the next day in Vienna, the school's time zone."""
    client = town.as_role("director")
    data = {"form_token": form_token(client, HERE), "granted": "extension", "why": "A move"}
    assert client.post(f"{HERE}/time", data=data).status_code == 303
    assert client.post(f"{HERE}/time", data=data).status_code == 422, "granted today already"
    town.app.state.now = lambda: datetime(2026, 11, 25, 23, 30, tzinfo=UTC)
    assert client.post(f"{HERE}/time", data=data).status_code == 303
    town.app.state.now = lambda: datetime(2026, 11, 26, 9, 0, tzinfo=UTC)
    assert client.post(f"{HERE}/time", data=data).status_code == 422, "the same day at the school"
    with town.store.reading("halden-row") as work:
        enrolment = work.enrolments.by_id("enrolment-1")
        assert facts_of(work, enrolment).extensions == (date(2026, 11, 25), date(2026, 11, 26))
