"""A trainee notes a session through the pages: one tap an exercise, then cues, faults and how they were mended."""

import re

import pytest

from app.use_cases.demo import SCHOOL
from tests.app.pages.conftest import OTHER, Town

PAGE = "/hours/sessions/enrolment-1-s32/notes"
HUNDRED = "observation:reformer-hundred"


@pytest.fixture
def trainee(town: Town):  # noqa: ANN201
    return town.as_role("trainee")


@pytest.fixture
def fill(trainee, form_token):  # noqa: ANN001, ANN201
    """Sends the form of notes as it stands, with these fields."""

    def send(**fields: object):  # noqa: ANN202
        known = re.search(r'name="known" value="([^"]+)"', trainee.get(PAGE).text).group(1)
        data = {"form_token": form_token(trainee, PAGE), "known": known, "do": "keep"} | fields
        return trainee.post(PAGE, data=data)

    return send


def noted(town: Town):  # noqa: ANN201
    with town.store.reading(SCHOOL.id) as work:
        return work.notes.newest("enrolment-1-s32")


def test_the_page_offers_the_exercises_of_the_sessions_apparatus_first(trainee) -> None:  # noqa: ANN001
    page = trainee.get(PAGE).text
    assert f'value="{HUNDRED}"' in page
    assert "Footwork" in page
    assert 'value="observation:mat-hundred"' not in page, "other apparatus are found by the search"


def test_one_tap_notes_an_exercise_and_then_its_cues_and_faults_are_offered(town: Town, trainee, fill) -> None:  # noqa: ANN001
    assert fill(chosen=HUNDRED).status_code == 303
    page = trainee.get(PAGE).text
    assert "Look at your middle and leave the carriage where it is." in page
    assert "Chin pokes, neck carries the head." in page
    changed = {f"cue:{HUNDRED}": ["1", "2"], f"mended:{HUNDRED}:chin": ["correction"], f"words:{HUNDRED}": "two words"}
    assert fill(chosen=HUNDRED, **changed).status_code == 303
    (line,) = noted(town).lines
    assert (noted(town).version, line.cues, line.words) == (2, (1, 2), "two words")
    assert [(one.fault, one.mended) for one in line.faults] == [("chin", ("correction",))]
    assert len(re.findall(r'name="cue:[^>]* checked', trainee.get(PAGE).text)) == 2


def test_a_search_finds_other_exercises_and_keeps_what_was_ticked(town: Town, fill) -> None:  # noqa: ANN001
    fill(chosen=HUNDRED)
    answer = fill(chosen=HUNDRED, do="find", q="rolling back", **{f"words:{HUNDRED}": "not kept yet"})
    assert (answer.status_code, "observation:mat-rolling-back" in answer.text) == (200, True)
    assert "not kept yet" in answer.text
    assert noted(town).version == 1, "a search keeps nothing"


def test_the_enter_key_in_the_search_field_keeps_and_goes_on_with_the_search(trainee, fill) -> None:  # noqa: ANN001
    there = fill(chosen=HUNDRED, q="rolling back").headers["location"]
    assert "observation:mat-rolling-back" in trainee.get(there).text


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"chosen": "observation:no-such"}, "from the lists of your edition"),
        ({"chosen": HUNDRED, f"cue:{HUNDRED}": "99"}, "from the lists of your edition"),
        ({"chosen": HUNDRED, f"mended:{HUNDRED}:chin": "prayer"}, "from the lists of your edition"),
        ({"chosen": "sailing:reformer-hundred"}, "of what you did in this session"),
        ({"chosen": HUNDRED, f"words:{HUNDRED}": "x" * 241}, "under 240 letters"),
        ({"chosen": "damaged"}, "open the page again"),
    ],
)
def test_what_cannot_be_noted_says_why_and_stays_as_ticked(town: Town, fill, fields: dict, words: str) -> None:  # noqa: ANN001
    answer = fill(**fields)
    assert (answer.status_code, words in answer.text) == (422, True)
    assert noted(town) is None
    if "x" * 241 in fields.values():
        assert "x" * 241 in answer.text


def test_the_same_notes_twice_are_one_version_and_a_stale_tab_changes_nothing(town: Town, trainee, fill) -> None:  # noqa: ANN001
    known = re.search(r'name="known" value="([^"]+)"', trainee.get(PAGE).text).group(1)
    assert [fill(chosen=HUNDRED, known=known).status_code for _ in range(2)] == [303, 303]
    assert noted(town).version == 1
    assert fill(chosen="observation:reformer-frog", known=known).status_code == 409
    assert [line.exercise for line in noted(town).lines] == ["reformer-hundred"]


def test_notes_kept_as_they_stand_are_no_new_version(town: Town, fill) -> None:  # noqa: ANN001
    for _ in range(2):
        assert fill(chosen=HUNDRED).status_code == 303
    assert noted(town).version == 1


def test_taking_the_last_exercise_out_leaves_empty_notes_and_the_older_version_on_record(town: Town, fill) -> None:  # noqa: ANN001
    fill(chosen=HUNDRED)
    fill()
    assert (noted(town).version, noted(town).lines) == (2, ())
    with town.store.reading(SCHOOL.id) as work:
        kinds = [event.kind for event in work.record.of_subject("enrolment-1-s32")]
    assert kinds.count("session-noted") == 2


def test_a_session_is_noted_by_its_own_trainee_only(town: Town, trainee) -> None:  # noqa: ANN001
    assert trainee.get("/hours/sessions/enrolment-2-s32/notes").status_code == 404
    assert town.as_role("director").get(PAGE).status_code == 404
    assert town.as_role("trainee", OTHER).get(PAGE).status_code == 200, "the other school's session of that id"


def test_free_words_can_be_erased_and_the_rest_stays(town: Town, fill) -> None:  # noqa: ANN001
    fill(chosen=HUNDRED, **{f"words:{HUNDRED}": "to be erased"})
    with town.store.writing(SCHOOL.id) as work:
        assert work.record.erase_words("trainee-1") >= 1
        work.commit()
    (line,) = noted(town).lines
    assert (line.exercise, line.words) == ("reformer-hundred", "")
    with town.store.reading(SCHOOL.id) as work:
        assert all(b"to be erased" not in event.body for event in work.record.of_subject("enrolment-1-s32"))


def test_the_page_of_the_session_and_the_notice_after_logging_lead_to_its_notes(
    town: Town, trainee, form_token
) -> None:  # noqa: ANN001
    assert PAGE in trainee.get("/hours/sessions/enrolment-1-s32").text
    session = {
        "form_token": form_token(trainee, "/today"), "id": "fresh", "version": "0", "day": "2026-11-24", "start": "06:00",
        "end": "07:00", "host": "host-1", "activity-0": "observation", "apparatus-0": "reformer",
    }  # fmt: skip
    there = trainee.post("/today", data=session).headers["location"]
    assert "/hours/sessions/fresh/notes" in trainee.get(there).text
    assert "/notes" not in trainee.get("/today?logged=enrolment-2-s1").text


def test_the_director_reads_in_the_record_that_notes_were_kept(town: Town, fill) -> None:  # noqa: ANN001
    fill(chosen=HUNDRED)
    assert "Notes of the session of " in town.as_role("director").get("/trainees/enrolment-1/record").text
