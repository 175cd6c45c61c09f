"""Time of drawing twenty parallel lists of twelve from an invented bank of 120, set first and then order."""

import json
import sys
from random import Random
from time import perf_counter

from assessments.practicals.bank import BankExercise
from assessments.practicals.drawing import draw
from assessments.practicals.drawing_specification import drawing_specification
from curriculum.document import node_of

RULES = {
    "tasks": 12,
    "minutes": {"at_least": 40, "at_most": 50},
    "floors": {"family": 1, "level": {"one": 5, "two": 4, "three": 3}},
    "caps": {"family": 2},
    "spots": {"at_least": 2},
    "recently_drawn": {"at_most": 4},
    "overlap": {"at_most": 4},
    "difficulty": {"tolerance": 0.05},
    "transitions": {"apparatus": 45, "springs": 15},
}


def invented_bank(size: int, chance: Random) -> list[BankExercise]:
    """Exercises of ten families, three levels, five apparatus and four settings of springs."""
    return [
        BankExercise(
            f"e{i}",
            chance.gauss(0, 1),
            chance.randint(20, 50) / 10,
            {
                "family": f"f{i % 10}",
                "level": ("one", "two", "three")[i // 10 % 3],
                "apparatus": chance.choice("mrcwb"),
                "springs": chance.choice("0123"),
                "spots": "yes" if chance.random() < 0.3 else "no",
            },
        )
        for i in range(size)
    ]


def measure(lists: int = 20, size: int = 120) -> dict[str, float]:
    """Seconds for all lists, the largest distance of a list's difficulty from the mean, and what is proven."""
    bank = invented_bank(size, Random(1))
    start = perf_counter()
    drawn = draw(bank, drawing_specification(node_of(RULES)), lists, 1)
    seconds = perf_counter() - start
    mean = sum(one.difficulty for one in drawn.lists) / lists
    apart = max(abs(one.difficulty - mean) for one in drawn.lists)
    transition = sum(one.transition_seconds for one in drawn.lists) / lists
    return {"lists": lists, "exercises": size, "seconds": seconds, "difficulty_apart": apart,
            "mean_transition_seconds": transition, "proven": drawn.proven_optimal}  # fmt: skip


if __name__ == "__main__":
    json.dump(measure(), sys.stdout)
