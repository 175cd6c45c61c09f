"""What every method gives back: an estimate, its 95 % interval, what it rests on, and any reason not to show it."""

import math
from dataclasses import dataclass, replace

from curriculum.faults import N_, Fault


def reason(code: str, sentence: str, **values: object) -> Fault:
    """Why a number is not shown, or is shown with a caution; `sentence` is marked with `N_`."""
    return Fault(code, sentence, values)


@dataclass(frozen=True, slots=True)
class Statistic:
    """One number with its interval and the count it rests on.

    `withheld` says why there is no estimate (too few data, or undefined for these data);
    `flags` are cautions to be read with it. Undefined is never 0 or 1: it is no number at all.
    """

    estimate: float | None
    low: float | None = None
    high: float | None = None
    n: int = 0
    withheld: Fault | None = None
    flags: tuple[Fault, ...] = ()

    def flagged(self, *flags: Fault) -> "Statistic":
        return replace(self, flags=self.flags + flags)

    def held_back(self, why: Fault) -> "Statistic":
        """The same count without its number."""
        return replace(self, estimate=None, low=None, high=None, withheld=why)


def undefined(n: int, why: Fault) -> Statistic:
    """A statistic that these data do not define."""
    return Statistic(None, None, None, n, why)


def measured(estimate: float, low: float | None, high: float | None, n: int) -> Statistic:
    """A statistic from floats; a limit that is not finite is left out, an estimate that is not is undefined."""
    if not math.isfinite(estimate):
        return undefined(n, NOT_DEFINED)
    statistic = Statistic(float(estimate), _finite(low), _finite(high), int(n))
    no_width = statistic.low is not None and statistic.high is not None and statistic.high - statistic.low < 1e-12
    return statistic.flagged(NO_WIDTH) if no_width else statistic


def _finite(value: float | None) -> float | None:
    return float(value) if value is not None and math.isfinite(value) else None


NOT_DEFINED = reason("undefined", N_("these data do not define it"))
NO_VARIATION = reason(
    "no-variation",
    N_("undefined: the ratings do not differ, so nothing beyond chance can be seen"),
)
NO_WIDTH = reason("no-width", N_("every unit tells the same, so the interval says nothing about other units"))
