"""Requirement sets in plain words: for the director each edition and draft, for a trainee the set they are on."""

import re
from dataclasses import replace

import pytest

from app.queries.requirements import set_overview
from app.queries.standing import requirements_of
from app.storage.editions import EditionDraft
from app.use_cases.demo import SCHOOL
from app.wording.languages import ENGLISH
from curriculum.requirements.requirement_set import RequirementSet
from tests.app.pages.conftest import NOW, Town

SET = "/requirements/requirements-2026-1"


@pytest.fixture
def requirements(town: Town) -> RequirementSet:
    with town.store.reading(SCHOOL.id) as work:
        return requirements_of(work.editions.by_id("requirements-2026-1"))


def lines(town: Town, requirements: RequirementSet) -> dict:
    with town.store.reading(SCHOOL.id) as work:
        return {line.id: line for line, _ in set_overview(work, requirements, ENGLISH).parts}


def test_the_director_reads_a_set_with_who_is_on_it(town: Town) -> None:
    director = town.as_role("director")
    assert f'href="{SET}"' in director.get("/requirements").text
    assert "2 trainees are on it" in director.get("/requirements").text
    page = director.get(SET).text
    assert "At least 40 h of it must be time with apparatus “Reformer”." in page
    assert "the document “Liability insurance” is handed in and valid" in page, "as readiness calls it"
    assert 'href="/trainees/enrolment-1"' in page
    assert f'href="{SET}"' in director.get("/editions/requirements-2026-1").text


def test_a_trainee_reads_their_own_set_and_nobody_elses_name(town: Town) -> None:
    trainee = town.as_role("trainee")
    assert 'href="/hours/requirements"' in trainee.get("/hours").text
    page = trainee.get("/hours/requirements").text
    assert "Over everything together, at least 450 h are needed." in page
    assert "Who is on it" not in page
    assert "Tomas Verrin" not in page
    assert trainee.get(SET).status_code == 404


def test_a_trainee_stays_with_the_set_they_are_on(town: Town) -> None:
    with town.store.writing(SCHOOL.id) as work:
        old = work.editions.by_id("requirements-2026-1")
        ((name, text),) = old.documents.items()
        newer = {name: text.replace("at_least: 450 h", "at_least: 500 h").replace("2026.1", "2027.1")}
        work.editions.add(replace(old, id="newer", number="2027.1", documents=newer, published_at=NOW))
        work.commit()
    assert "at least 450 h are needed" in town.as_role("trainee").get("/hours/requirements").text
    assert "at least 500 h are needed" in town.as_role("director").get("/requirements/newer").text


def test_only_a_requirement_set_reads_as_one(town: Town) -> None:
    director = town.as_role("director")
    for path in ("/requirements/repertoire-2026-1", "/requirements/none", "/drafts/none/words"):
        assert director.get(path).status_code == 404


def test_a_draft_is_read_as_it_would_be_and_its_faults_where_it_can_not(town: Town) -> None:
    director = town.as_role("director")
    assert 'href="/drafts/draft/words"' in director.get("/drafts/draft").text
    assert "At least 100 h are needed." in director.get("/drafts/draft/words").text
    with town.store.writing(SCHOOL.id) as work:
        faulty = {"set.yaml": "title: x\ncategories:\n  - {id: a, accepts: {activity: b}, at_least: soon}\n"}
        draft = EditionDraft("faulty", "requirements", "x", None, faulty, 1, "director", NOW)
        work.editions.put_draft(draft)
        work.commit()
    page = director.get("/drafts/faulty/words").text
    assert "be read yet" in page
    assert "set.yaml:3: categories[0].at_least" in page


def test_the_picture_is_to_scale(town: Town, requirements: RequirementSet) -> None:
    """The longest line is observation's, credited up to 140 h; worked by hand from the seeded set."""
    found = lines(town, requirements)
    observation, teaching = found["observation"], found["practice-teaching"]
    assert observation.beyond == 1
    assert observation.need == pytest.approx(100 / 140)
    assert observation.floors == pytest.approx((40 / 140,))
    assert observation.caps == pytest.approx((25 / 140,)), "a cap for each host or day is no place on the line"
    assert teaching.floors == pytest.approx((9 / 140, 24 / 140, 12 / 140))
    assert (teaching.floors_text, teaching.caps_text, teaching.beyond_text) == ("9 h, 12 h, 24 h", "none", "none")


def test_every_category_has_its_line_in_the_picture_and_in_the_table(town: Town, requirements: RequirementSet) -> None:
    page = town.as_role("trainee").get("/hours/requirements").text
    for one in requirements.categories:
        assert re.search(rf"<title>{one.title}: \d+ h</title>", page)
        assert re.search(rf'<th scope="row">{one.title}</th>', page)
