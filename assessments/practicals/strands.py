"""What the sheets of an exam say of each strand of the competency statements, part by part."""

from fractions import Fraction

from assessments.practicals.scoring import score
from assessments.practicals.sheets import Sheet
from assessments.practicals.specification import HUNDRED, Practical
from curriculum.competencies.evidence import ScoredStrand
from curriculum.competencies.statements import STRANDS


def strand_scores(practical: Practical, sheets: tuple[Sheet, ...]) -> dict[str, tuple[ScoredStrand, ...]]:
    """By part: the weighted share (0 to 1) of each strand's criteria on the part's blocks, against the mark to reach.

    Give it the standing sheets. A strand that nobody scored, or that no criterion of the part speaks for, is left out.
    """
    cells = [one for one in score(practical, sheets).cells if one.share is not None]
    found = {}
    for part in practical.parts:
        scored = []
        for strand in STRANDS:
            own = [
                one
                for one in cells
                if one.cell.part == part.id and strand in practical.criterion(one.cell.criterion).strands
            ]
            weight = sum((one.cell.weight for one in own), Fraction(0))
            if weight:
                share = sum((one.share * one.cell.weight for one in own), Fraction(0)) / weight
                scored.append(ScoredStrand(strand, share, share * HUNDRED >= practical.cut.at))
        found[part.id] = tuple(scored)
    return found
