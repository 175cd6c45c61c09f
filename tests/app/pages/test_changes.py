"""What changed since a day: what is put down is told; the log of a moment is rebuilt as it stood, whatever came after."""

from datetime import timedelta

from app.queries.log_then import log_then
from app.web.session_form import SessionForm
from tests.app.pages.conftest import NOW, Town
from tests.app.pages.test_hours import SESSION, log

JUST_BEFORE = NOW - timedelta(microseconds=1)


def test_the_log_before_is_rebuilt_as_it_was_after_logging_a_correction_and_a_withdrawal(
    town: Town, form_token
) -> None:  # noqa: ANN001
    trainee = town.as_role("trainee")
    with town.store.reading("halden-row") as work:
        before = work.ledger.of_enrolment("enrolment-1")
        assert log_then(work, "enrolment-1", NOW) == (before, ())
    signed, waiting = (next(one for one in before if one.state == state) for state in ("signed_off", "waiting"))
    token = {"form_token": form_token(trainee, "/today")}
    answers = [
        log(trainee, form_token),
        trainee.post(f"/hours/sessions/{SESSION['id']}", data=SESSION | token | {"version": "1", "end": "06:30"}),
        trainee.post(
            f"/hours/sessions/{signed.id}", data=SessionForm.of(signed).fields() | token | {"site": "elsewhere"}
        ),
        trainee.post(f"/hours/sessions/{waiting.id}/withdraw", data=token),
    ]
    assert [one.status_code for one in answers] == [303] * 4
    with town.store.reading("halden-row") as work:
        then, changed = log_then(work, "enrolment-1", JUST_BEFORE)
    assert then == before
    assert set(changed) == {SESSION["id"], signed.id, waiting.id}
    page = trainee.get("/hours/changes?since=2026-11-25").text
    assert "24 Nov 2026, Observed a teacher: Reformer, 30 min: put down. Waiting for signature." in page
    assert "changed, Signed off before. Waiting for signature." in page
    assert town.as_role("director").get("/trainees/enrolment-1/changes").status_code == 200
    assert "choose a day up to today" in trainee.get("/hours/changes?since=2027-01-01").text
