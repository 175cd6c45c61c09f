"""Sheets kept and sent by two examiners of an invented exam, scored by the demo school's basic practical."""

from datetime import date
from pathlib import Path

import pytest

from app.files.practicals import practical_from_file
from app.queries.exam_facts import visible_sheets
from app.storage.editions import Edition
from app.storage.exams import Exam
from app.storage.people import Person
from app.use_cases.asker import Asker
from app.use_cases.exams import keep_sheet, own_exam, send_sheet
from assessments.practicals.sheets import Grade, Mark, Sheet
from curriculum.faults import ConflictError, NotFoundError, RefusedError
from tests.app.conftest import HALDEN
from tests.app.storage.cast import enrol

BASIC = Path(__file__).parents[3] / "seed_data" / "practicals" / "basic.yaml"
PRACTICAL = practical_from_file(BASIC)
EMPTY = Sheet("exam", "", PRACTICAL.id, PRACTICAL.edition)


@pytest.fixture
def exam(store, now):
    with store.writing("halden") as work:
        enrol(work, now)
        work.people.add(Person("cy", "Cy Dal", "cy@halden.example", "hash"), frozenset({"examiner"}), now)
        work.editions.add(Edition("basic", "practical", "Basic", "2", {"basic.yaml": BASIC.read_text()}, now))
        work.exams.add(Exam("exam", "enrolment", "basic", date(2026, 3, 1), 600), ("bo", "cy"))
        work.commit()
    return store


def asker(now, person="bo"):
    return Asker(HALDEN, person, person, now)


def full():
    marks = tuple(Mark(one.block, one.criterion, one.scale.highest) for one in PRACTICAL.cells())
    grades = tuple(Grade(block, 2) for block in sorted({one.block for one in PRACTICAL.cells()}))
    return Sheet("exam", "", PRACTICAL.id, PRACTICAL.edition, marks=marks, grades=grades)


def seen(store, person):
    with store.reading("halden") as work:
        return [one.examiner for one in visible_sheets(work, "exam", person)]


def test_an_unfinished_sheet_is_kept_but_not_sent_and_every_gap_is_named(exam, now):
    keep_sheet(exam, asker(now), "exam", EMPTY)
    with pytest.raises(RefusedError) as refusal:
        send_sheet(exam, asker(now), "exam", EMPTY)
    assert [one.code for one in refusal.value.faults] == ["gap"] * len(PRACTICAL.cells())
    assert seen(exam, "bo") == []


def test_nobody_sees_the_others_sheet_before_both_are_sent(exam, now):
    send_sheet(exam, asker(now, "cy"), "exam", full())
    assert (seen(exam, "bo"), seen(exam, "cy")) == ([], ["cy"])
    send_sheet(exam, asker(now, "bo"), "exam", full())
    assert (seen(exam, "bo"), seen(exam, "cy")) == (["bo", "cy"], ["bo", "cy"])


@pytest.mark.parametrize("act", [keep_sheet, send_sheet])
def test_a_sent_sheet_does_not_change(exam, now, act):
    send_sheet(exam, asker(now), "exam", full())
    with pytest.raises(ConflictError):
        act(exam, asker(now), "exam", full())


@pytest.mark.parametrize("act", [keep_sheet, send_sheet])
def test_only_the_exams_examiners_score_it(exam, now, act):
    with pytest.raises(NotFoundError):
        act(exam, asker(now, "ada"), "exam", full())
    with exam.reading("halden") as work, pytest.raises(NotFoundError):
        own_exam(work, "another", "bo")
