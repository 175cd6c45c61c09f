"""Mat and reformer as the edition teaches them, against the common order and what was published on cautions."""

import pytest

from app.files.repertoire import edition_from_folder
from curriculum.repertoire.edition import Edition
from curriculum.repertoire.exercise import Exercise
from tests.seed_data.reformer_order import ORDER
from tests.seed_data.test_repertoire_content import EDITION

# The exercises most taught, in full detail before any other (common practice).
MOST_TAUGHT = """
mat-hundred mat-roll-up mat-one-leg-circle mat-rolling-back mat-one-leg-stretch mat-double-leg-stretch mat-spine-stretch
mat-saw mat-swan-dive mat-teaser
reformer-footwork reformer-coordination reformer-pulling-straps-1 reformer-long-stretch reformer-elephant
reformer-stomach-massage-round reformer-short-box-round reformer-short-box-flat reformer-short-box-side
reformer-short-box-twist reformer-short-spine reformer-knee-stretch-round reformer-knee-stretch-arched reformer-running
reformer-pelvic-lift
""".split()
# Head below the heart by the set-up alone, whatever the movement family says.
HEAD_LOW = ["reformer-elephant", "reformer-up-stretch", "reformer-tendon-stretch", "mat-push-up"]
# Levine, Kaplanek and Jaffe, Clin Orthop Relat Res 2009;467:1468-1475, table 2: mat exercises kept until six months
# after a hip was replaced.
LATE_AFTER_A_HIP = ["mat-rolling-back", "mat-open-leg-rocker", "mat-swan-dive", "mat-neck-pull"]

# What asks for which caution at the least, by movement, place and apparatus (common practice).
ASKS = [
    ("inversion", ("neck", "heart", "vertigo", "epilepsy", "disc")),
    ("flexion", ("disc", "pregnancy")),
    ("extension", ("spinal-stenosis",)),
    ("rotation", ("osteoporosis", "disc", "pregnancy")),
    ("side-bend", ("osteoporosis", "disc", "pregnancy")),
    ("kneeling", ("knee", "pregnancy")),
    ("on-all-fours", ("wrist", "shoulder", "blood-pressure")),
    ("prone", ("pregnancy",)),
    ("inverted", ("pregnancy",)),
    ("standing on the reformer", ("vertigo", "epilepsy", "pregnancy")),
    ("kneeling on the reformer", ("epilepsy",)),
    ("every one", ("recent-surgery", "bone-metastasis")),
]


@pytest.fixture(scope="module")
def edition() -> Edition:
    return edition_from_folder(EDITION)


@pytest.fixture(scope="module")
def mat_and_reformer(edition: Edition) -> tuple[Exercise, ...]:
    return edition.on("mat") + edition.on("reformer")


def test_the_reformer_keeps_the_common_order_of_80(edition: Edition) -> None:
    """Footwork is one exercise with four of the 80 as positions, so 77 stand for them."""
    assert [int(row[0]) for row in ORDER] == list(range(1, 81))
    wanted = list(dict.fromkeys(row[1].partition("#")[0] for row in ORDER))
    assert [one.id for one in edition.on("reformer")] == wanted
    assert [one.id for one in edition.exercise("reformer-footwork").positions] == [
        row[1].partition("#")[2] for row in ORDER if row[1].startswith("reformer-footwork#")
    ]


@pytest.mark.parametrize("row", ORDER, ids=[row[1] for row in ORDER])
def test_springs_bar_box_straps_and_repetitions_are_the_common_ones(edition: Edition, row: list[str]) -> None:
    _, place, springs, bar, box, straps, repetitions = row
    id, _, position = place.partition("#")
    exercise = edition.exercise(id)
    shown = exercise.set_up
    if springs == "all":
        assert shown.springs.every
    else:
        fewest, _, most = springs.partition("-")
        assert shown.springs.fewest <= int(fewest)
        assert int(most or fewest) <= shown.springs.most
        assert int(fewest) <= shown.springs.usual <= int(most or fewest)
    assert bar in (shown.foot_bar, ".")
    assert shown.box == {"-": "none"}.get(box, box)
    assert straps == "." or shown.straps == {"-": "none"}.get(straps, straps)
    said = next(one for one in exercise.positions if position in ("", one.id)).repetitions
    fewest, _, most = repetitions.partition("-")
    assert (said.fewest, said.most) == (int(fewest), int(most or fewest))


def test_stomach_massage_drops_a_spring_at_a_time(edition: Edition) -> None:
    """One spring off as the carriage closes, four, three, two (a studio's published description of the transition)."""
    series = edition.in_series("reformer-stomach-massage")
    assert [one.set_up.springs.usual for one in series] == [4, 3, 2, 2]


def test_every_exercise_says_what_a_lesson_needs_first(mat_and_reformer: tuple[Exercise, ...]) -> None:
    assert len(mat_and_reformer) == 34 + 77
    for one in mat_and_reformer:
        assert all((one.aim, one.set_up.body, one.set_up.posture, one.cautions)), one.id
        assert len(one.cues) >= 3 or one.in_detail, one.id
        assert "repetitions" in one.confirm, one.id
        assert one.spotting or not one.spot, one.id
        assert one.apparatus == "mat" or one.set_up.springs.resist, one.id


def test_forty_five_are_in_full_with_every_part(edition: Edition, mat_and_reformer: tuple[Exercise, ...]) -> None:
    full = [one for one in mat_and_reformer if one.in_detail and _every_part(one)]
    assert len(full) >= 45
    for one in [*map(edition.exercise, MOST_TAUGHT), *(one for one in mat_and_reformer if one.level == "basic")]:
        assert one in full, one.id


def test_cautions_of_the_head_below_the_heart(edition: Edition, mat_and_reformer: tuple[Exercise, ...]) -> None:
    """Jasien, Jonas, de Moraes and Ritch, PLoS ONE 2015;10:e0144505: head-down places raised the pressure in the eye
    within a minute; that blood pressure and pregnancy go with it is common practice."""
    inverted = [one for one in mat_and_reformer if "inversion" in one.families]
    assert len(inverted) > 12
    for one in [*inverted, *map(edition.exercise, HEAD_LOW)]:
        assert all(map(one.caution, ("glaucoma", "blood-pressure", "pregnancy"))), one.id


def test_bending_the_trunk_and_standing_on_the_neck_ask_about_the_bones(
    mat_and_reformer: tuple[Exercise, ...],
) -> None:
    """Sinaki and Mikkelsen, Arch Phys Med Rehabil 1984;65:593-596: more new fractures after flexion programmes."""
    for one in mat_and_reformer:
        if {"flexion", "inversion"} & set(one.families):
            assert one.caution("osteoporosis"), one.id


@pytest.mark.parametrize("exercise", LATE_AFTER_A_HIP)
def test_what_is_late_after_a_new_hip_asks_the_surgeon(edition: Edition, exercise: str) -> None:
    assert edition.exercise(exercise).caution("hip-replacement")


@pytest.mark.parametrize(("what", "codes"), ASKS, ids=[what for what, _ in ASKS])
def test_what_is_done_asks_for_its_cautions(
    mat_and_reformer: tuple[Exercise, ...], what: str, codes: tuple[str, ...]
) -> None:
    """Common practice: an exercise asks at the least for what its movement, its place and its apparatus ask."""
    asked = [one for one in mat_and_reformer if what in _asking(one)]
    assert asked
    assert [(one.id, code) for one in asked for code in codes if not one.caution(code)] == []


def test_a_way_to_the_next_exercise_never_changes_springs_under_load(mat_and_reformer: tuple[Exercise, ...]) -> None:
    """Common practice: the carriage is home before a spring or the bar is touched; off a carriage that is fixed by all
    of its springs the client steps down first."""
    for one in mat_and_reformer:
        for way in one.transitions:
            steps = " ".join(way.steps).lower()
            touched = [steps.find(word) for word in ("springs ", "spring off", "bar down", "bar up") if word in steps]
            if one.apparatus == "reformer" and touched and steps.find("springs stay") != min(touched):
                at_rest = "client to the floor" if one.set_up.springs.every else "carriage home"
                assert 0 <= steps.find(at_rest) < min(touched), (one.id, way.to)


def _every_part(one: Exercise) -> bool:
    parts = (one.mount, one.dismount, one.regressions, one.progressions, one.cautions, one.adaptations, one.transitions)
    return all(parts)


def _asking(one: Exercise) -> tuple[str, ...]:
    place = one.set_up.posture
    return (*one.families, place, f"{place} on the {one.apparatus}", "every one")
