"""What two parallel exams would decide, given the distribution of true scores: the shares behind every method."""

from dataclasses import dataclass

import numpy as np
from scipy.special import betainc, betaln


@dataclass(frozen=True, slots=True)
class Decisions:
    """Shares of candidates: same result twice, beyond chance, right result, passed or failed wrongly."""

    agreement: float
    kappa: float
    accuracy: float
    false_pass: float
    false_fail: float


UNDECIDED = Decisions(*([float("nan")] * 5))
NODES, NODE_WEIGHTS = np.polynomial.legendre.leggauss(200)


@dataclass(frozen=True, slots=True)
class Beta:
    """A beta distribution on [low, high]."""

    a: float
    b: float
    low: float = 0.0
    high: float = 1.0


def beta_decisions(true: Beta, trials: int, pass_from: int, cut: float) -> Decisions:
    """Decisions when scores are binomial(`trials`, true share), passing at `pass_from` right or more.

    `cut` is the true share that deserves to pass. Gauss-Legendre on each side of it, in the angle whose
    squared sine is the share, so that the ends do no harm.
    """
    share = (cut - true.low) / (true.high - true.low)
    turn = float(np.arcsin(np.sqrt(np.clip(share, 0, 1))))
    parts = [_part(true, trials, pass_from, *ends) for ends in ((0.0, turn), (turn, np.pi / 2))]
    (low_share, low_pass, low_twice), (high_share, high_pass, high_twice) = parts
    total = low_share + high_share
    passing, twice = (low_pass + high_pass) / total, (low_twice + high_twice) / total
    return decisions(passing, twice, low_pass / total, (high_share - high_pass) / total)


def decisions(passing: float, twice: float, false_pass: float, false_fail: float) -> Decisions:
    """From the share passing once, the share passing both times, and the wrong results."""
    agreement = 1 - 2 * (passing - twice)
    by_chance = passing**2 + (1 - passing) ** 2
    kappa = (agreement - by_chance) / (1 - by_chance) if 1 - by_chance > 1e-12 else np.nan
    accuracy = 1 - false_pass - false_fail
    return Decisions(*(float(share) for share in (agreement, kappa, accuracy, false_pass, false_fail)))


def _part(true: Beta, trials: int, pass_from: int, start: float, end: float) -> tuple[float, float, float]:
    if end - start < 1e-12:
        return 0.0, 0.0, 0.0
    angle = (start + end) / 2 + (end - start) / 2 * NODES
    sine, cosine = np.sin(angle), np.cos(angle)
    logs = (2 * true.a - 1) * np.log(sine) + (2 * true.b - 1) * np.log(cosine) - betaln(true.a, true.b)
    weight = NODE_WEIGHTS * (end - start) / 2 * 2 * np.exp(logs)
    passing = chance_to_pass(true.low + (true.high - true.low) * sine**2, trials, pass_from)
    return float(weight.sum()), float(weight @ passing), float(weight @ passing**2)


def chance_to_pass(share: np.ndarray, trials: int, pass_from: int) -> np.ndarray:
    """P(binomial(trials, share) >= pass_from)."""
    if pass_from <= 0:
        return np.ones_like(share)
    if pass_from > trials:
        return np.zeros_like(share)
    return betainc(pass_from, trials - pass_from + 1, np.clip(share, 0, 1))
