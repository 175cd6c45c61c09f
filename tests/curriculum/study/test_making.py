"""Questions from a small edition against those written by hand, and every answer of the whole edition found in it."""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass

import pytest

from app.files.repertoire import edition_from_folder
from app.settings import ROOT
from curriculum.repertoire.edition import Edition
from curriculum.study.making import questions_of
from curriculum.study.question import Question
from curriculum.study.teaching_questions import ACTIONS
from tests.curriculum.repertoire.cast import edition, exercise

FOLDER = ROOT / "seed_data" / "repertoire" / "classical-2026.1"
FOOTWORK = exercise(
    "footwork",
    aim="Legs that press evenly.",
    spot="yes",
    spotting="At the foot end.",
    set_up={
        "springs": {"count": "3-4", "usual": "4", "lighter": ["A small client."], "heavier": ["A strong client."]},
        "foot_bar": "up",
        "body": "On the back.",
        "checks": ["Bar latched."],
    },
    mount=[{"way": "Sit, then lie down."}],
    cues=[{"say": "Take three to come home.", "phase": "in", "answers": "pulled"}],
    faults=[
        {"id": "pulled", "sees": "The carriage bangs.", "cause": "Springs win.", "correct": "Slow it.", "drill": "half"}
    ],
    regressions=[{"id": "half", "changes": "range", "does": "Half the way.", "mends": ["pulled"]}],
    adaptations=[{"when": "Tight knees", "change": "Bar lower.", "why": "Less bend.", "confirm": "yes"}],
    cautions=[{"code": "knee", "modify": "Less bend.", "instead": "One spring fewer."}],
    transitions=[{"to": "hundred", "seconds": "20", "steps": ["Bar down.", "Straps in the hands."]}],
    confirm=["springs"],
)
SMALL = edition(FOOTWORK, exercise("hundred", confirm=["place"]))


def said(question: Question) -> tuple[str, ...]:
    """Prompt and answers in English, but for what is put in words elsewhere."""
    lines = (question.prompt, *question.answer)
    return tuple(one.sentence.format(**one.values) for one in lines if "set_up" not in one.values)


def asked(id: str) -> Question:
    return next(one for one in questions_of(SMALL) if one.id == id)


@pytest.mark.parametrize(
    ("id", "words"),
    [
        ("next:footwork", ("Reformer: what comes after Footwork?", "Hundred")),
        ("before:hundred", ("Reformer: what comes before Hundred?", "Footwork")),
        (
            "name:footwork",
            ("Reformer: which exercise is this? On the back. Legs that press evenly.", "Footwork"),
        ),
        ("lighter:footwork", ("Footwork: when do you take fewer springs?", "A small client.")),
        ("heavier:footwork", ("Footwork: when do you take more springs?", "A strong client.")),
        ("checks:footwork", ("Footwork: what do you check before the client is on?", "Bar latched.")),
        ("mount:footwork", ("Footwork: how does the client get on?", "Sit, then lie down.")),
        (
            "spot:footwork",
            ("Footwork: is a spot required, and where do you stand?", "A spot is required.", "At the foot end."),
        ),
        (
            "transition:footwork:hundred",
            ("From Footwork on to Hundred: which steps, in order?", "1. Bar down.", "2. Straps in the hands."),
        ),
        (
            "cause:footwork:pulled",
            ("Footwork. You see: “The carriage bangs.” What is the likely cause?", "Springs win."),
        ),
        (
            "correction:footwork:pulled",
            (
                "Footwork. You see: “The carriage bangs.” How do you correct it?",
                "Slow it.",
                "verbal: Take three to come home.",
            ),
        ),
        (
            "mends:footwork:pulled",
            ("Footwork. You see: “The carriage bangs.” Which step back or drill mends it?", "Half the way."),
        ),
        (
            "adapt:footwork:tight-knees",
            ("Footwork. For “Tight knees”: what changes, and why?", "Bar lower.", "Less bend."),
        ),
        (
            "caution:footwork:knee",
            (
                "Footwork. A client tells you of: Knee. What do you do, and what do you say?",
                "Change it until licensed advice says otherwise.",
                "Less bend.",
                "Instead: One spring fewer.",
                "Say: Ask.",
            ),
        ),
    ],
)
def test_a_question_is_what_one_would_write_by_hand(id: str, words: tuple[str, ...]) -> None:
    assert said(asked(id)) == words


def test_set_up_and_tempo_are_answered_with_the_editions_own_values() -> None:
    footwork = SMALL.exercises[0]
    assert [one.values["set_up"] for one in asked("set-up:footwork").answer] == [footwork.set_up]
    assert [one.values["position"] for one in asked("tempo:footwork").answer] == list(footwork.positions)


def test_nothing_is_asked_that_the_edition_does_not_say() -> None:
    assert {one.id for one in questions_of(SMALL) if one.exercise == "hundred"} == {"before:hundred", "tempo:hundred"}


def test_what_is_the_schools_to_confirm_is_marked() -> None:
    marked = {one.id for one in questions_of(SMALL) if one.confirm}
    springs = {"set-up:footwork", "lighter:footwork", "heavier:footwork"}
    assert marked == springs | {"next:footwork", "before:hundred", "adapt:footwork:tight-knees"}


def test_cautions_and_adaptations_carry_the_frame() -> None:
    framed = {one.kind for one in questions_of(SMALL) if one.framed}
    assert framed == {"caution", "adapt"}
    assert all(one.framed for one in questions_of(SMALL) if one.kind in framed)


def test_a_name_is_not_asked_where_the_description_gives_it_away_or_fits_two() -> None:
    body = {"set_up": {"body": "On the back."}, "aim": "Long legs."}
    told = exercise("frog", set_up={"body": "On the back."}, aim="The frog opens.")
    read = edition(exercise("a", **body), exercise("b", **body), told)
    assert [one for one in questions_of(read) if one.kind == "name"] == []


@pytest.fixture(scope="module")
def whole() -> Edition:
    return edition_from_folder(FOLDER)


def texts_in(value: object) -> Iterator[str]:
    """Every text of a value and of what it holds."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, tuple):
        for one in value:
            yield from texts_in(one)
    elif is_dataclass(value):
        for field in fields(value):
            yield from texts_in(getattr(value, field.name))


def test_every_answer_of_the_edition_is_in_the_edition(whole: Edition) -> None:
    """Each text that fills an answer stands in the exercise asked about, in one it leads to, or in the edition's list."""
    shared = set(texts_in((whole.levels, whole.apparatus, whole.cautions)))
    own = {one.id: set(texts_in(one)) for one in whole.exercises}
    names = {one.name for one in whole.exercises}
    required = ("A spot is required.", "A spot is not required.", *ACTIONS.values())
    for question in questions_of(whole):
        exercise = whole.exercise(question.exercise)
        here = own[exercise.id] | shared | (names if question.kind in ("next", "before") else set())
        assert question.answer, question.id
        for line in question.answer:
            if not line.values:
                assert line.sentence in required, question.id
            for name, value in line.values.items():
                if name == "set_up":
                    assert value == exercise.set_up
                elif name == "position":
                    assert value in exercise.positions
                elif name != "number":
                    assert value in here, (question.id, value)


def test_ids_are_one_each_and_there_are_questions_of_many_kinds(whole: Edition) -> None:
    questions = questions_of(whole)
    assert len({one.id for one in questions}) == len(questions)
    assert len({one.kind for one in questions}) == 17
    assert max(len(one.id) for one in questions) <= 200
    assert questions == questions_of(whole)


def test_every_caution_carries_its_frame_and_its_sentence_that_sends_on(whole: Edition) -> None:
    asks = {one.name: one.ask for one in whole.cautions}
    for question in questions_of(whole):
        if question.kind == "caution":
            assert question.framed
            assert asks[question.prompt.values["caution"]] in [one.values.get("text") for one in question.answer]
