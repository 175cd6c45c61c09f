"""A trainee tries a week: figures change, nothing is stored, and what can't be read is said all at once."""

from tests.app.pages.conftest import Town

PLAN = {
    "day-0": "2026-11-27",
    "minutes-0": "90",
    "activity-0": "observation",
    "host-0": "host-1",
    "apparatus-0": "reformer",
}
UNREAD = {"day-0": "2026-11-01", "minutes-0": "0", "day-1": "soon", "activity-1": "<b>"}


def test_a_tried_week_shows_what_it_would_earn_and_stores_nothing(town: Town) -> None:
    trainee = town.as_role("trainee")
    with town.store.reading("halden-row") as work:
        before = work.ledger.of_enrolment("enrolment-1")
    page = trainee.get("/hours/try", params=PLAN)
    assert page.status_code == 200
    assert "instead of" in page.text
    assert "Earns 1 h 30 min." in page.text
    with town.store.reading("halden-row") as work:
        assert work.ledger.of_enrolment("enrolment-1") == before
    answer = trainee.get("/hours/try", params=UNREAD)
    assert answer.status_code == 422
    for words in (
        "from today to eight weeks ahead",
        "whole number from 1 to 600",
        "choose what you did",
        "choose the day",
    ):
        assert words in answer.text
    assert 'value="2026-11-01"' in answer.text
