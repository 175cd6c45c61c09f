"""Hours the school keeps: accepted or registered on evidence, corrected and withdrawn with a reason, seen by the trainee."""

import re
from datetime import date

import pytest
from fastapi.testclient import TestClient

from tests.app.pages.conftest import NOW, Town

TRAINEE = "/trainees/enrolment-1"
NEW = f"{TRAINEE}/hours/new"
ID = "paper-log"
TYPED = {
    "id": ID, "version": "0", "proof": "accepted", "day": "2026-11-20", "hours": "2", "minutes": "30",
    "activity": "observation", "field-mode": "live", "field-apparatus": "reformer", "host": "host-1",
    "evidence": "Paper log, page 4, signed in ink",
}  # fmt: skip


@pytest.fixture
def director(town: Town, form_token) -> TestClient:  # noqa: ANN001
    client = town.as_role("director")
    token = form_token(client, NEW)
    client.fill = lambda path, typed: client.post(path, data={"form_token": token} | typed)
    return client


def standing_of_it(town: Town, session_id: str = ID):  # noqa: ANN201
    with town.store.reading("halden-row") as work:
        return work.ledger.now(session_id)


def test_accepted_hours_are_credited_and_say_by_whom_and_on_what_evidence(town: Town, director: TestClient) -> None:
    assert director.fill(NEW, TYPED).headers["location"] == TRAINEE
    kept = standing_of_it(town)
    assert (kept.state, kept.minutes, kept.host, kept.parts[0].apparatus) == ("accepted", 150, "host-1", "reformer")
    page = director.get(TRAINEE).text
    place = page.index(f"{TRAINEE}/hours/{ID}")
    row = page[place : page.index("</li>", place)]
    for words in ("2 h 30 min", "Accepted by the school", "Maren Tollefsby", "Paper log, page 4, signed in ink"):
        assert words in row
    assert "Set aside" not in row


def test_the_same_form_sent_twice_is_one_session_and_another_form_over_it_is_a_conflict(
    town: Town, director: TestClient
) -> None:
    for _ in range(2):
        assert director.fill(NEW, TYPED).status_code == 303
    assert standing_of_it(town).version == 1
    assert director.fill(NEW, TYPED | {"minutes": "45"}).status_code == 409
    assert standing_of_it(town).minutes == 150


def test_every_fault_at_once_and_the_form_as_typed(town: Town, director: TestClient) -> None:
    typed = TYPED | {"day": "", "hours": "two", "activity": "", "evidence": "", "first": "2026-11-18"}
    answer = director.fill(NEW, typed)
    assert answer.status_code == 422
    for words in ("choose the day", "hours as a whole number", "choose what was done", "on what evidence the school"):
        assert words in answer.text
    assert 'value="two"' in answer.text
    assert 'value="2026-11-18"' in answer.text
    assert re.search(r'value="reformer" selected', answer.text)
    assert standing_of_it(town) is None
    answer = director.fill(
        NEW, TYPED | {"day": "2026-11-27", "first": "2026-11-28", "field-mode": "dreamt", "hours": "25"}
    )
    for words in ("the last day is before the first", "the day is in the future", "choose one from the list"):
        assert words in answer.text


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ({"hours": "25"}, "more time than its days have"),
        ({"hours": "0", "minutes": ""}, "say how long it took"),
        ({"first": "2025-01-01"}, "at most 366 days in one entry"),
        ({"proof": "signature"}, "choose how the school takes them"),
        ({"activity": "sailing"}, "choose one from the list"),
        ({"host": "nobody"}, "choose a host teacher from the list"),
        ({"evidence": "x" * 1001}, "keep this under 1,000 letters"),
    ],
)
def test_what_cannot_be_taken_is_said(town: Town, director: TestClient, typed: dict, words: str) -> None:
    answer = director.fill(NEW, TYPED | typed)
    assert answer.status_code == 422
    assert words in answer.text
    assert standing_of_it(town) is None


def test_prior_learning_before_enrolment_is_said_to_earn_nothing_before_it_is_recorded(
    town: Town, director: TestClient
) -> None:
    typed = TYPED | {"day": "2020-05-04", "host": "", "evidence": "Certificate of an earlier course"}
    answer = director.fill(NEW, typed)
    assert answer.status_code == 422
    assert "2 h 30 min of it would earn nothing: dated before enrolment" in answer.text
    assert standing_of_it(town) is None
    with town.store.reading("halden-row") as work:
        before = director.get(TRAINEE).text
        assert work.enrolments.by_id("enrolment-1").enrolled_on > date(2020, 5, 4)
    assert director.fill(NEW, typed | {"sure": "yes"}).status_code == 303
    assert standing_of_it(town).state == "accepted"
    after = director.get(TRAINEE).text
    to_do = re.compile(r"At least ([^<]+) still to do")
    assert to_do.search(before).group(1) == to_do.search(after).group(1)
    assert "Set aside, 2 h 30 min: dated before enrolment" in after


def test_a_register_of_several_days_is_one_entry_counted_evenly_over_them(town: Town, director: TestClient) -> None:
    typed = TYPED | {
        "proof": "registered", "activity": "workshop", "first": "2026-11-16", "hours": "10", "minutes": "1", "host": "",
    }  # fmt: skip
    assert director.fill(NEW, typed).status_code == 303
    kept = standing_of_it(town)
    assert (kept.state, kept.first, kept.day, kept.minutes) == (
        "registered",
        date(2026, 11, 16),
        date(2026, 11, 20),
        601,
    )
    assert "10 h 1 min, 16 Nov 2026 to 20 Nov 2026" in director.get(TRAINEE).text
    assert "10 h 1 min, 16 Nov 2026 to 20 Nov 2026" in town.as_role("trainee").get("/hours").text


def test_a_correction_is_a_new_version_with_a_reason(town: Town, director: TestClient) -> None:
    director.fill(NEW, TYPED)
    here = f"{TRAINEE}/hours/{ID}"
    typed = TYPED | {"version": "1", "hours": "3"}
    answer = director.fill(here, typed)
    assert answer.status_code == 422
    assert "say why they are corrected" in answer.text
    for _ in range(2):
        assert director.fill(here, typed | {"reason": "Misread the page"}).status_code == 303
    assert (standing_of_it(town).version, standing_of_it(town).minutes) == (2, 210)
    assert director.fill(here, typed | {"reason": "Again", "hours": "4"}).status_code == 409
    page = director.get(here).text
    for words in ("accepted: Paper log, page 4", "corrected: Misread the page", "Maren Tollefsby"):
        assert words in page
    assert "corrected: Misread the page" in director.get(f"{TRAINEE}/record").text


def test_a_correction_keeps_times_of_day_that_were_known(town: Town, director: TestClient) -> None:
    with town.store.reading("halden-row") as work:
        known = next(one for one in work.ledger.of_enrolment("enrolment-1") if one.proof == "registered")
    here = f"{TRAINEE}/hours/{known.id}"
    typed = TYPED | {
        "version": "1", "proof": "registered", "activity": "workshop", "day": known.day.isoformat(), "host": "",
        "hours": str(known.minutes // 60), "minutes": "", "reason": "Where it is kept", "sure": "yes",
    }  # fmt: skip
    assert director.fill(here, typed).status_code == 303
    now = standing_of_it(town, known.id)
    assert (now.version, now.start, now.end) == (2, known.start, known.end)


def test_withdrawn_with_a_reason_it_counts_no_more_and_stays_on_record(town: Town, director: TestClient) -> None:
    director.fill(NEW, TYPED)
    here = f"{TRAINEE}/hours/{ID}"
    answer = director.fill(f"{here}/withdraw", {"withdraw-reason": " "})
    assert answer.status_code == 422
    assert "say why they no longer count" in answer.text
    assert director.fill(f"{here}/withdraw", {"withdraw-reason": "Counted twice"}).status_code == 303
    assert standing_of_it(town).state == "withdrawn"
    assert "withdrawn: Counted twice" in director.get(here).text
    assert director.fill(f"{here}/withdraw", {"withdraw-reason": "Again"}).status_code == 409
    assert director.fill(here, TYPED | {"version": "1", "reason": "Back"}).status_code == 409


def test_the_trainee_sees_state_and_evidence_and_cannot_change_it(town: Town, director: TestClient, form_token) -> None:  # noqa: ANN001
    director.fill(NEW, TYPED)
    trainee = town.as_role("trainee")
    page = trainee.get(f"/hours/sessions/{ID}").text
    for words in ("Accepted by the school", "Paper log, page 4", "Maren Tollefsby", "ask the school to correct it"):
        assert words in page
    typed = {
        "form_token": form_token(trainee, "/today"), "version": "1", "day": "2026-11-20", "start": "09:00",
        "end": "10:00", "host": "host-1", "activity-0": "observation",
    }  # fmt: skip
    assert trainee.post(f"/hours/sessions/{ID}", data=typed).status_code == 403
    assert trainee.post(f"/hours/sessions/{ID}/withdraw", data=typed).status_code == 409
    assert trainee.post(NEW, data=typed | TYPED).status_code == 404
    assert standing_of_it(town).state == "accepted"


def test_a_session_that_a_host_signs_and_another_trainees_hours_are_not_the_schools_to_change(
    town: Town, director: TestClient
) -> None:
    with town.store.reading("halden-row") as work:
        signed = next(one for one in work.ledger.of_enrolment("enrolment-1") if one.proof == "signature")
    assert director.get(f"{TRAINEE}/hours/{signed.id}").status_code == 404
    assert director.fill(NEW, TYPED | {"id": signed.id}).status_code == 403
    director.fill(NEW, TYPED)
    other = f"/trainees/enrolment-2/hours/{ID}"
    assert director.get(other).status_code == 404
    assert director.fill(other, TYPED | {"version": "1", "reason": "x"}).status_code == 404
    assert director.fill(f"{other}/withdraw", {"withdraw-reason": "x"}).status_code == 404
    assert standing_of_it(town).version == 1


def test_the_trainees_next_form_is_not_filled_from_hours_without_times(town: Town, director: TestClient) -> None:
    assert director.fill(NEW, TYPED | {"day": NOW.date().isoformat()}).status_code == 303
    assert 'value="00:00"' not in town.as_role("trainee").get("/today").text
