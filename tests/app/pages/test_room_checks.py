"""Rooms signed before the first candidate; a machine with a fault is out of use at once, and its exams say so."""

import re

import pytest

from app.storage.exams import Exam
from app.use_cases.demo import SCHOOL
from assessments.practicals.room_check import POINTS
from tests.app.pages.conftest import NOW, Town
from tests.app.pages.test_sheets import examiner  # noqa: F401 - fixture

DAY = NOW.date().isoformat()
ROOMS = f"/room-checks/{DAY}"


@pytest.fixture
def room(town: Town) -> str:
    """The address of the room of an exam that begins at half past eleven at night, with two machines."""
    with town.store.writing(SCHOOL.id) as work:
        known = work.exams.by_id("exam")
        exam = Exam(
            "late", known.enrolment_id, known.practical_id, NOW.date(), 23 * 60 + 30, "North hall: reformer 1, chair"
        )
        work.exams.add(exam, ("examiner-1",))
        work.commit()
    return ROOMS


def place_in(page: str) -> str:
    return re.search(rf'>North hall</h2>.*?href="({ROOMS}/\w+)"', page, re.DOTALL).group(1)


def found(**more: str) -> dict[str, str]:
    answers = {f"{point}-{place}": "sound" for point in POINTS for place in (1, 2)}
    return {"id": "a-check", "record": "Dry floor, two metres around.", "signed": "yes"} | answers | more


def test_a_fault_withdraws_the_machine_and_the_room_says_who_signed_and_when(
    town: Town,
    room: str,
    examiner,  # noqa: ANN001, F811
) -> None:
    client = examiner()
    place = place_in(client.get(room).text)
    refused = client.fill(place, **found(**{"straps-2": "fault"}, signed=""))
    assert refused.status_code == 422
    assert "chair: say what the fault is" in refused.text
    assert re.search(r'name="straps-2"[^>]*value="fault"[^>]*checked', refused.text)
    fault = found(**{"straps-2": "fault", "words-2": "A seam is open."})
    assert [client.fill(place, **fault).status_code for _ in range(2)] == [303, 303]
    director = town.as_role("director")
    page = director.get(room).text
    assert page.count("before the first candidate. Out of use since: chair.") == 1
    assert "chair" in director.get("/exams/late").text
    assert "A seam is open." in director.get("/incidents/a-check").text
    with town.store.reading(SCHOOL.id) as work:
        assert [one.kind for one in work.record.of_subject("a-check")] == ["incident-reported", "room-checked"]


def test_only_its_examiners_and_directors_sign_a_room_and_only_on_its_day(room: str, examiner) -> None:  # noqa: ANN001, F811
    place = place_in(examiner().get(room).text)
    other = examiner("examiner2@halden-row.example")
    assert place not in other.get(room).text
    assert (other.get(place).status_code, other.fill(place, **found()).status_code) == (404, 404)
    assert other.get("/room-checks/tomorrow").status_code == 404
