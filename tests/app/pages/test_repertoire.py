"""The repertoire in the browser."""

import re

import pytest

from app.use_cases.demo import SCHOOL
from tests.app.pages.conftest import EMAILS, Town

FOOTWORK = "/repertoire/exercises/reformer-footwork"


@pytest.mark.parametrize("role", EMAILS)
def test_everybody_of_the_school_reads_the_order(town: Town, role: str) -> None:
    page = town.as_role(role).get("/repertoire")
    assert page.status_code == 200
    assert "34 exercises" in page.text
    assert 'href="/repertoire/reformer"' in page.text


@pytest.mark.parametrize("database_urls", ["sqlite"], indirect=True, scope="session")
def test_every_link_of_the_order_leads_to_a_page(town: Town) -> None:
    """Links come from the edition, not from the database."""
    client = town.as_role("trainee")
    seen: set[str] = set()
    waiting = ["/repertoire"]
    while waiting:
        page = client.get(waiting.pop())
        assert page.status_code == 200, page.url
        found = set(re.findall(r'href="(/repertoire[^"#]*)"', page.text)) - seen
        seen |= found
        waiting += found
    assert FOOTWORK in seen
    assert len(seen) > 50


def test_an_exercise_carries_its_cautions_frame_and_the_signs_to_stop_on(town: Town) -> None:
    text = town.as_role("trainee").get(FOOTWORK).text
    assert "Teaching guidance, not medical advice." in text
    assert "call the emergency number" in text
    assert "School to confirm: Springs, Repetitions." in text
    assert "Touch, with consent" in text


def test_pages_have_no_script_or_style_of_their_own(town: Town) -> None:
    client = town.as_role("trainee")
    for path in ("/repertoire", "/repertoire/mat", FOOTWORK):
        assert not re.search(r"<style|\sstyle=|<script(?! src=)|\son\w+=", client.get(path).text), path


def test_a_search_keeps_what_was_typed_and_shows_it_as_text(town: Town) -> None:
    client = town.as_role("trainee")
    assert FOOTWORK in client.get("/repertoire", params={"q": "syrup"}).text
    answer = client.get("/repertoire", params={"q": '"><b>x'})
    assert "<b>x" not in answer.text
    assert "No exercise of this edition has these words" in answer.text


@pytest.mark.parametrize("path", ["/repertoire/no-such", "/repertoire/exercises/no-such"])
def test_what_is_not_there_is_answered_404(town: Town, path: str) -> None:
    assert town.as_role("director").get(path).status_code == 404


def test_a_trainee_keeps_the_edition_of_the_enrolment(town: Town) -> None:
    """A newer edition is there for the director at once; the trainee stays on the one enrolled with."""
    with town.store.writing(SCHOOL.id) as work:
        old = work.editions.newest("repertoire")
        texts = {**old.documents}
        texts["edition.yaml"] = re.sub(r"(?m)^title: .*$", "title: A later edition", texts["edition.yaml"])
        later = old.published_at.replace(year=old.published_at.year + 1)
        work.editions.add(type(old)("repertoire-later", old.kind, old.name, "later", texts, later))
        work.commit()
    assert "A later edition" in town.as_role("director").get("/repertoire").text
    assert "A later edition" not in town.as_role("trainee").get("/repertoire").text
