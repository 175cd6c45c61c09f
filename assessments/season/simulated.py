"""Sheets of a panel that does not exist, from known abilities and severities: for the demo and for tests."""

from dataclasses import dataclass
from datetime import date, timedelta
from math import exp

import numpy as np

from assessments.practicals.sheets import Grade, Mark, Sheet, SheetState
from assessments.practicals.specification import Practical
from assessments.season.gathered import SeasonExam

# The share of the levels at which the simulated panel finds a block borderline, the second of its grades.
BORDERLINE = 0.73


@dataclass(frozen=True, slots=True)
class Simulated:
    """What is simulated: severities and abilities in logits, the spread of a candidate's day on one block.

    `drift` adds to an examiner's severity from the middle of the season on, `leanings` on one criterion.
    """

    severities: dict[str, float]
    candidates: int
    mean: float = 1.6
    spread: float = 0.9
    day_spread: float = 0.35
    drift: dict[str, float] | None = None
    leanings: dict[tuple[str, str], float] | None = None
    seed: int = 7


def simulated_season(practical: Practical, wanted: Simulated, starts: date, a_day: int = 4) -> list[SeasonExam]:
    """One exam a candidate, two examiners each in every pairing in turn, `a_day` exams a day."""
    chance = np.random.default_rng(wanted.seed)
    names = sorted(wanted.severities)
    pairs = [(a, b) for gap in range(1, len(names)) for a, b in zip(names, names[gap:], strict=False)]
    blocks = dict(zip(sorted({c.block for c in practical.cells()}), chance.normal(0, 0.4, 99), strict=False))
    criteria = dict(zip([c.id for c in practical.criteria], chance.normal(0, 0.4, 99), strict=False))
    found = []
    for number in range(wanted.candidates):
        ability = chance.normal(wanted.mean, wanted.spread)
        day = {block: ability + chance.normal(0, wanted.day_spread) - hard for block, hard in blocks.items()}
        pair, late = pairs[number % len(pairs)], number >= wanted.candidates // 2
        exam, sheets = f"past-{number + 1}", []
        for name in pair:
            severity = wanted.severities[name] + ((wanted.drift or {}).get(name, 0.0) if late else 0.0)
            leanings = {criterion: more for (own, criterion), more in (wanted.leanings or {}).items() if own == name}
            harder = {id: hard + severity + leanings.get(id, 0.0) for id, hard in criteria.items()}
            marks, grades = _marks(practical, chance, day, harder)
            sheet = Sheet(exam, name, practical.id, practical.edition, 1, SheetState.SENT, marks, grades=grades)
            sheets.append(sheet)
        when = starts + timedelta(days=number // a_day)
        found.append(SeasonExam(exam, f"candidate-{number + 1}", when, frozenset(pair), tuple(sheets)))
    return found


def _marks(practical: Practical, chance: np.random.Generator, day: dict, harder: dict):  # noqa: ANN202
    marks, shares = [], {}
    for cell in practical.cells():
        levels = cell.scale.levels()
        place = day[cell.block] - harder[cell.criterion]
        step = _drawn(chance, place, len(levels))
        level = levels[step] if cell.scale.best == "highest" else levels[-1 - step]
        marks.append(Mark(cell.block, cell.criterion, level))
        shares.setdefault(cell.block, []).append(step / (len(levels) - 1))
    most = len(practical.grades) - 1
    grades = []
    for block, seen in shares.items():
        impression = 1 + 10 * (float(np.mean(seen)) - BORDERLINE) + chance.normal(0, 0.45)
        grades.append(Grade(block, int(np.clip(round(impression), 0, most))))
    return tuple(marks), tuple(grades)


def _drawn(chance: np.random.Generator, place: float, levels: int) -> int:
    """A category of the rating scale model, its steps two logits apart."""
    taus = np.linspace(-(levels - 2), levels - 2, levels - 1)
    weights = [exp(step * place - float(taus[:step].sum())) for step in range(levels)]
    return int(chance.choice(levels, p=np.array(weights) / sum(weights)))
