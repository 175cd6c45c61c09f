"""A study by simulation: what is drawn again and again, what is looked at each time, and what is expected of it."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

import numpy as np

Kind = Literal["share", "mean", "size", "slope"]
Drawn = Mapping[str, np.ndarray]
SIGMAS = 2.0


@dataclass(frozen=True, slots=True)
class Measure:
    """One question of a study and the range its answer should lie in.

    `kind`: a share of yes among booleans, a mean, a root mean square (size), or the slope of the second row of
    (2, n) on the first. `sentence` is marked with `N_`; `values` fill its places, texts among them marked as well.
    """

    key: str
    kind: Kind
    sentence: str
    low: float
    high: float
    values: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Study:
    """`once` draws one data set with the chance it is given and answers with an array for each measure's key."""

    name: str
    title: str
    once: Callable[[np.random.Generator], Drawn]
    measures: tuple[Measure, ...]
    usual_runs: int


@dataclass(frozen=True, slots=True)
class Finding:
    """What a measure came to, with the error that comes of the number of runs (jackknife over runs)."""

    measure: Measure
    value: float
    error: float
    runs: int
    observations: int

    @property
    def as_expected(self) -> bool:
        return self.measure.low <= self.value <= self.measure.high

    @property
    def falls_short(self) -> bool:
        """Outside what is expected by more than chance explains."""
        reach = SIGMAS * (self.error if np.isfinite(self.error) else 0.0)
        return not self.measure.low - reach <= self.value <= self.measure.high + reach


def draw(study: Study, runs: int, chance: np.random.Generator) -> Iterator[Drawn]:
    """One answer a run, each with chance of its own, so that a run is the same whatever the number of runs."""
    for own in chance.spawn(runs):
        yield study.once(own)


def findings(study: Study, drawn: Sequence[Drawn]) -> list[Finding]:
    """What the runs say of every measure; nan where no run could answer."""
    return [_finding(measure, [run[measure.key] for run in drawn if measure.key in run]) for measure in study.measures]


def _finding(measure: Measure, answers: Sequence[np.ndarray]) -> Finding:
    sums = np.array([_sums(measure.kind, np.asarray(answer, float)) for answer in answers])
    if not len(sums) or not sums[:, 0].sum():
        return Finding(measure, np.nan, np.nan, len(answers), 0)
    value = _value(measure.kind, sums.sum(axis=0))
    error = np.nan
    if len(sums) > 1:
        left = np.array([_value(measure.kind, sums.sum(axis=0) - own) for own in sums])
        error = float(np.sqrt((len(left) - 1) / len(left) * np.nansum((left - np.nanmean(left)) ** 2)))
    if measure.kind == "share":
        error = max(np.nan_to_num(error), _least_error(value, len(sums)))
    return Finding(measure, value, error, len(answers), int(sums[:, 0].sum()))


def _least_error(share: float, runs: int) -> float:
    """That all runs agree does not make their share certain (two of each kind added: Agresti & Coull 1998).

    A share that is 0 or 1 by right stays so: then nothing lies outside what is expected anyway.
    """
    inside = (share * runs + 2) / (runs + 4)
    return float(np.sqrt(inside * (1 - inside) / (runs + 4))) if share in (0.0, 1.0) else 0.0


def _sums(kind: Kind, answer: np.ndarray) -> np.ndarray:
    if kind == "slope":
        true, found = answer[:, np.isfinite(answer).all(axis=0)]
        return np.array([len(true), true.sum(), found.sum(), true @ true, true @ found])
    known = answer.ravel()[np.isfinite(answer.ravel())]
    return np.array([len(known), known.sum(), known @ known])


def _value(kind: Kind, sums: np.ndarray) -> float:
    with np.errstate(invalid="ignore", divide="ignore"):
        if kind == "slope":
            n, true, found, squares, products = sums
            return float((products - true * found / n) / (squares - true**2 / n))
        return float(np.sqrt(sums[2] / sums[0]) if kind == "size" else sums[1] / sums[0])


def covers(low: object, high: object, truth: object) -> np.ndarray:
    """Whether each interval holds the truth; nan where there is no interval."""
    ends = np.atleast_1d(np.array(low, float)), np.atleast_1d(np.array(high, float))
    inside = (ends[0] <= truth) & (truth <= ends[1])
    return np.where(np.isfinite(ends[0]) & np.isfinite(ends[1]), inside, np.nan)
