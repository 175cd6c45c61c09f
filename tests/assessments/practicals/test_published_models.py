"""Results worked by hand against pass rules that schools and councils publish.

The rules are facts from published exam handbooks as gathered in the trade notes (pass marks, floors,
critical elements); the marks of the candidates are ours.
"""

from fractions import Fraction

from assessments.practicals.result import Recommendation, result
from assessments.practicals.sheets import CriticalSighting
from tests.assessments.practicals.cast import level_sheet, practical, sheet

APPARATUS = {"reformer": 40, "table": 30, "chair": 30}


def ten_point(**more):
    """8 of 10 on each apparatus, each on its own; only the one below is tested again."""
    parts = {id: {"weight": weight, "floor_level": 8} for id, weight in APPARATUS.items()}
    return practical(
        parts,
        {"teaching": 100},
        lowest=0,
        highest=10,
        cut={"at": 80, "how": "8 of 10"},
        **more,
    )


def taught(made, examiner, *marks):
    return sheet(
        made,
        examiner,
        {(id, "teaching"): mark for id, mark in zip(APPARATUS, marks, strict=True)},
    )


def test_eight_of_ten_on_every_apparatus_passes():
    made = ten_point()
    found = result(made, (taught(made, "a", 8, 8, 8), taught(made, "b", 8, 8, 8)))
    assert (found.recommendation, found.scores.total) == (Recommendation.PASS, 80)


def test_one_apparatus_below_eight_is_taught_again_alone():
    made = ten_point()
    found = result(made, (taught(made, "a", 10, 9, 7), taught(made, "b", 10, 9, 8)))
    # By hand: 0.4 x 100 + 0.3 x 90 + 0.3 x 75 = 89.5; the chair stands at 75, below 80.
    assert found.scores.total == Fraction("89.5")
    assert (found.recommendation, found.refer_parts) == (
        Recommendation.REFER,
        ("chair",),
    )


def skills(safety: int, skill: int, examiners=2):
    """Safety 100 % and skill 77 %: levels on a scale of 0 to 100 so that marks are per cent."""
    groups = [
        {"id": "safety", "title": "Safety", "criteria": ["s"], "floor": 100},
        {"id": "skill", "title": "Skill", "criteria": ["k"], "floor": 77},
    ]
    scale = {"lowest": 0, "highest": 50}
    criteria = {"s": 50, "k": 50}
    made = practical({"one": 100}, criteria, groups=groups, cut={"at": 77, "how": "fixed"}, **scale)
    marks = {("one", "s"): safety, ("one", "k"): skill}
    return result(made, (sheet(made, "a", marks), sheet(made, "b", marks)))


def test_safety_complete_and_skill_at_77_or_more_passes():
    assert skills(50, 39).recommendation is Recommendation.PASS  # 39 of 50 is 78 %


def test_skill_at_76_fails_although_the_total_is_88():
    found = skills(50, 38)
    assert (found.scores.total, found.recommendation) == (88, Recommendation.FAIL)


def test_one_safety_point_missing_fails_although_the_total_is_99():
    found = skills(49, 50)
    assert (found.scores.total, found.recommendation) == (99, Recommendation.FAIL)


def test_eighty_per_cent_of_each_component_is_asked_for_apart():
    parts = {
        "written": {"weight": 20, "floor": 80},
        "taught": {"weight": 80, "floor": 80},
    }
    made = practical(parts, {"c": 100}, lowest=0, highest=10, cut={"at": 80, "how": "fixed"})
    marks = {("written", "c"): 7, ("taught", "c"): 9}
    found = result(made, (sheet(made, "a", marks), sheet(made, "b", marks)))
    assert (found.scores.total, found.refer_parts) == (86, ("written",))


def reversed_scale(level):
    """1.0 is best, 5.0 worst; 3.0 or better passes."""
    half_steps = {"lowest": 1, "highest": 5, "step": "0.5", "best": "lowest"}
    sentences = {str(1 + place / 2): "behaviour" for place in range(9)}
    criteria = {"c": {"weight": 100, "levels": sentences}}
    made = practical({"one": 100}, criteria, scale=half_steps, cut={"at_level": 3, "how": "3.0"})
    return result(made, (level_sheet(made, "a", level), level_sheet(made, "b", level))).recommendation


def test_on_a_reversed_scale_three_passes_and_three_and_a_half_does_not():
    assert (reversed_scale(3), reversed_scale(3.5)) == (
        Recommendation.PASS,
        Recommendation.FAIL,
    )


def test_full_marks_with_a_critical_element_missed_fails():
    made = ten_point()
    seen = (CriticalSighting("spring", 60, "spring changed while loaded"),)
    both = tuple(level_sheet(made, name, 10, critical=seen) for name in "ab")
    found = result(made, both)
    assert (found.scores.total, found.recommendation) == (100, Recommendation.FAIL)


def test_eighty_per_cent_and_every_critical_element_passes():
    made = practical({"one": 100}, {"c": 100}, lowest=0, highest=5, cut={"at": 80, "how": "fixed"})
    assert result(made, (level_sheet(made, "a", 4), level_sheet(made, "b", 4))).recommendation is Recommendation.PASS
