"""The second-marking sample: whose number comes up, whose first exam it is, and what a further sheet changed."""

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from assessments.practicals.resit import Again
from assessments.practicals.result import Recommendation, Result, result
from assessments.practicals.sheets import Sheet
from assessments.practicals.specification import Practical

DIGITS = 13


def lot(seed: str, exam: str) -> float:
    """An exam's number from 0 up to 1: the first 13 hex digits of SHA-256 of "seed exam", as a part of 16 ** 13.

    Anybody who is told the seed can compute it again; nobody can before.
    """
    digest = hashlib.sha256(f"{seed} {exam}".encode()).hexdigest()
    return int(digest[:DIGITS], 16) / 16**DIGITS


def first_exams(sent: Mapping[str, Iterable[str]], when: Mapping[str, tuple[date, int]]) -> frozenset[str]:
    """Exams that were somebody's first: `sent` says who sent a sheet of each exam, `when` day and minute it began."""
    first: dict[str, tuple[date, int, str]] = {}
    for exam, people in sent.items():
        for person in people:
            own = (*when[exam], exam)
            first[person] = min(first.get(person, own), own)
    return frozenset(exam for *_, exam in first.values())


@dataclass(frozen=True, slots=True)
class Changed:
    """What the first sheets alone, and what all of them together recommend."""

    before: Recommendation
    after: Recommendation

    @property
    def differs(self) -> bool:
        return self.before is not self.after


def first_result(
    practical: Practical, sheets: tuple[Sheet, ...], error: Fraction | None = None, again: Again | None = None
) -> Result:
    """What the first examiners' sheets add up to, as if no further one had been asked for."""
    return result(practical, tuple(one for one in sheets if not one.second_marking), error, again)


def changed(
    practical: Practical, sheets: tuple[Sheet, ...], error: Fraction | None = None, again: Again | None = None
) -> Changed | None:
    """What a further sheet changed; None while there is none."""
    if not any(one.second_marking for one in sheets):
        return None
    before = first_result(practical, sheets, error, again).recommendation
    return Changed(before, result(practical, sheets, error, again).recommendation)
