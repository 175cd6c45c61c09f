"""What an observer's answers say: the eye for faults and the leaning, apart from each other.

An answer is yes or no ("something is wrong", "this is sound") and one of two degrees of sureness. Two are enough:
yes or no by two degrees are four ratings, which cut the curve of hits against false alarms (ROC) at three points, and
three points show its bend; more degrees would spread a dozen moments over cells that stay empty. From the points the
area under the curve follows without any assumption about spread: Bamber D (1975) J Math Psychol 12:387-415.
"""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from assessments.measurement.detection import detection, pooled_detection
from assessments.measurement.limits import DEFAULT_LIMITS, Limit
from assessments.measurement.statistic import Statistic
from assessments.spotting.lesson import Moment


@dataclass(frozen=True, slots=True)
class Answer:
    """What was said of one moment; `kind` is the kind of fault that was named, "" for none."""

    moment: str
    wrong: bool
    sure: bool
    kind: str = ""

    @property
    def rating(self) -> int:
        """0 surely sound, 1 sound, 2 wrong, 3 surely wrong."""
        return (2 + self.sure) if self.wrong else (1 - self.sure)


@dataclass(frozen=True, slots=True)
class Counts:
    """Ratings 0 to 3 of the planted and of the sound moments; `named` and `named_right` count kinds said of hits."""

    planted: tuple[int, ...] = (0, 0, 0, 0)
    sound: tuple[int, ...] = (0, 0, 0, 0)
    named: int = 0
    named_right: int = 0

    @property
    def signal_trials(self) -> int:
        return sum(self.planted)

    @property
    def noise_trials(self) -> int:
        return sum(self.sound)

    @property
    def hits(self) -> int:
        return sum(self.planted[2:])

    @property
    def false_alarms(self) -> int:
        return sum(self.sound[2:])

    @property
    def row(self) -> tuple[int, int, int, int]:
        """Hits, signal trials, false alarms, noise trials."""
        return self.hits, self.signal_trials, self.false_alarms, self.noise_trials

    def __add__(self, other: "Counts") -> "Counts":
        return Counts(
            tuple(map(sum, zip(self.planted, other.planted, strict=True))),
            tuple(map(sum, zip(self.sound, other.sound, strict=True))),
            self.named + other.named,
            self.named_right + other.named_right,
        )


@dataclass(frozen=True, slots=True)
class Eye:
    """Sensitivity d′ and criterion c (above 0: lets things pass), held back or flagged by what they rest on."""

    counts: Counts
    d_prime: Statistic
    criterion: Statistic

    @property
    def few(self) -> bool:
        return bool(self.d_prime.flags)


def counted(answers: Iterable[tuple[Moment, Answer]]) -> Counts:
    """The answers sorted by what their moments hold."""
    planted, sound, named, right = [0, 0, 0, 0], [0, 0, 0, 0], 0, 0
    for moment, answer in answers:
        (planted if moment.is_faulty else sound)[answer.rating] += 1
        if moment.is_faulty and answer.wrong and answer.kind:
            named += 1
            right += answer.kind == moment.fault.weight
    return Counts(tuple(planted), tuple(sound), named, right)


def eye(counts: Counts, limit: Limit = DEFAULT_LIMITS.detection) -> Eye:
    """Sensitivity and criterion with their 95 % intervals, log-linear correction always."""
    found = detection(*counts.row)
    trials = {"signal_trials": counts.signal_trials, "noise_trials": counts.noise_trials}
    return Eye(counts, limit.applied(found.d_prime, **trials), limit.applied(found.criterion, **trials))


def pooled_sensitivity(people: Iterable[Counts], limit: Limit = DEFAULT_LIMITS.detection) -> Statistic:
    """One d′ for many people, each with a leaning of their own."""
    rows = [one.row for one in people]
    statistic, _ = pooled_detection(np.array(rows or np.empty((0, 4)), float))
    signal, noise = (sum(row[place] for row in rows) for place in (1, 3))
    return limit.applied(statistic, signal_trials=signal, noise_trials=noise)


def curve(planted: tuple[int, ...], sound: tuple[int, ...]) -> tuple[tuple[float, float], ...]:
    """Points (false-alarm rate, hit rate) of rating counts, lowest rating first, from (0, 0) to (1, 1)."""
    points, hits, alarms = [(0.0, 0.0)], 0, 0
    for of_planted, of_sound in zip(reversed(planted), reversed(sound), strict=True):
        hits, alarms = hits + of_planted, alarms + of_sound
        points.append((alarms / sum(sound), hits / sum(planted)))
    return tuple(points)


def area(planted: tuple[int, ...], sound: tuple[int, ...]) -> float | None:
    """How often of a planted and a sound moment the planted one is rated the more likely wrong, a tie counting half.

    The area under `curve` by trapezoids; None where one kind of moment is missing.
    """
    if not sum(planted) or not sum(sound):
        return None
    points = curve(planted, sound)
    return sum((b[0] - a[0]) * (a[1] + b[1]) / 2 for a, b in zip(points, points[1:], strict=False))
