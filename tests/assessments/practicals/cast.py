"""Small practicals and sheets that the tests of this folder share."""

from fractions import Fraction

from assessments.practicals.reading import read_practical
from assessments.practicals.sheets import Grade, Mark, Sheet, SheetState
from assessments.practicals.specification import Practical
from curriculum.document import node_of


def levels(lowest: int, highest: int) -> dict:
    return {str(level): f"behaviour {level}" for level in range(lowest, highest + 1)}


def document(parts: dict, criteria: dict, lowest=1, highest=4, best="highest", **more) -> dict:
    """A practical's document: `parts` and `criteria` map ids to weights, or to fields."""
    scale = {"lowest": lowest, "highest": highest, "best": best}

    def fields(given):
        return given if isinstance(given, dict) else {"weight": given}

    return {
        "id": "p",
        "title": "P",
        "edition": "1",
        "scale": scale,
        "cut": {"at": 75, "how": "set for a test"},
        "band": {"marks": 0},
        "parts": [{"id": id, "title": id, "kind": "drawn", "minutes": 8, **fields(one)} for id, one in parts.items()],
        "criteria": [
            {"id": id, "title": id, "levels": levels(lowest, highest), **fields(one)} for id, one in criteria.items()
        ],
        "critical_faults": [
            {"code": "spring", "sentence": "Springs not checked"},
            {"code": "spot", "sentence": "No spot"},
        ],
        **more,
    }


def practical(parts: dict, criteria: dict, **more) -> Practical:
    return read_practical(node_of(document(parts, criteria, **more)))


def sheet(practical: Practical, examiner: str, marks: dict, **more) -> Sheet:
    """A sent sheet; `marks` maps (block, criterion) to a level, or to a Mark's `left_out`."""
    made = tuple(
        Mark(block, criterion, level=Fraction(str(value)))
        if isinstance(value, (int, float, Fraction))
        else Mark(block, criterion, left_out=value)
        for (block, criterion), value in marks.items()
    )
    grades = tuple(Grade(block, 2) for block in sorted({block for block, _ in marks}))
    given = {"state": SheetState.SENT, "grades": grades, **more}
    return Sheet("exam", examiner, practical.id, practical.edition, marks=made, **given)


def level_sheet(practical: Practical, examiner: str, level, **more) -> Sheet:
    """A sent sheet with the same level everywhere."""
    return sheet(
        practical,
        examiner,
        {(cell.block, cell.criterion): level for cell in practical.cells()},
        **more,
    )
