"""A safety notice stands on every page at once until each person has read it, and on its exercise until it is ended."""

import pytest

from app.use_cases.demo import SCHOOL
from tests.app.pages.conftest import OTHER, Town

TEXT = "Don't lower the foot bar with a foot on the machine in the north room."
EXERCISE = "/repertoire/exercises/reformer-footwork"


@pytest.fixture
def director(town: Town, form_token):  # noqa: ANN001, ANN201
    client = town.as_role("director")
    token = form_token(client, "/notices")
    client.fill = lambda path, **typed: client.post(
        path, data={"form_token": token} | typed, headers={"accept": "text/html"}
    )
    return client


def notice_id(town: Town) -> str:
    with town.store.reading(SCHOOL.id) as work:
        return work.notices.standing()[0].id


def test_a_notice_reaches_everybody_at_once_and_each_reads_it(town: Town, director, form_token) -> None:  # noqa: ANN001
    assert director.fill("/notices", about="reformer-footwork", text=TEXT).status_code == 303
    trainee = town.as_role("trainee")
    assert "foot bar with a foot" in trainee.get("/today").text
    token = form_token(trainee, "/today")
    back = trainee.post(f"/notices/{notice_id(town)}/read", data={"form_token": token, "back": "/today"})
    assert back.headers["location"] == "/today"
    assert "foot bar with a foot" not in trainee.get("/today").text
    assert "foot bar with a foot" in trainee.get(EXERCISE).text
    page = director.get("/notices").text
    assert "Read by 1 person." in page
    assert "Piet Oosterhall" in page


def test_a_notice_about_an_apparatus_stands_on_all_of_its_exercises_and_on_no_other(town: Town, director) -> None:  # noqa: ANN001
    director.fill("/notices", about="reformer", text=TEXT)
    director.fill(f"/notices/{notice_id(town)}/read", back="/")
    assert "foot bar with a foot" in director.get(EXERCISE).text
    assert "foot bar with a foot" in director.get("/repertoire/reformer").text
    assert "foot bar with a foot" not in director.get("/repertoire/exercises/mat-hundred").text


def test_an_ended_notice_is_gone_and_stays_on_record(town: Town, director) -> None:  # noqa: ANN001
    director.fill("/notices", about="", text=TEXT)
    id = notice_id(town)
    assert director.fill(f"/notices/{id}/end").status_code == 422
    assert director.fill(f"/notices/{id}/end", **{f"reason-{id}": "the maker changed the lock"}).status_code == 303
    assert director.fill(f"/notices/{id}/end", **{f"reason-{id}": "again"}).status_code == 409
    assert "foot bar with a foot" not in director.get(EXERCISE).text
    assert "the maker changed the lock" in director.get("/notices").text


@pytest.mark.parametrize("typed", [{"text": " "}, {"about": "no-such", "text": TEXT}, {"text": "x" * 1001}])
def test_a_notice_that_says_nothing_or_names_nothing_is_refused(director, typed) -> None:  # noqa: ANN001
    assert director.fill("/notices", **typed).status_code == 422


def test_a_notice_stays_in_its_school(town: Town, director) -> None:  # noqa: ANN001
    director.fill("/notices", about="", text=TEXT)
    assert "foot bar with a foot" not in town.as_role("trainee", OTHER).get("/today").text


@pytest.mark.parametrize("back", ["https://elsewhere.example/x", "//elsewhere.example", "/\\elsewhere.example", ""])
def test_reading_never_leads_elsewhere(town: Town, director, back: str) -> None:  # noqa: ANN001
    director.fill("/notices", about="", text=TEXT)
    location = director.fill(f"/notices/{notice_id(town)}/read", back=back).headers["location"]
    assert location in ("/", "/x")
