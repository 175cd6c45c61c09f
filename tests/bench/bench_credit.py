"""Time of a standing against the bare solver on the same models."""

import sys
from datetime import date, timedelta
from pathlib import Path
from random import Random
from time import perf_counter

from app.files.requirements import requirements_from_file
from assessments.hours.assessing import Assessment
from assessments.hours.clauses import Clauses
from assessments.hours.entry import Entry, Facts
from assessments.hours.linear import ones
from assessments.hours.solver import Solver
from curriculum.requirements.requirement_set import RequirementSet

MOST_TIMES_THE_BARE_SOLVER = 3.0
SET = Path(__file__).parents[2] / "seed_data/requirements/comprehensive.yaml"
FACTS = Facts()
AS_OF = date(2026, 11, 25)


def measure(trainees: int = 1000, entries: int = 500) -> dict[str, float]:
    """Seconds of the whole assessment, of one bare solver call on each model it solves, and their ratio."""
    requirements = requirements_from_file(SET)
    ours = bare = 0.0
    for number in range(trainees):
        log = invented_log(requirements, entries, Random(number))
        start = perf_counter()
        found = Assessment(Clauses(requirements), log, FACTS, AS_OF, None)
        ours += perf_counter() - start
        for model in (found.model,):
            solver = Solver(model.program)
            start = perf_counter()
            solver.least(ones(column for columns in model.further.values() for column in columns))
            bare += perf_counter() - start
    ratio = ours / bare
    return {"trainees": trainees, "entries": entries, "seconds": ours, "bare_solver_seconds": bare, "ratio": ratio,
            "limit": MOST_TIMES_THE_BARE_SOLVER}  # fmt: skip


def invented_log(requirements: RequirementSet, entries: int, chance: Random) -> tuple[Entry, ...]:
    """Invented entries over seventeen months, in every category of the set."""
    return tuple(_entry(requirements, number, chance) for number in range(entries))


def _entry(requirements: RequirementSet, number: int, chance: Random) -> Entry:
    category = chance.choice(requirements.categories)
    fields = {
        "activity": category.accepts["activity"],
        "mode": (chance.choice(("live", "live_remote", "recorded")),),
        "apparatus": (chance.choice(("mat", "reformer", "trapeze_table", "chair", "barrels")),),
        "host": (f"host-{chance.randrange(20)}",),
        "client": (f"client-{chance.randrange(80)}",),
        "client_stage": (chance.choice(("beginner", "intermediate")),),
    }
    day = AS_OF - timedelta(days=chance.randrange(510))
    return Entry(
        f"{number:05}",
        day,
        chance.choice((45, 50, 55, 60, 75, 90)),
        category.counts[0],
        fields,
    )


if __name__ == "__main__":
    print(measure(*(int(word) for word in sys.argv[1:3])))
