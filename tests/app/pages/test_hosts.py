"""The director keeps the register of host teachers; trainees are offered only those who may sign today."""

import re
from dataclasses import replace
from datetime import date

import pytest

from app.queries.exam_facts import ties_of
from app.use_cases.demo import SCHOOL
from tests.app.pages.conftest import NOW, Town

ID = "new-host"
WANTED = {
    "id": ID, "name": "Senna Brook", "email": "senna@brook.example", "site": "Quay studio", "level": "comprehensive",
    "verified_on": "2026-11-01", "eligible_until": "2027-10-31", "person": "",
}  # fmt: skip
KEPT = {
    "email": "host1@halden-row.example", "site": "", "level": "comprehensive", "verified_on": "", "eligible_until": "",
    "person": "", "reason": "moved to another street", "known": "0",
}  # fmt: skip


@pytest.fixture
def director(town: Town, form_token):  # noqa: ANN001, ANN201
    """The director's client; `client.fill(path, **fields)` posts a form."""
    client = town.as_role("director")
    token = form_token(client, "/hosts/new")
    client.fill = lambda path, **typed: client.post(
        path, data={"form_token": token} | typed, headers={"accept": "text/html"}
    )
    return client


def host(town: Town, id: str):  # noqa: ANN201
    with town.store.reading(SCHOOL.id) as work:
        return work.hosts.by_id(id)


def events(town: Town, id: str) -> list[str]:
    with town.store.reading(SCHOOL.id) as work:
        return [one.kind for one in work.record.of_subject(id)]


def mails(town: Town, address: str) -> list[str]:
    with town.store.reading(SCHOOL.id) as work:
        return [one.words for one in work.mail.newest(50) if one.to_address == address]


def kept(town: Town, **change: str) -> dict[str, str]:
    """The form of the first host as it stands, with a change."""
    now = host(town, "host-1")
    return KEPT | {"site": now.site, "verified_on": now.verified_on.isoformat()} | change


def offered(page: str) -> set[str]:
    return set(re.findall(r'<option value="(host-\d+|new-host)"', page))


def test_a_host_is_added_once_and_then_offered_to_trainees(town: Town, director) -> None:  # noqa: ANN001
    assert ID not in offered(town.as_role("trainee").get("/today").text)
    for _ in range(2):
        assert director.fill("/hosts/new", **WANTED).headers["location"] == f"/hosts/{ID}"
    assert director.fill("/hosts/new", **WANTED | {"site": "Elsewhere"}).status_code == 409
    assert events(town, ID) == ["host-added"]
    assert ID in offered(town.as_role("trainee").get("/today").text)
    page = director.get("/hosts").text
    assert "Senna Brook" in page
    assert "eligible from 1 Nov 2026 to 31 Oct 2027" in page


def test_an_empty_form_is_shown_again_with_every_reason(town: Town, director) -> None:  # noqa: ANN001
    answer = director.fill("/hosts/new", id=ID, site="Quay studio", verified_on="soon", eligible_until="later")
    assert answer.status_code == 422
    named = set(re.findall(r'href="#f-([\w-]+)"', answer.text))
    assert named == {"name", "email", "level", "verified_on", "eligible_until"}
    assert 'value="Quay studio"' in answer.text
    assert host(town, ID) is None


@pytest.mark.parametrize(
    "mail", ["senna", "senna@brook", "a b@brook.example", "a@b@c.example", "a@.example", "@x.example"]
)
def test_what_is_no_mail_address_is_refused(town: Town, director, mail: str) -> None:  # noqa: ANN001
    answer = director.fill("/hosts/new", **WANTED | {"email": mail})
    assert answer.status_code == 422
    assert "is no mail address" in answer.text


def test_one_mail_address_belongs_to_one_host_and_one_person_is_one_host(town: Town, director) -> None:  # noqa: ANN001
    director.fill("/hosts/new", **WANTED | {"person": "examiner-1"})
    again = WANTED | {"id": "other", "email": "Senna@Brook.example", "person": "examiner-1"}
    answer = director.fill("/hosts/new", **again)
    assert answer.status_code == 422
    assert "Senna Brook has this mail address" in answer.text
    assert "Senna Brook is this person on the register already" in answer.text
    assert (
        director.fill("/hosts/new", **again | {"email": "other@brook.example", "person": "no-one"}).status_code == 422
    )


def test_eligibility_does_not_end_before_it_begins(town: Town, director) -> None:  # noqa: ANN001
    for change in ({"eligible_until": "2026-10-31"}, {"level": "flying", "eligible_until": "2026-10-31"}):
        answer = director.fill("/hosts/new", **WANTED | change)
        assert answer.status_code == 422
        assert "would end before it begins" in answer.text
    director.fill("/hosts/new", **WANTED)
    answer = director.fill(f"/hosts/{ID}/end", **{"last": "2026-10-31", "end-reason": ""})
    assert set(re.findall(r'href="#f-([\w-]+)"', answer.text)) == {"last", "end-reason"}


def test_a_change_needs_its_reason_and_stays_on_record_with_who_and_when(town: Town, director) -> None:  # noqa: ANN001
    refused = director.fill("/hosts/host-1", **kept(town, site="Mill hall", reason=" ", email="no mail"))
    assert refused.status_code == 422
    assert 'value="Mill hall"' in refused.text
    assert director.fill("/hosts/host-1", **kept(town, site="Mill hall", reason=" ")).status_code == 422
    change = kept(town, site="Mill hall")
    for _ in range(2):
        assert director.fill("/hosts/host-1", **change).status_code == 303
    assert events(town, "host-1") == ["host-changed"]
    page = director.get("/hosts/host-1").text
    assert "Changed: site: moved to another street" in page
    assert "25 Nov 2026, 16:00:00" in page
    assert director.fill("/hosts/host-1", **change | {"site": "From a stale tab"}).status_code == 409


def test_a_new_address_ends_the_old_link_and_gets_what_waits(town: Town, director) -> None:  # noqa: ANN001
    director.fill("/hosts/host-1/link", id="once")
    old = re.search(r"/h/\S+", mails(town, KEPT["email"])[0])[0]
    assert town.visitor().get(old).status_code == 200
    director.fill("/hosts/host-1", **kept(town, email="right@halden-row.example", known="1"))
    assert town.visitor().get(old).status_code == 410
    new = re.search(r"/h/\S+", mails(town, "right@halden-row.example")[0])[0]
    assert town.visitor().get(new).status_code == 200


def test_the_link_is_sent_once_however_often_the_form_is_sent(town: Town, director) -> None:  # noqa: ANN001
    for request in ("once", "once", "twice"):
        assert director.fill("/hosts/host-1/link", id=request).status_code == 303
    assert director.fill("/hosts/host-1/link").status_code == 422
    assert events(town, "host-1") == ["host-link-sent"] * 2
    assert len(mails(town, KEPT["email"])) == 2
    assert "link last sent 25 Nov 2026" in director.get("/hosts").text


def test_a_paused_host_is_not_offered_but_signs_what_waits(town: Town, director, form_token) -> None:  # noqa: ANN001
    trainee = town.as_role("trainee")
    assert "host-1" in offered(trainee.get("/today").text)
    assert director.fill("/hosts/host-1/pause").status_code == 422
    for _ in range(2):
        director.fill("/hosts/host-1/pause", **{"pause-reason": "away for a term"})
    assert events(town, "host-1") == ["host-paused"]
    assert "host-1" not in offered(trainee.get("/today").text)
    director.fill("/hosts/host-1/link", id="once")
    link = re.search(r"/h/\S+", mails(town, KEPT["email"])[0])[0]
    page = town.visitor().get(link).text
    waiting = re.search(r'name="session" value="([^"]+)"', page)[1]
    token = re.search(r'name="form_token" value="(\w+)"', page)[1]
    assert town.visitor().post(link, data={"form_token": token, "session": waiting}).status_code == 200
    with town.store.reading(SCHOOL.id) as work:
        assert work.ledger.now(waiting.rpartition(":")[0]).state == "signed_off"
    for _ in range(2):
        assert director.fill("/hosts/host-1/resume").status_code == 303
    assert "host-1" in offered(trainee.get("/today").text)


def test_the_correction_of_an_old_session_keeps_its_host(town: Town, director) -> None:  # noqa: ANN001
    trainee = town.as_role("trainee")
    with town.store.reading(SCHOOL.id) as work:
        session = next(
            one for one in work.ledger.of_enrolment("enrolment-1") if one.host and one.day < date(2026, 11, 1)
        )
    ended = {"last": "2026-11-20", "end-reason": "left the trade"}
    for _ in range(2):
        assert director.fill(f"/hosts/{session.host}/end", **ended).status_code == 303
    assert events(town, session.host) == ["host-eligibility-ended"]
    assert session.host not in offered(trainee.get("/today").text)
    page = trainee.get(f"/hours/sessions/{session.id}").text
    assert f'<option value="{session.host}" selected>' in page
    assert "Eligibility ended on 20 Nov 2026: left the trade" in director.get(f"/hosts/{session.host}").text


def test_who_hosted_under_another_hat_is_tied_to_the_candidate(town: Town, director) -> None:  # noqa: ANN001
    """`person` is what bars an examiner from whom they hosted."""
    with town.store.reading(SCHOOL.id) as work:
        assert not [one for one in ties_of(work, "trainee-1") if one.kind == "hosted"]
    assert director.fill("/hosts/host-1", **kept(town, person="examiner-2")).status_code == 303
    with town.store.reading(SCHOOL.id) as work:
        assert [one.person for one in ties_of(work, "trainee-1") if one.kind == "hosted"] == ["examiner-2"]


def test_hosts_for_whom_something_waits_longest_come_first(town: Town, director) -> None:  # noqa: ANN001
    director.fill("/hosts/new", **WANTED | {"name": "Aaa Nobody Waits"})
    with town.store.writing(SCHOOL.id) as work:
        waiting = work.ledger.waiting_by_host()
        late = max(waiting, key=lambda id: (waiting[id][1], id))
        old = next(one for one in work.ledger.of_enrolment("enrolment-1") if one.host and one.day < date(2026, 11, 1))
        old = replace(old, host=late, state="waiting", version=old.version + 1)
        work.ledger.add_version(old, "enrolment-1", None, "", "trainee-1", NOW)
        work.commit()
    page = director.get("/hosts").text
    order = re.findall(r'href="/hosts/(host-\d+|new-host)"', page)
    assert order[0] == late
    assert set(order[: len(waiting)]) == set(waiting), "then those for whom nothing waits, by name"
    assert order[len(waiting)] == ID
    assert page.count(">late<") == 1
    assert f"{waiting[late][0] + 1} sessions wait, the oldest from" in page


def test_the_way_there_is_on_the_cohort_page(director) -> None:  # noqa: ANN001
    assert 'href="/hosts"' in director.get("/cohort").text
