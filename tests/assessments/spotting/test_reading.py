"""Lessons are read, every fault is named with its line, and an order is the same for ever."""

from hashlib import sha256

import pytest

from app.files.spotting import spotting_from_text
from app.settings import ROOT
from assessments.spotting.order import shuffled
from curriculum.faults import RefusedError

FILE = ROOT / "seed_data" / "spotting" / "lessons.yaml"
MOMENT = "      - {{id: {id}, client: Rolls up., teacher: Counts., {holds}}}\n"
FAULT = "fault: {what: A jerk., why: It jerks., weight: form, say: Slowly.}"
HEAD = "title: Lessons\nframe: Invented.\nedition: '1'\nlessons:\n  - id: one\n    title: One\n    setting: A client.\n    moments:\n"


def written(*moments: tuple[str, str]) -> str:
    return HEAD + "".join(MOMENT.format(id=id, holds=holds) for id, holds in moments)


GOOD = [("a", FAULT), ("b", FAULT), ("c", "sound: Fine."), ("d", "sound: Fine.")]


def faults_of(text: str) -> list[str]:
    with pytest.raises(RefusedError) as refused:
        spotting_from_text(text, "lessons.yaml")
    return [str(fault) for fault in refused.value.faults]


def test_a_lesson_is_read() -> None:
    made = spotting_from_text(written(*GOOD), "lessons.yaml")
    (lesson,) = made.lessons
    assert (made.examiners, lesson.planted, len(lesson.moments)) == ("panel", 2, 4)
    assert lesson.moment("a").fault.say == "Slowly."
    assert lesson.moment("c").sound == "Fine."


def test_the_lessons_of_the_demo_hold_about_half_planted_and_every_kind() -> None:
    lessons = spotting_from_text(FILE.read_text(encoding="utf-8"), FILE.name).lessons
    assert len(lessons) >= 4
    for lesson in lessons:
        assert 10 <= len(lesson.moments) <= 12
        assert abs(2 * lesson.planted - len(lesson.moments)) <= 2
        assert {one.fault.weight for one in lesson.moments if one.fault} == {"safety", "form", "rhythm"}


@pytest.mark.parametrize(
    ("moments", "said"),
    [
        ([("a", FAULT), *GOOD], "lessons.yaml:10: lessons[0].moments[1].id: “a” stands twice"),
        ([*GOOD[:3]], "lessons.yaml:9: lessons[0].moments: needs at least 2 moments with a fault and 2 sound ones"),
        ([("x", f"{FAULT}, sound: Fine."), *GOOD], "lessons.yaml:9: lessons[0].moments[0].fault: says either"),
        ([("x", "sound: ''"), *GOOD], "lessons.yaml:9: lessons[0].moments[0].id: says either"),
        ([("x", FAULT.replace("form", "style")), *GOOD], "“style” is not one of: safety, form, rhythm"),
        ([("x", FAULT.replace("why: It jerks., ", "")), *GOOD], "lessons[0].moments[0].fault.why: is missing"),
        ([("x", "sound: Fine., colour: red"), *GOOD], "moments[0].colour: is not a field here"),
    ],
)
def test_what_is_wrong_is_named_with_its_line(moments: list, said: str) -> None:
    assert any(said in fault for fault in faults_of(written(*moments))), faults_of(written(*moments))


def test_every_fault_is_told_at_once() -> None:
    text = written(*GOOD).replace("title: One", "colour: red").replace("'1'", "'1'\nexaminers: all")
    assert len(faults_of(text)) == 3


def test_a_lesson_id_stands_once_and_sixty_moments_are_enough() -> None:
    twice = written(*GOOD) + written(*GOOD).partition("lessons:\n")[2]
    assert any("“one” stands twice" in fault for fault in faults_of(twice))
    long = written(*((f"m{number}", FAULT if number % 2 else "sound: Fine.") for number in range(61)))
    assert any("has more than 60 moments" in fault for fault in faults_of(long))


def test_the_order_is_the_seeds_alone() -> None:
    """By hand from SHA-256, so that an order kept today is the same on another machine."""
    moments = spotting_from_text(written(*GOOD), "x").lessons[0].moments
    by_hand = sorted("abcd", key=lambda id: sha256(f"seed:{id}".encode()).hexdigest())
    assert [one.id for one in shuffled(moments, "seed")] == by_hand
    assert [one.id for one in shuffled(moments[::-1], "seed")] == by_hand
    assert len({tuple(one.id for one in shuffled(moments, str(number))) for number in range(200)}) == 24
