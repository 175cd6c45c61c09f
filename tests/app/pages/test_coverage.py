"""The coverage map through the pages: what is noted and signed shows, for oneself, for the director, for the cohort."""

import re
from fractions import Fraction

import pytest

from app.files.repertoire import edition_from_documents
from app.files.sheets import write_sheet
from app.queries.cohort_coverage import cohort_coverage
from app.queries.coverage import coverage_overview
from app.queries.exam_facts import practical_of
from app.storage.exams import ExamDecision, SentSheet
from app.storage.notes import SessionNote
from app.use_cases.demo import SCHOOL
from app.use_cases.notes import write_notes
from app.wording.languages import ENGLISH
from assessments.practicals.sheets import Mark, Sheet, SheetState
from curriculum.competencies.notes import NotedExercise, note_faults
from tests.app.pages.conftest import NOW, Town


def shown(town: Town, enrolment: str = "enrolment-1"):  # noqa: ANN201
    with town.store.reading(SCHOOL.id) as work:
        return coverage_overview(work, work.enrolments.by_id(enrolment), ENGLISH)


def stretch(town: Town, name: str, apparatus: str = "Reformer"):  # noqa: ANN201
    found = next(one for one in shown(town).apparatus if one.name == apparatus)
    return next(one for series in found.series for one in series.exercises if one.name == name)


def note(town: Town, session_id: str, *lines: NotedExercise) -> None:
    with town.store.writing(SCHOOL.id) as work:
        before = work.notes.newest(session_id)
        enrolment = work.enrolments.by_id(work.ledger.enrolment_of(session_id))
        version = before.version + 1 if before else 1
        kept = SessionNote(session_id, version, enrolment.id, enrolment.repertoire_id, enrolment.person_id, NOW, lines)
        write_notes(work, kept)
        work.commit()


def session_of(town: Town, activity: str, state: str, enrolment: str = "enrolment-1") -> str:
    with town.store.reading(SCHOOL.id) as work:
        every = work.ledger.of_enrolment(enrolment)
    return next(one.id for one in every if (one.parts[0].activity, one.state) == (activity, state))


def test_the_demos_notes_hold_against_the_edition(town: Town) -> None:
    with town.store.reading(SCHOOL.id) as work:
        edition = edition_from_documents(work.editions.newest("repertoire").documents)
        notes = [one for number in (1, 2) for one in work.notes.of_enrolment(f"enrolment-{number}")]
        for one in notes:
            activities = {part.activity for part in work.ledger.now(one.session_id).parts}
            assert note_faults(one.lines, edition, activities) == ()
    assert len(notes) > 5


@pytest.mark.parametrize(
    ("activity", "state", "marks", "waits"),
    [
        ("observation", "signed_off", {"observed"}, set()),
        ("observation", "waiting", set(), {"observed"}),
        ("self_practice", "attested", {"practised"}, set()),
        ("practice_teaching", "signed_off", {"taught"}, set()),
    ],
)
def test_a_note_shows_as_its_session_stands(town: Town, activity: str, state: str, marks: set, waits: set) -> None:
    assert stretch(town, "Side support star").text == "nothing yet"
    note(town, session_of(town, activity, state), NotedExercise(activity, "reformer-star"))
    found = stretch(town, "Side support star")
    assert (found.marks, found.waits) == (marks, waits)


def test_what_a_newer_version_no_longer_says_is_not_shown(town: Town) -> None:
    session_id = session_of(town, "observation", "signed_off")
    note(town, session_id, NotedExercise("observation", "reformer-star"))
    note(town, session_id, NotedExercise("observation", "reformer-frog"))
    assert stretch(town, "Side support star").text == "nothing yet"


def test_the_map_counts_what_is_seen_and_says_what_to_watch_next(town: Town) -> None:
    page = town.as_role("trainee").get("/coverage").text
    overview = shown(town)
    assert f"{overview.seen} of {overview.number} exercises seen" in page
    assert 0 < overview.seen < overview.number
    assert overview.watch
    assert overview.watch[0].name in page
    assert page.count('<svg class="line series" role="img"') == sum(len(one.series) for one in overview.apparatus)


def test_the_exercise_shows_the_trainees_own_coverage_and_nobody_elses(town: Town) -> None:
    note(town, session_of(town, "observation", "signed_off"), NotedExercise("observation", "reformer-star", ()))
    address = "/repertoire/exercises/reformer-star"
    assert "1 time, last on" in town.as_role("trainee").get(address).text
    assert "My coverage" not in town.as_role("director").get(address).text


def test_the_director_sees_one_trainees_map_with_the_same_figures(town: Town) -> None:
    page = town.as_role("director").get("/trainees/enrolment-1/coverage").text
    assert "Coverage of Ida Marlowe" in page
    assert f"{shown(town).seen} of {shown(town).number} exercises seen" in page
    assert town.as_role("director").get("/trainees/nobody/coverage").status_code == 404


def test_the_cohort_counts_each_trainee_once_and_lists_what_nobody_has_seen(town: Town) -> None:
    def star():  # noqa: ANN202
        with town.store.reading(SCHOOL.id) as work:
            found = cohort_coverage(work, ENGLISH)
        every = [one for some in found.apparatus for series in some.series for one in series.exercises]
        return next(one for one in every if one.name == "Side support star"), found.unseen

    before, unseen = star()
    assert (before.seen, before.counts) == (0, (0, 0, 0, 0))
    for enrolment in ("enrolment-1", "enrolment-2"):
        for activity in ("observation", "practice_teaching"):
            note(town, session_of(town, activity, "signed_off", enrolment), NotedExercise(activity, "reformer-star"))
    after, fewer = star()
    assert (after.seen, after.counts, fewer) == (2, (2, 0, 0, 2), unseen - 1)
    page = town.as_role("director").get("/cohort/coverage").text
    assert re.search(r"nobody has seen \d+", page)


def decide(town: Town, number: int, outcome: str) -> None:
    with town.store.writing(SCHOOL.id) as work:
        work.exams.add_decision(ExamDecision("exam", number, outcome, "on both sheets", "director", NOW))
        work.commit()


def test_a_practical_shows_only_once_it_is_decided_and_not_when_it_is_void(town: Town) -> None:
    """The exam of the fixture sets footwork and the hundred; level 3 of 1 to 4 in every mark is 2/3, 67 per cent."""
    with town.store.writing(SCHOOL.id) as work:
        practical = practical_of(work, work.exams.by_id("exam"))
        marks = tuple(Mark(one.block, one.criterion, Fraction(3)) for one in practical.cells())
        for examiner in ("examiner-1", "examiner-2"):
            sheet = Sheet("exam", examiner, practical.id, practical.edition, state=SheetState.SENT, marks=marks)
            work.exams.add_sheet(SentSheet("exam", examiner, 1, write_sheet(sheet), "", NOW))
        work.commit()
    assert "assessed" not in stretch(town, "Footwork").marks
    decide(town, 1, "pass")
    assert "assessed" in stretch(town, "Footwork").marks
    assert "assessed" not in stretch(town, "Frog").marks
    page = town.as_role("trainee").get("/repertoire/exercises/reformer-footwork").text
    assert "assessed at 67 %" in page
    assert "Piet Oosterhall, Runa Calloway" in page
    decide(town, 2, "void")
    assert "assessed" not in stretch(town, "Footwork").marks


def test_strands_stand_on_the_grounds_of_their_evidence_and_only_where_there_is_one(town: Town) -> None:
    assert stretch(town, "Side support star").strands == ()
    line = NotedExercise("supervised_teaching", "reformer-star")
    note(town, session_of(town, "supervised_teaching", "signed_off"), line)
    assert stretch(town, "Side support star").strands == ("under supervision", "–", "–", "–", "–")
    assert "Reformer, strand by strand" in town.as_role("director").get("/trainees/enrolment-1/coverage").text
