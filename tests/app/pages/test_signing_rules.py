"""A host who signs after the last day of the set (60 days in the demo's) is told so, and nothing is signed."""

from app.web.visit import token_hash
from tests.app.pages.conftest import NOW, Town
from tests.app.pages.test_hours import SESSION, log, stands


def test_a_signature_after_the_last_day_is_refused_and_what_was_ticked_waits_on(town: Town, form_token) -> None:  # noqa: ANN001
    assert log(town.as_role("trainee"), form_token, day="2026-09-25").status_code == 303
    with town.store.writing("halden-row") as work:
        work.hosts.add_link(token_hash("works"), "host-1", NOW, NOW.replace(year=2027))
        work.commit()
    host, page = town.visitor(), "/h/halden-row.works"
    data = {"form_token": form_token(host, page), "session": f"{SESSION['id']}:1"}
    answer = host.post(page, data=data)
    assert answer.status_code == 422
    assert "the session of 25 Sept 2026 could be signed until 24 Nov 2026" in answer.text
    assert stands(town) == ("waiting", 1)
