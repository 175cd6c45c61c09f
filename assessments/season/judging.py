"""Judges' rounds on a pass mark: each judge pictures a candidate who just passes, block by block, twice.

Modified Angoff with a talk between the rounds (Angoff 1971; Hambleton & Pitoniak 2006 in Brennan, Educational
Measurement, 4th ed., ch. 12). A block counts with its weight in the practical, so the pass mark is in per cent.
"""

from collections.abc import Mapping, Set
from dataclasses import dataclass, replace

import numpy as np

from assessments.measurement.angoff import AngoffCut, angoff
from assessments.measurement.angoff_rounds import RoundChange, compare_rounds
from assessments.measurement.limits import DEFAULT_LIMITS, Limits
from assessments.measurement.statistic import Statistic
from assessments.practicals.specification import Practical
from assessments.season.gathered import block_weights
from curriculum.faults import N_, Fault, RefusedError

Answers = Mapping[str, Mapping[str, float]]
"""By judge, by block: the mark from 0 to 100 that a candidate who just passes would get."""


@dataclass(frozen=True, slots=True)
class JudgedRound:
    """One round: judges in order, their own pass marks, the panel's, its error, and who stands apart.

    `cut` is withheld with few judges; `table` is (judges, blocks) of marks from 0 to 100.
    """

    judges: tuple[str, ...]
    blocks: tuple[str, ...]
    table: np.ndarray
    cut: Statistic
    se: float
    own: dict[str, float]
    far: frozenset[str]
    at_odds: frozenset[str]


@dataclass(frozen=True, slots=True)
class Rounds:
    """Where a panel stands: `round` is 1 or 2; `is_open` while judges answer, `decided` at the end."""

    round: int
    is_open: bool
    decided: bool

    @property
    def shown(self) -> int:
        """The last round whose answers may be seen: none while the first is open."""
        return self.round - 1 if self.is_open else self.round


def rounds_stand(judges: Set[str], answered: Mapping[int, Set[str]], steps: Set[str]) -> Rounds:
    """From who sits, who answered in each round, and what the director did: `close-1`, `second`, `close-2`, `decided`.

    A round is over when every judge has answered or the director closed it.
    """
    number = 2 if "second" in steps else 1
    over = f"close-{number}" in steps or answered.get(number, set()) >= judges
    return Rounds(number, not over, "decided" in steps)


def block_shares(practical: Practical) -> dict[str, float]:
    """What part of the whole mark each block carries; the shares add up to 1."""
    return {block: weight / 100 for block, weight in block_weights(practical).items()}


def answer_faults(practical: Practical, answers: Mapping[str, float | None]) -> tuple[Fault, ...]:
    """A fault for each block without a mark from 0 to 100."""
    sentence = N_("give a mark from 0 to 100")
    wrong = [id for id in block_shares(practical) if not _is_mark(answers.get(id))]
    return tuple(Fault("no-mark", sentence, field=f"mark.{id}") for id in wrong)


def _is_mark(value: float | None) -> bool:
    return value is not None and 0 <= value <= 100


def judged_round(practical: Practical, answers: Answers, limits: Limits = DEFAULT_LIMITS) -> JudgedRound:
    """What one round comes to; `RefusedError` when nobody answered."""
    if not answers:
        raise RefusedError([Fault("no-answers", N_("no judge has answered"))])
    judges, shares = tuple(sorted(answers)), block_shares(practical)
    table = np.array([[answers[judge][block] for block in shares] for judge in judges], float)
    found: AngoffCut = angoff(table * np.array(list(shares.values())))
    own = dict(zip(judges, found.judge_cuts.tolist(), strict=True))
    far, odd = (frozenset(np.array(judges)[which].tolist()) for which in (found.far, found.at_odds))
    cut = limits.angoff.applied(found.cut, False, judges=len(judges))
    if cut.low is not None:
        cut = replace(cut, low=max(cut.low, 0.0), high=min(cut.high, 100.0))
    return JudgedRound(judges, tuple(shares), table, cut, found.se, own, far, odd)


def rounds_compared(practical: Practical, first: Answers, second: Answers) -> RoundChange | None:
    """How the judges of both rounds moved; None when fewer than two of them answered twice."""
    both = sorted(set(first) & set(second))
    if len(both) < 2:
        return None
    shares = block_shares(practical)
    weights = np.array(list(shares.values()))
    tables = [
        np.array([[answers[judge][block] for block in shares] for judge in both]) * weights
        for answers in (first, second)
    ]
    return compare_rounds(*tables)
