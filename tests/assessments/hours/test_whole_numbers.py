"""Whole numbers read off a solution without them, or guessed at no cost, against a search that does neither."""

from datetime import date, timedelta
from random import Random

import numpy as np
import pytest

from app.files.requirements import requirements_from_text
from assessments.hours.assessing import NO_FACTS, Assessment
from assessments.hours.clashes import check
from assessments.hours.clauses import Clauses
from assessments.hours.entry import Entry
from assessments.hours.linear import Program, ones
from assessments.hours.model import Model
from assessments.hours.solver import SLACKS, Solver
from assessments.hours.whole_numbers import WholeNumbers
from tests.assessments.hours.oracle.hard_cases import entries_for_several_categories, variety_beyond_what_there_is

AS_OF = date(2026, 6, 30)


class Searching(Solver):
    """Always searches."""

    def _can_be_whole(self) -> bool:
        return False

    def _with(self, numbers: np.ndarray) -> None:
        return None


def hosts(least: float, *logged: float) -> Program:
    """Yes/no for each host logged, who counts with 60; `z` new ones at 60 further minutes each; so many in all."""
    program = Program()
    given = [program.column(one) for one in logged]
    further = program.column()
    counted = {}
    for column in given:
        there = program.column(1, whole=True)
        program.row({column: 1, there: -60}, least=0)
        counted[there] = 1
    new = program.column(9, whole=True)
    program.row({further: 1, new: -60}, least=0)
    program.row({**counted, new: 1}, least=least)
    return program


@pytest.mark.parametrize(
    ("least", "values", "expected"),
    [
        (2, [60, 70, 0], [1, 1, 0]),
        (2, [59, 70, 0], None),  # one of two
        (3, [60, 70, 60], [1, 1, 1]),  # the third is new
        (3, [60, 70, 59], None),
    ],
)
def test_as_many_as_the_minutes_allow_are_counted(least, values, expected) -> None:
    program = hosts(least, 100, 100)
    found = WholeNumbers(program, program.matrix()).read_off(np.array([*values, 0, 0, 0], dtype=float))
    assert (found.tolist() if found is not None else None) == expected


def test_a_part_of_a_host_does_not_count() -> None:
    # 30 min each with two hosts are no host; without whole numbers they would be one, and nothing more to do.
    solver = Solver(hosts(1, 30, 30))
    assert solver.least({2: 1}) == pytest.approx(60)


@pytest.mark.parametrize("make", [variety_beyond_what_there_is, entries_for_several_categories])
@pytest.mark.parametrize("seed", range(12))
def test_the_short_ways_reach_what_a_search_reaches(make, seed: int) -> None:
    chance = Random(seed)
    invented = (requirements_from_text(make(lambda *some: chance.choice(some)), "set.yaml") for _ in range(50))
    requirements = next(one for one in invented if not check(one))
    model = Assessment(Clauses(requirements), log(chance), NO_FACTS, AS_OF, None).model
    assert both_objectives(Solver(model.program), model) == pytest.approx(
        both_objectives(Searching(model.program), model), abs=1e-4
    )


def both_objectives(solver: Solver, model: Model) -> tuple[float, float]:
    """Least further time, then most credit, held as tightly as can be."""
    further = ones(column for columns in model.further.values() for column in columns)
    least = solver.least(further)
    solver.hold(further, most=least)
    most = solver.most(ones(model.given.values()))
    assert type(solver) is Searching or solver.slack == SLACKS[0]
    return least, most


def log(chance: Random) -> tuple[Entry, ...]:
    days = sorted(AS_OF - timedelta(days=chance.randrange(90)) for _ in range(chance.choice((4, 12, 30))))
    return tuple(
        Entry(
            f"e{number:02}",
            day,
            chance.choice((5, 20, 45, 60, 90)),
            "signed_off",
            {
                "activity": (chance.choice(("observing", "teaching", "lecture")),),
                "mode": (chance.choice(("live", "live_remote", "recorded")),),
                "host": (chance.choice(("h1", "h2", "h3")),),
                "client": (f"c{chance.randrange(6)}",),
            },
        )
        for number, day in enumerate(days)
    )
