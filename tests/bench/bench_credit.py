"""Time of a standing against the bare solver on the same models."""

import sys
from datetime import date, timedelta
from pathlib import Path
from random import Random
from time import perf_counter

import highspy
import numpy as np

from app.files.requirements import requirements_from_file
from assessments.hours.assessing import Assessment, assess
from assessments.hours.clauses import Clauses
from assessments.hours.entry import Entry, Facts
from assessments.hours.model import Model
from assessments.hours.solver import model_of
from curriculum.requirements.requirement_set import RequirementSet

MOST_TIMES_THE_BARE_SOLVER = 3.0
SET = Path(__file__).parents[2] / "seed_data/requirements/comprehensive.yaml"
FACTS = Facts()
AS_OF = date(2026, 11, 25)


def measure(trainees: int = 1000, entries: int = 500) -> dict[str, float]:
    """Seconds of the whole standing, of one bare solver call on the same program, and their ratio.

    The bare call hands the finished program to HiGHS and asks for the least further time, whole numbers included; the
    standing reads the log, builds that program, solves every objective, and says why each minute counts or does not.
    """
    requirements = requirements_from_file(SET)
    ours = bare = 0.0
    for number in range(trainees):
        log = invented_log(requirements, entries, Random(number))
        start = perf_counter()
        standing = assess(requirements, log, FACTS, as_of=AS_OF)
        ours += perf_counter() - start
        model = Assessment(Clauses(requirements), sorted_log(log), FACTS, AS_OF, None).model
        program = program_with_least_further(model)
        start = perf_counter()
        least = bare_call(program)
        bare += perf_counter() - start
        assert abs(least - standing.further_minutes) <= 1
    ratio = ours / bare
    return {"trainees": trainees, "entries": entries, "milliseconds_each": 1000 * ours / trainees,
            "bare_solver_milliseconds_each": 1000 * bare / trainees, "ratio": ratio,
            "limit": MOST_TIMES_THE_BARE_SOLVER}  # fmt: skip


def program_with_least_further(model: Model) -> "highspy.HighsLp":
    """The program with its whole numbers and its first objective."""
    lp = model_of(model.program)
    kinds = (highspy.HighsVarType.kContinuous, highspy.HighsVarType.kInteger)
    lp.integrality_ = [kinds[one] for one in model.program.whole]
    costs = np.zeros(lp.num_col_)
    costs[[column for columns in model.further.values() for column in columns]] = 1.0
    lp.col_cost_ = costs
    return lp


def bare_call(program: "highspy.HighsLp") -> float:
    """One call of HiGHS as it comes, on one thread."""
    solver = highspy.Highs.__base__()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)
    solver.passModel(program)
    solver.run()
    return solver.getInfo().objective_function_value


def sorted_log(log: tuple[Entry, ...]) -> tuple[Entry, ...]:
    return tuple(sorted(log, key=lambda one: (one.date, one.id)))


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
