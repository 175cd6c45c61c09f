"""Shares of the strands of a practical, worked by hand."""

from fractions import Fraction

from assessments.practicals.scoring import score
from assessments.practicals.sheets import LeftOut, Mark, Sheet
from assessments.practicals.specification import Block, Criterion, CutScore, Part, Practical, Scale
from assessments.practicals.strands import strand_scores
from curriculum.competencies.evidence import ScoredStrand

FOUR = Scale(Fraction(1), Fraction(4))


def criterion(id: str, weight: int, *strands: str) -> Criterion:
    return Criterion(id, id, Fraction(weight), FOUR, (), strands=strands)


PRACTICAL = Practical(
    "p", "P", "1",
    (
        Part("x", "X", "one-to-one", Fraction(60), (Block("x1", "X1", 5, Fraction(50)), Block("x2", "X2", 5, Fraction(50))),
             ("A", "B", "C")),
        Part("y", "Y", "drawn", Fraction(40), (Block("y1", "Y1", 5),), ("A",)),
    ),
    (criterion("A", 20, "set-up"), criterion("B", 60, "cue"), criterion("C", 20, "cue")),
    CutScore(Fraction(60)),
)  # fmt: skip


def sheet(**levels: int | None) -> Sheet:
    marks = [
        Mark(block, criterion, None if level is None else Fraction(level), LeftOut.NOT_SEEN if level is None else None)
        for name, level in levels.items()
        for block, criterion in [name.split("_")]
    ]
    return Sheet("e", "piet", "p", "1", marks=tuple(marks))


def test_a_strand_is_the_weighted_share_of_its_criteria_in_the_part():
    """Cue in x: B (60) at 4 and 4 is 1, C (20) at 1 and 1 is 0: 60 / 80 = 3/4. Set up: levels 2 and 3: (1/3 + 2/3) / 2."""
    found = strand_scores(PRACTICAL, (sheet(x1_A=2, x2_A=3, x1_B=4, x2_B=4, x1_C=1, x2_C=1, y1_A=4),))
    assert found["x"] == (ScoredStrand("set-up", Fraction(1, 2), False), ScoredStrand("cue", Fraction(3, 4), True))
    assert found["y"] == (ScoredStrand("set-up", Fraction(1), True),)


def test_what_nobody_scored_leaves_the_strand_out():
    """With C left out the cue is B alone; with A left out in y there is nothing to say of y."""
    found = strand_scores(PRACTICAL, (sheet(x1_A=2, x2_A=3, x1_B=4, x2_B=1, x1_C=None, x2_C=None, y1_A=None),))
    assert found["x"][1] == ScoredStrand("cue", Fraction(1, 2), False)
    assert found["y"] == ()


def test_with_one_strand_over_everything_the_share_is_the_parts_own_score():
    """A second way: the part's average as the whole result computes it."""
    one = (sheet(y1_A=3),)
    (scored,) = strand_scores(PRACTICAL, one)["y"]
    part = next(some for some in score(PRACTICAL, one).parts if some.id == "y")
    assert scored.share * 100 == part.per_cent
