"""What changed since a day: what is put down, and a correction, are told; the log of that day is rebuilt as it stood."""

from datetime import timedelta

from app.queries.log_then import log_then
from tests.app.pages.conftest import NOW, Town
from tests.app.pages.test_hours import SESSION, log

CORRECTED = {"version": "1", "end": "06:30"}


def test_the_page_tells_what_was_put_down_and_the_log_before_is_as_it_was(town: Town, form_token) -> None:  # noqa: ANN001
    trainee = town.as_role("trainee")
    with town.store.reading("halden-row") as work:
        before = work.ledger.of_enrolment("enrolment-1")
        with_all = log_then(work, "enrolment-1", NOW)
    assert with_all == (before, ())
    assert log(trainee, form_token).status_code == 303
    data = SESSION | {"form_token": form_token(trainee, "/today")} | CORRECTED
    assert trainee.post(f"/hours/sessions/{SESSION['id']}", data=data).status_code == 303
    with town.store.reading("halden-row") as work:
        then, changed = log_then(work, "enrolment-1", NOW - timedelta(microseconds=1))
    assert SESSION["id"] in changed
    assert SESSION["id"] not in {one.id for one in then}
    page = trainee.get("/hours/changes?since=2026-11-25").text
    assert "24 Nov 2026, Observed a teacher: Reformer, 30 min: put down. Waiting for signature." in page
    assert town.as_role("director").get("/trainees/enrolment-1/changes").status_code == 200
    assert "choose a day up to today" in trainee.get("/hours/changes?since=2027-01-01").text
