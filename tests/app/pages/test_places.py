"""A trainee finds a host with a place for what is still needed, asks; the host answers under the link; both see it."""

import re
from datetime import date

from app.storage.host_terms import Terms
from app.use_cases.demo import SCHOOL
from app.web.visit import token_hash
from assessments.hours.company import most_beside
from tests.app.pages.conftest import NOW, Town

LINK = "/h/halden-row.a-link-that-works"
WISH = {
    "id": "mine", "day": "2026-11-26", "start": "10:00", "end": "11:00", "activity": "observation",
    "apparatus": "reformer", "level": "",
}  # fmt: skip


def test_the_most_who_are_there_at_once_are_counted_at_every_moment() -> None:
    """By hand: from ten to twelve two at a time, never three."""
    assert most_beside(600, 720, [(540, 610), (600, 660), (660, 720), (700, 730), (720, 780)]) == 2
    assert most_beside(600, 720, []) == 0


def test_a_place_is_asked_for_taken_full_for_the_next_and_given_back(town: Town, form_token) -> None:  # noqa: ANN001
    with town.store.writing(SCHOOL.id) as work:
        work.hosts.add_link(token_hash("a-link-that-works"), "host-1", NOW, NOW.replace(year=2027))
        work.host_terms.put(Terms("host-1", 1, ask_first=True, since=NOW))
        work.commit()
    trainee, host = town.as_role("trainee"), town.visitor()
    found = trainee.get("/host-teachers").text
    assert "1 of 1 observer&#39;s place free" in found
    assert re.search(r"You still need at least:.*\?activity=observation&amp;apparatus=reformer", found, re.DOTALL)
    data = WISH | {"form_token": form_token(trainee, "/host-teachers")}
    over = trainee.post("/host-teachers/host-1/places", data=data | {"day": "2026-11-24", "end": "09:00"})
    assert (over.status_code, "a time that is to come" in over.text, "not after the start" in over.text) == (
        422,
        True,
        True,
    )
    assert [trainee.post("/host-teachers/host-1/places", data=data).status_code for _ in range(2)] == [303, 303]
    again = trainee.post("/host-teachers/host-2/places", data=data | {"id": "b"})
    assert "another place at that time" in again.text
    assert "One trainee asks for a place" in host.get(LINK).text
    token = {"form_token": form_token(host, f"{LINK}/places")}
    assert host.post(f"{LINK}/places/mine", data=token | {"answer": "take"}).status_code == 303
    with town.store.reading(SCHOOL.id) as work:
        mine = work.places.by_id("mine")
        assert work.host_terms.standing("host-1", "trainee-1").standing == "taken", "asked for a place is asked first"
        mails = [one.subject for one in work.mail.newest(9)]
    assert (mine.standing, mine.day) == ("taken", date(2026, 11, 26))
    assert [sum("place" in one for one in mails), sum("You have the place" in one for one in mails)] == [2, 1]
    assert (
        "No observer&#39;s place is free then"
        in trainee.get("/host-teachers?day=2026-11-26&start=10:30&end=11:30").text
    )
    with town.store.writing(SCHOOL.id) as work:
        work.places.put(type(mine)("other", "host-1", "trainee-2", *_rest(mine), "asked", NOW))
        work.commit()
    full = host.post(f"{LINK}/places/other", data=token | {"answer": "take"})
    assert (full.status_code, "as many as you take" in full.text) == (422, True)
    back = trainee.post("/places/mine/give-back", data=data)
    assert back.status_code == 303
    assert trainee.post("/places/other/give-back", data=data).status_code == 404
    assert host.post(f"{LINK}/places/mine", data=token | {"answer": "take"}).status_code == 409
    assert host.post(f"{LINK}/places/other", data=token | {"answer": "take"}).status_code == 303


def _rest(place) -> tuple[object, ...]:  # noqa: ANN001
    return place.day, place.start, place.end, place.activity, place.apparatus, place.level
