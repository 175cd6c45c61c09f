"""Chair, trapeze table and barrels of the edition against one lineage's lists (common practice, from memory of them).

What a published page or manual tells as well is named at its test. Safety follows what the trade agrees on: no spring from
below without the safety strap, a spot wherever somebody hangs or stands upside down.
"""

import re
from pathlib import Path

import pytest

from app.files.repertoire import edition_from_folder
from curriculum.repertoire.edition import Edition
from curriculum.repertoire.exercise import Exercise

EDITION = Path(__file__).parents[2] / "seed_data" / "repertoire" / "classical-2026.1"
ORDER = {
    "chair": (
        "toes, arches, heels, parallel, single-leg pump, push down, push down with pumps, push down one arm, "
        "push down from behind, pull up, pull up one arm, twist, swan on top, one-arm swan, swan from the floor, "
        "side stretch, side arm, triceps, teaser on the floor, teaser on the chair, press-up, push-up hands, "
        "push-up feet, going up front, going up side, step down, standing single-leg pump, standing pump side, frog, "
        "single-leg press, tendon stretch, horseback, table top, jack knife, cat, balance control"
    ),
    "trapeze-table": (
        "roll back, roll back one arm, rolling stomach massage, breathing, chest expansion, thigh stretch, short box, "
        "push-through, circle and saw, reverse push-through, tower, monkey, parakeet, teaser, swan, cat, mermaid, "
        "footwork, leg springs, dolphin, side-lying, magician, arm springs, flying eagle, standing, half hang, "
        "full hang, hanging back, spread eagle, walk-over, ballet stretches, shoulder roll-down"
    ),
    "ladder-barrel": (
        "front, front bent knee, side, back, swan 1, swan 2, grasshopper, horseback, round, flat, side to side, twist, "
        "tree, side stretch, side sit-ups, back stretch, overhead, jack knife, walk-over, handstand, thigh stretch, "
        "roll-over"
    ),
    "spine-corrector": (
        "reach, roll-down, sit-ups, side stretch, side sit-ups, swan, swimming, grasshopper, rocking, teaser, "
        "hip circles, leg circles, scissors, walking, bicycle, beats, helicopter, rolling in and out, roll-over, "
        "corkscrew, tick tock, low bridge, high bridge, balance control, shoulder bridge, thigh stretch"
    ),
}
OVERTURNED = {"inverted", "hanging"}
HEAD_DOWN_CODES = {"glaucoma", "blood-pressure", "heart", "pregnancy", "neck", "vertigo", "epilepsy", "recent-surgery"}
UNCERTAIN = {"place", "repetitions"}


@pytest.fixture(scope="module")
def edition() -> Edition:
    return edition_from_folder(EDITION)


@pytest.fixture(scope="module")
def written(edition: Edition) -> tuple[Exercise, ...]:
    return tuple(one for apparatus in ORDER for one in edition.on(apparatus))


def _bare(text: str) -> list[str]:
    return re.findall(r"[a-z0-9-]+", text.lower())


@pytest.mark.parametrize(
    ("apparatus", "number"), [("chair", 36), ("trapeze-table", 32), ("ladder-barrel", 22), ("spine-corrector", 26)]
)
def test_each_apparatus_holds_its_exercises_in_order(edition: Edition, apparatus: str, number: int) -> None:
    expected = [_bare(words) for words in ORDER[apparatus].split(", ")]
    found = [_bare(one.name) for one in edition.on(apparatus)]
    assert len(expected) == len(found) == number
    assert [words for words, name in zip(expected, found, strict=True) if not set(words) <= set(name)] == []


def test_every_basic_exercise_is_written_in_detail(written: tuple[Exercise, ...]) -> None:
    basic = [one for one in written if one.level == "basic"]
    assert len(basic) >= 15
    assert [one.id for one in basic if not one.in_detail] == []
    lacking = [
        one.id
        for one in basic
        if not all((one.mount, one.dismount, one.regressions, one.progressions, one.adaptations, one.transitions))
    ]
    assert lacking == []


@pytest.mark.parametrize("id", ["table-roll-back", "chair-pump-toes", "barrel-swan"])
def test_the_most_taught_ones_are_written_whole(edition: Edition, id: str) -> None:
    one = edition.exercise(id)
    kinds = {cue.kind for cue in one.cues}
    assert {"verbal", "tactile", "imagery"} <= kinds
    assert len(one.faults) >= 4
    assert all(one.cues_for(fault.id) or one.steps_for(fault.id) or fault.weight == "form" for fault in one.faults)


def test_everything_has_a_body_an_aim_cautions_and_what_the_school_confirms(written: tuple[Exercise, ...]) -> None:
    bare = [one.id for one in written if not (one.set_up.body and one.aim and one.cautions and one.set_up.checks)]
    assert bare == []
    assert [one.id for one in written if not set(one.confirm) >= UNCERTAIN] == ["table-breathing"]


def test_whatever_is_sprung_says_what_springs_resist_and_assist_and_when_to_change_them(
    written: tuple[Exercise, ...],
) -> None:
    sprung = [one for one in written if one.apparatus == "chair" or one.set_up.hang not in (None, "none", "loops")]
    springs = {one.id: one.set_up.springs for one in sprung}
    assert len(springs) == 36 + 25
    assert [id for id, one in springs.items() if not (one and one.resist and one.assist)] == []
    assert [id for id, one in springs.items() if not (one.lighter and one.heavier)] == []
    assert [one.id for one in sprung if not one.set_up.attachment] == []
    assert [one.id for one in sprung if "springs" not in one.confirm] == []


def test_a_push_through_bar_sprung_from_below_has_its_safety_strap_on(written: tuple[Exercise, ...]) -> None:
    bars = [one for one in written if one.set_up.hang == "push-through-bar"]
    below = [one for one in bars if one.set_up.attachment == "bottom"]
    assert [one.name for one in below] == ["Tower", "Monkey", "Parakeet", "Footwork on the bar"]
    assert {one.set_up.safety_strap for one in below} == {"on"}
    assert all("strap" in " ".join(one.set_up.checks).lower() for one in bars)
    assert [one.id for one in bars if one not in below and "safety_strap" not in one.confirm] == []


def test_who_hangs_or_goes_upside_down_is_spotted_and_cautioned(written: tuple[Exercise, ...]) -> None:
    overturned = [one for one in written if one.set_up.posture in OVERTURNED]
    assert len(overturned) >= 20
    assert [one.id for one in overturned if not (one.spot and one.spotting)] == []
    lacking = {one.id: HEAD_DOWN_CODES - {caution.code for caution in one.cautions} for one in overturned}
    assert {id: codes for id, codes in lacking.items() if codes} == {}


def test_no_caution_counts_weeks_or_calls_anything_suitable(written: tuple[Exercise, ...]) -> None:
    said = [f"{one.text} {one.instead}" for exercise in written for one in exercise.cautions]
    assert [
        text for text in said if re.search(r"\bweeks?\b|\bmonths?\b|suitable|\bsafe\b|\bnone\b", text.lower())
    ] == []


def test_push_downs_take_one_middle_spring_and_three_repetitions(edition: Edition) -> None:
    """A studio's page on the standing push down tells a middle spring and three repetitions; common practice is 3 to 5."""
    one = edition.exercise("chair-push-down")
    assert (one.set_up.springs.usual, one.set_up.attachment) == (1, "middle")
    assert one.positions[0].repetitions.fewest == 3


def test_breathing_lifts_in_one_holds_five_and_returns_in_five(edition: Edition) -> None:
    """The manual of a trapeze table's maker: roll-down bar, feet in the trapeze; 1, 5 and 5 counts, 3 to 5 times."""
    one = edition.exercise("table-breathing")
    assert one.set_up.hang == "roll-bar-and-trapeze"
    assert [phase.counts for phase in one.positions[0].tempo.bouts[0].phases] == [1, 5, 5]
    assert one.seconds == 5 * 11


@pytest.mark.parametrize("id", ["corrector-scissors", "corrector-helicopter"])
def test_scissors_and_helicopter_go_five_times_for_each_leg(edition: Edition, id: str) -> None:
    """A studio's page on the spine corrector tells five for each leg."""
    assert str(edition.exercise(id).positions[0].repetitions) == "5 each leg"
