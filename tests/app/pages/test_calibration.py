"""An examiner scores a described performance alone and then sees how near; without a calibration there is no place."""

import html
import re
from dataclasses import replace

import pytest

from app.storage.calibration import PerformanceScoring
from app.storage.people import Person
from app.use_cases.demo import SCHOOL
from tests.app.pages.conftest import NOW, Town

PAGE = "/calibration/basic/quiet-mat"
EXAM = {
    "id": "wanted-exam", "enrolment": "enrolment-2", "practical": "practical-basic", "day": "2026-12-01", "starts": "09:30",
    "room": "North room", "examiner-0": "examiner-1", "examiner-1": "examiner-2",
}  # fmt: skip


@pytest.fixture
def post(form_token):  # noqa: ANN001, ANN201
    """Posts a form as whoever is signed in."""

    def send(client, path, page, **typed):  # noqa: ANN001, ANN003, ANN202
        data = {"form_token": form_token(client, page)} | typed
        return client.post(path, data=data, headers={"accept": "text/html"})

    return send


def text(answer) -> str:  # noqa: ANN001
    return html.unescape(answer.text)


def levels(page: str, level: str) -> dict[str, str]:
    return dict.fromkeys(re.findall(r'name="(level\.[^"]+)"', page), level)


def scorings(town: Town) -> list[PerformanceScoring]:
    with town.store.reading(SCHOOL.id) as work:
        return [one for one in work.calibrations.all() if one.performance == "quiet-mat"]


def test_a_founding_panel_scores_alone_and_the_director_sets_the_reference_by_it(town: Town, post) -> None:  # noqa: ANN001
    """Examiner 2 has scored it in the demo; the one signed in and a third make a founding panel of three."""
    examiner, director = town.as_role("examiner"), town.as_role("director")
    page = examiner.get(PAGE).text
    assert "Reference" not in page
    answer = post(examiner, PAGE, PAGE, id="s-1", **{"level.mat.A": "3"})
    assert answer.status_code == 422
    assert "choose a level" in answer.text
    assert re.search(r'name="level.mat.A" value="3"\s+id="[^"]*" checked', answer.text)
    for _ in range(2):
        assert post(examiner, PAGE, PAGE, id="s-1", note="Ünusual ✓", **levels(page, "4")).status_code == 303
    assert len(scorings(town)) == 2
    assert "There is no reference yet" in text(examiner.get(PAGE))
    assert post(examiner, PAGE, PAGE, id="s-2", **levels(page, "1")).status_code == 409
    setting = ("/calibrations/basic/quiet-mat", "/calibrations")
    assert "2 have scored it; a founding panel needs 3" in text(post(director, *setting))
    with town.store.writing(SCHOOL.id) as work:
        work.people.add(Person("examiner-9", "Third One", "x9@x.example", "h"), frozenset({"examiner"}), NOW)
        work.calibrations.add(replace(work.calibrations.by_id("s-1"), id="s-9", person_id="examiner-9"))
        work.commit()
    for _ in range(2):
        assert post(director, *setting).status_code == 303
    shown = text(examiner.get(PAGE))
    assert "3 examiners scored alone before there was one" in shown
    assert "Your marks lie" in shown
    assert "Mark by mark" in shown


def test_a_lapsed_calibration_gives_no_place_but_by_a_reason_that_stays_in_view(town: Town, post) -> None:  # noqa: ANN001
    director = town.as_role("director")
    faraway = EXAM | {"day": "2027-11-01"}
    refused = post(director, "/exams/new", "/exams/new", **faraway)
    assert refused.status_code == 422
    assert text(refused).count("has no calibration that holds on that day") >= 2
    given = {"waiver-0": "Nobody else is free.", "waiver-1": "Nor else."}
    assert post(director, "/exams/new", "/exams/new", **faraway, **given).status_code == 303
    page = text(director.get("/exams/wanted-exam"))
    assert "examines without a calibration that holds" in page
    assert "Nobody else is free." in page


def test_a_calibration_that_holds_needs_no_reason_and_the_director_sees_who_leans(town: Town, post) -> None:  # noqa: ANN001
    director = town.as_role("director")
    assert post(director, "/exams/new", "/exams/new", **EXAM).status_code == 303
    assert "examines without" not in text(director.get("/exams/wanted-exam"))
    page = text(director.get("/calibrations"))
    assert page.count("calibrated until") == 4
    assert re.search(r"marks of 100 (stricter|more lenient) than the reference", page)
    assert "calibrated until" in text(town.as_role("examiner").get("/calibration"))
