"""Sessions that a phone kept, sent together: each taken once, in one transaction, with an answer of its own.

Held against RFC 9110 (9.2.2: what is sent again changes nothing more) and RFC 9457 (a problem says status and places).
"""

import json
from datetime import date, timedelta

import pytest
from sqlalchemy import event

from tests.app.pages.conftest import Town
from tests.app.pages.test_hours import SESSION

FIRST = date(2026, 11, 20)


def form(number: int, **changes: str) -> dict[str, str]:
    """One of many sessions: four a day, an hour each."""
    day, place = FIRST - timedelta(days=number // 4), number % 4
    times = {"day": day.isoformat(), "start": f"{2 + place:02}:00", "end": f"{3 + place:02}:00"}
    return SESSION | {"id": f"00000000-0000-4000-8000-{number:012}"} | times | changes


@pytest.fixture
def trainee(town: Town):  # noqa: ANN201
    return town.as_role("trainee")


def send(client, form_token, forms: list, **instead: str):  # noqa: ANN001, ANN201
    data = {"form_token": form_token(client, "/today"), "items": json.dumps(forms)} | instead
    return client.post("/hours/sessions", data=data, headers={"accept": "application/json"})


def statuses(answer) -> list[int]:  # noqa: ANN001
    assert answer.status_code == 200, answer.text
    return [one["status"] for one in answer.json()["items"]]


def versions(town: Town, forms: list) -> list[int]:
    with town.store.reading("halden-row") as work:
        return [work.ledger.versions(one["id"]) for one in forms]


def test_fifty_at_once_are_one_transaction_and_sent_again_they_change_nothing(town: Town, trainee, form_token) -> None:  # noqa: ANN001
    forms, commits = [form(number) for number in range(50)], []
    event.listen(town.store.engine, "commit", lambda _: commits.append(1))
    first = send(trainee, form_token, forms)
    assert statuses(first) == [201] * 50
    assert commits == [1]
    with town.store.reading("halden-row") as work:
        size = work.record.size()
    assert statuses(send(trainee, form_token, forms)) == [200] * 50
    assert versions(town, forms) == [1] * 50
    with town.store.reading("halden-row") as work:
        assert work.record.size() == size


def test_what_cannot_be_taken_says_why_at_its_place_and_the_rest_is_taken(town: Town, trainee, form_token) -> None:  # noqa: ANN001
    forms = [
        form(0),
        form(1, start="08:00", end="07:00", host="", **{"minutes-0": "60"}),
        form(2, day="soon"),
        form(3, start="02:30"),
    ]
    answer = send(trainee, form_token, forms)
    assert statuses(answer) == [201, 422, 422, 422]
    items = answer.json()["items"]
    pointers = [[one["pointer"] for one in item.get("errors", [])] for item in items]
    assert pointers == [[], ["#/1/end", "#/1/host"], ["#/2/day"], ["#/3/start"]]
    assert "overlaps a session you logged from 02:00 to 03:00" in items[3]["errors"][0]["detail"]
    assert {"type", "title", "status", "detail", "instance"} <= items[1].keys()
    assert versions(town, forms) == [1, 0, 0, 0]


@pytest.mark.parametrize("change", [{"end": "02:45"}, {"note": "Another note."}])
def test_other_content_under_the_same_id_is_a_conflict_that_shows_what_stands(
    town: Town, trainee, form_token, change: dict[str, str]
) -> None:  # noqa: ANN001
    send(trainee, form_token, [form(0)])
    answer = send(trainee, form_token, [form(0, **change), form(1)])
    assert statuses(answer) == [409, 201]
    assert answer.json()["items"][0]["stands"] == {
        "version": 1, "words": "Observed a teacher: Reformer, 20 Nov 2026, 02:00–03:00 (1 h)"
    }  # fmt: skip
    assert versions(town, [form(0)]) == [1]


def test_a_correction_whose_receipt_was_lost_is_known_although_another_came_after(
    town: Town, trainee, form_token
) -> None:  # noqa: ANN001
    first, second = form(0, version="1", end="02:45"), form(0, version="2", end="02:30")
    assert statuses(send(trainee, form_token, [form(0), first, second])) == [201, 201, 201]
    assert statuses(send(trainee, form_token, [form(0), first, second])) == [200, 200, 200]
    assert statuses(send(trainee, form_token, [form(0, version="1", end="02:50")])) == [409]
    assert versions(town, [form(0)]) == [3]


def test_a_session_of_somebody_else_is_not_there_and_the_rest_is_taken(town: Town, trainee, form_token) -> None:  # noqa: ANN001
    assert statuses(send(trainee, form_token, [form(0, id="enrolment-2-s1"), form(1)])) == [404, 201]


def test_a_whole_that_is_no_list_of_sessions_is_refused_whole(trainee, form_token) -> None:  # noqa: ANN001
    for sent in ("{}", "[1]", "nothing", "[" * 9000, json.dumps([{"id": 3}]), json.dumps([form(0)] * 51)):
        answer = send(trainee, form_token, [], items=sent)
        assert (answer.status_code, answer.headers["content-type"]) == (422, "application/problem+json"), sent[:30]


def test_characters_that_nothing_keeps_are_left_out(town: Town, trainee, form_token) -> None:  # noqa: ANN001
    assert statuses(send(trainee, form_token, [form(0, site="North\0 \ud800room")])) == [201]
    with town.store.reading("halden-row") as work:
        assert work.ledger.now(form(0)["id"]).site == "North room"


def test_without_the_forms_token_nothing_is_taken(town: Town, trainee, form_token) -> None:  # noqa: ANN001
    assert send(trainee, lambda *_: "", [form(0)]).status_code == 403
    assert versions(town, [form(0)]) == [0]
