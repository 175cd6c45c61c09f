"""What a host does about one session through the private link: shorter and signed, or not taught by them."""

import re

from app.queries.proof import audit
from app.use_cases.demo import SCHOOL
from app.web.visit import token_hash
from tests.app.pages.conftest import NOW, Town

LINK = "/h/halden-row.a-link-that-works"
ID = "of-two-parts"
LOGGED = {
    "id": ID, "version": "0", "day": "2026-11-24", "start": "06:00", "end": "08:00", "host": "host-1", "note": "Springs!",
    "activity-0": "observation", "apparatus-0": "reformer", "minutes-0": "60",
    "activity-1": "observation", "apparatus-1": "mat", "minutes-1": "60",
}  # fmt: skip


def begin(town: Town, form_token):  # noqa: ANN001, ANN201
    """A session of two parts that waits, its trainee, and its host with a link."""
    trainee = town.as_role("trainee")
    answer = trainee.post("/today", data=LOGGED | {"form_token": form_token(trainee, "/today")})
    assert answer.status_code == 303, answer.text
    with town.store.writing(SCHOOL.id) as work:
        work.hosts.add_link(token_hash("a-link-that-works"), "host-1", NOW, NOW.replace(year=2027))
        work.commit()
    return trainee, town.visitor()


def test_a_shorter_session_is_a_version_that_is_signed_at_once(town: Town, form_token) -> None:  # noqa: ANN001
    trainee, host = begin(town, form_token)
    page = f"{LINK}/sessions/{ID}"
    assert page in host.get(LINK).text
    data = {"form_token": form_token(host, page), "version": "1", "start": "06:00", "end": "08:30", "minutes-0": "60"}
    refused = host.post(f"{page}/shorter", data=data)
    assert (refused.status_code, "it can only get shorter" in refused.text) == (422, True)
    assert 'value="08:30"' in refused.text, "as typed"
    signed = host.post(f"{page}/shorter", data=data | {"end": "07:00"})
    number = re.search(r'class="number">([0-9A-F]{16})<', signed.text)[1]
    assert host.post(f"{page}/shorter", data=data | {"end": "07:00"}).status_code == 409, "once"
    with town.store.reading(SCHOOL.id) as work:
        now, before = work.ledger.now(ID), work.ledger.logged(ID, 1)[0]
        assert (now.version, now.state, now.minutes, len(now.parts)) == (2, "signed_off", 60, 1)
        assert (before.minutes, len(before.parts)) == (120, 2), "what was put down stays on record"
        assert work.record.words(work.ledger.logged(ID, 2)[1]) == "Springs!"
        assert audit(work).faults == ()
    receipt = host.get(f"{LINK}/receipts/{number}.json").json()
    assert [one["kind"] for one in receipt["entries"]] == ["session-shortened", "session-signed"]
    assert "06:00–08:00, 2 h were put down" in trainee.get(f"/hours/sessions/{ID}").text


def test_who_did_not_teach_it_is_not_asked_again(town: Town, form_token) -> None:  # noqa: ANN001
    trainee, host = begin(town, form_token)
    page = f"{LINK}/sessions/{ID}"
    data = {"form_token": form_token(host, page), "version": "1", "deny-words": "x" * 4001}
    assert host.post(f"{page}/denied", data=data).status_code == 422
    assert host.post(f"{page}/denied", data=data | {"deny-words": "I was away."}).status_code == 200
    with town.store.reading(SCHOOL.id) as work:
        assert work.ledger.now(ID).state == "sent_back"
        assert audit(work).faults == ()
    own = f"/hours/sessions/{ID}"
    shown = trainee.get(own).text
    assert "I was away." in shown
    assert "Not taught by this host" in shown
    again = LOGGED | {"form_token": form_token(trainee, own), "version": "1"}
    refused = trainee.post(own, data=again)
    assert (refused.status_code, "they did not teach it" in refused.text) == (422, True)
    assert trainee.post(own, data=again | {"host": "host-2"}).status_code == 303
    assert host.get(page).status_code == 404, "no longer this host's"


def test_a_session_of_another_host_is_not_there(town: Town, form_token) -> None:  # noqa: ANN001
    _, host = begin(town, form_token)
    with town.store.reading(SCHOOL.id) as work:
        other = next(one for one in work.ledger.of_enrolment("enrolment-2") if one.host == "host-2")
    assert host.get(f"{LINK}/sessions/{other.id}").status_code == 404
