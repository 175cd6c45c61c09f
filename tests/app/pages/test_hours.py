"""A trainee logs, a host signs by the link, the trainee sees what counts: the whole way through the pages."""

import re

import pytest

from tests.app.pages.conftest import Town

SESSION = {
    "id": "11111111-2222-4333-8444-555555555555", "version": "0", "day": "2026-11-24", "start": "06:00",
    "end": "07:00", "host": "host-1", "activity-0": "observation", "apparatus-0": "reformer",
}  # fmt: skip


@pytest.fixture
def trainee(town: Town):  # noqa: ANN201
    return town.as_role("trainee")


def log(client, form_token, **changes: str):  # noqa: ANN001, ANN201
    data = SESSION | {"form_token": form_token(client, "/today")} | changes
    return client.post("/today", data=data)


def stands(town: Town, session_id: str = SESSION["id"]) -> tuple[str, int]:
    with town.store.reading("halden-row") as work:
        session = work.ledger.now(session_id)
        return session.state, session.version


def link(town: Town) -> str:
    return re.search(r"/h/[\w.\-]+", town.as_role("director").get("/outbox").text).group(0)


def test_a_session_waits_for_its_host_once_it_is_logged(town: Town, trainee, form_token) -> None:  # noqa: ANN001
    assert log(trainee, form_token).status_code == 303
    assert stands(town) == ("waiting", 1)
    assert "Waiting for signature" in trainee.get("/hours").text


def test_sending_the_same_form_twice_logs_once(town: Town, trainee, form_token) -> None:  # noqa: ANN001
    assert [log(trainee, form_token).status_code for _ in range(2)] == [303, 303]
    assert stands(town) == ("waiting", 1)


def test_every_reason_is_said_at_once_and_the_form_stays_as_typed(trainee, form_token) -> None:  # noqa: ANN001
    answer = log(trainee, form_token, day="2027-01-01", end="05:00", host="", **{"activity-0": ""})
    assert answer.status_code == 422
    for words in ("not after the start", "in the future", "choose what you did", "choose the host teacher"):
        assert words in answer.text
    assert 'value="2027-01-01"' in answer.text


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"day": "2020-01-01"}, "before you were enrolled"),
        ({"day": "yesterday"}, "choose the day"),
        ({"host": "nobody"}, "from the list"),
        ({"host": "self"}, "only your own practice"),
        ({"minutes-0": "90"}, "add up to 90"),
    ],
)
def test_what_cannot_be_logged_says_why(trainee, form_token, change: dict, words: str) -> None:  # noqa: ANN001
    answer = log(trainee, form_token, **change)
    assert (answer.status_code, words in answer.text) == (422, True)


def test_an_overlap_is_refused(trainee, form_token) -> None:  # noqa: ANN001
    log(trainee, form_token)
    answer = log(trainee, form_token, id="another", start="06:30", end="07:30")
    assert (answer.status_code, "overlaps a session" in answer.text) == (422, True)


def test_the_host_signs_without_an_account_and_gets_a_receipt(town: Town, trainee, form_token) -> None:  # noqa: ANN001
    log(trainee, form_token)
    address, host = link(town), town.visitor()
    data = {"form_token": form_token(host, address), "session": f"{SESSION['id']}:1"}
    answer = host.post(address, data=data)
    assert re.search(r'class="number">[0-9A-F]{16}<', answer.text)
    assert stands(town) == ("signed_off", 1)
    assert host.post(address, data=data).status_code == 409, "signed once is signed"


def test_the_host_sends_back_with_a_reason_which_the_trainee_reads(town: Town, trainee, form_token) -> None:  # noqa: ANN001
    log(trainee, form_token)
    address, host = link(town), town.visitor()
    key = f"{SESSION['id']}:1"
    data = {"form_token": form_token(host, address), "back": key}
    assert host.post(address, data=data | {"back": f"{SESSION['id']}:{'9' * 5000}"}).status_code == 409
    assert host.post(address, data=data).status_code == 422, "a reason is needed"
    host.post(address, data=data | {f"reason-{SESSION['id']}": "You left at half past six."})
    assert stands(town) == ("sent_back", 1)
    assert "You left at half past six." in trainee.get(f"/hours/sessions/{SESSION['id']}").text


def test_a_correction_after_signing_is_a_new_version_that_waits_again(town: Town, trainee, form_token) -> None:  # noqa: ANN001
    log(trainee, form_token)
    address, host = link(town), town.visitor()
    host.post(address, data={"form_token": form_token(host, address), "session": f"{SESSION['id']}:1"})
    page = f"/hours/sessions/{SESSION['id']}"
    data = SESSION | {"form_token": form_token(trainee, page), "version": "1", "end": "06:45"}
    assert trainee.post(page, data=data).status_code == 303
    assert stands(town) == ("waiting", 2)
    with town.store.reading("halden-row") as work:
        assert [decision.version for decision in work.hosts.decisions(SESSION["id"])] == [1]


def test_a_stale_tab_changes_nothing(town: Town, trainee, form_token) -> None:  # noqa: ANN001
    log(trainee, form_token)
    page = f"/hours/sessions/{SESSION['id']}"
    data = SESSION | {"form_token": form_token(trainee, page), "version": "1", "end": "06:45"}
    trainee.post(page, data=data)
    assert trainee.post(page, data=data | {"end": "06:50"}).status_code == 409
    assert stands(town) == ("waiting", 2)


def test_a_link_that_was_never_made_opens_nothing(town: Town) -> None:
    assert town.visitor().get("/h/halden-row.guess").status_code == 410


def test_another_trainees_session_is_not_there(trainee) -> None:  # noqa: ANN001
    assert trainee.get("/hours/sessions/enrolment-2-s1").status_code == 404


def test_hostile_text_stays_text(town: Town, trainee, form_token) -> None:  # noqa: ANN001
    log(trainee, form_token, site="<script>alert(1)</script>", **{"client-0": "‮<b>x"})
    page = trainee.get(f"/hours/sessions/{SESSION['id']}").text
    assert "<script>alert(1)</script>" not in page


def test_an_id_of_another_trainees_session_is_refused_and_changes_nothing(town: Town, trainee, form_token) -> None:  # noqa: ANN001
    with town.store.reading("halden-row") as work:
        theirs = work.ledger.of_enrolment("enrolment-2")[0]
    for version in ("0", str(theirs.version)):
        assert log(trainee, form_token, id=theirs.id, version=version).status_code == 404
    with town.store.reading("halden-row") as work:
        assert work.ledger.now(theirs.id) == theirs


def test_what_the_school_registered_is_not_the_trainees_to_correct(town: Town, trainee, form_token) -> None:  # noqa: ANN001
    with town.store.reading("halden-row") as work:
        kept = next(one for one in work.ledger.of_enrolment("enrolment-1") if one.proof == "registered")
    page = f"/hours/sessions/{kept.id}"
    data = SESSION | {"form_token": form_token(trainee, page), "version": str(kept.version)}
    assert trainee.post(page, data=data).status_code == 403
    assert stands(town, kept.id) == ("registered", kept.version)


@pytest.mark.parametrize("token", ["", "é", "0" * 64])
def test_a_wrong_form_token_of_any_kind_is_refused(trainee, token: str) -> None:  # noqa: ANN001
    assert trainee.post("/today", data=SESSION | {"form_token": token}).status_code == 403


@pytest.mark.parametrize("change", [{"id": ""}, {"id": "x" * 90}])
def test_a_damaged_form_is_refused(trainee, form_token, change: dict) -> None:  # noqa: ANN001
    answer = log(trainee, form_token, **change)
    assert (answer.status_code, "this form is damaged" in answer.text) == (422, True)


def test_a_character_no_database_keeps_is_left_out(town: Town, trainee, form_token) -> None:  # noqa: ANN001
    assert log(trainee, form_token, site="North\x00 room").status_code == 303
    with town.store.reading("halden-row") as work:
        assert work.ledger.now(SESSION["id"]).site == "North room"


def test_the_form_of_last_time_takes_another_length_as_it_is(town: Town, trainee, form_token) -> None:  # noqa: ANN001
    """As prefilled, with only the times changed: a part that filled its session follows them."""
    log(trainee, form_token, end="08:00")
    page = trainee.get("/today").text
    shown = dict(re.findall(r'<input[^>]*name="([\w-]+)"[^>]*?value="([^"]*)"', page.replace("\n", " ")))
    assert shown["minutes-0"] == ""
    data = SESSION | shown | {"day": "2026-11-23", "start": "05:00", "end": "05:30"}
    answer = trainee.post("/today", data=data)
    assert answer.status_code == 303
    assert stands(town, shown["id"]) == ("waiting", 1)
