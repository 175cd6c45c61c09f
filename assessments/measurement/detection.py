"""How well an observer tells faults from sound performances, apart from how readily the observer reports any.

Macmillan NA, Creelman CD (2005) Detection Theory, 2nd ed.; Stanislaw H, Todorov N (1999) Behav Res Methods Instrum
Comput 31:137-149; correction: Hautus MJ (1995) ibid. 27:46-51; error: Gourevitch V, Galanter E (1967)
Psychometrika 32:25-33.
"""

from dataclasses import dataclass
from typing import Literal

import numpy as np
from scipy.special import ndtr, ndtri

from assessments.measurement.percent import Z
from assessments.measurement.statistic import Statistic, measured, reason, undefined
from curriculum.faults import N_

Correction = Literal["log-linear", "half", "none"]
ALL_OR_NONE = reason("all-or-none", N_("undefined without a correction: all or none were reported"))
NO_TRIALS = reason("no-trials", N_("undefined: needs clips with a fault and clips without"))


@dataclass(frozen=True, slots=True)
class Detection:
    """Sensitivity d' and criterion c (above 0: cautious), with the rates they come from."""

    d_prime: Statistic
    criterion: Statistic
    se: float
    hit_rate: float
    false_alarm_rate: float
    ln_beta: float
    a_prime: float
    a_z: float


def detection(
    hits: float, signal_trials: float, false_alarms: float, noise_trials: float, correction: Correction = "log-linear"
) -> Detection:
    """From counts. The log-linear correction adds 0.5 to each count and 1 to each number of trials, always;
    `half` replaces a rate of 0 or 1 by 1/(2N) or 1 - 1/(2N); `none` leaves such rates undefined."""
    trials = int(signal_trials + noise_trials)
    if signal_trials <= 0 or noise_trials <= 0:
        return _nothing(trials, NO_TRIALS, np.nan, np.nan)
    added = 1.0 if correction == "log-linear" else 0.0
    h, n_h = _rate(hits, signal_trials, correction), signal_trials + added
    f, n_f = _rate(false_alarms, noise_trials, correction), noise_trials + added
    if not (0 < h < 1 and 0 < f < 1):
        return _nothing(trials, ALL_OR_NONE, h, f)
    z_h, z_f = ndtri(h), ndtri(f)
    d_prime, criterion = z_h - z_f, -(z_h + z_f) / 2
    se = float(np.sqrt(_variance(h, z_h, n_h) + _variance(f, z_f, n_f)))
    return Detection(
        measured(d_prime, d_prime - Z * se, d_prime + Z * se, trials),
        measured(criterion, criterion - Z * se / 2, criterion + Z * se / 2, trials),
        se,
        float(h),
        float(f),
        float((z_f**2 - z_h**2) / 2),
        _a_prime(h, f),
        float(ndtr(d_prime / np.sqrt(2))),
    )


def _nothing(trials: int, why, h: float, f: float) -> Detection:
    empty = undefined(trials, why)
    return Detection(empty, empty, np.nan, float(h), float(f), np.nan, np.nan, np.nan)


def _rate(count: float, trials: float, correction: Correction) -> float:
    if correction == "log-linear":
        return (count + 0.5) / (trials + 1)
    rate = count / trials
    return float(np.clip(rate, 0.5 / trials, 1 - 0.5 / trials)) if correction == "half" else rate


def _variance(rate: float, z: float, trials: float) -> float:
    height = np.exp(-(z**2) / 2) / np.sqrt(2 * np.pi)
    return rate * (1 - rate) / (trials * height**2)


def _a_prime(h: float, f: float) -> float:
    if h == f:
        return 0.5
    apart = abs(h - f)
    return float(0.5 + np.sign(h - f) * (apart**2 + apart) / (4 * max(h, f) - 4 * h * f))


def pooled_detection(counts: np.ndarray) -> tuple[Statistic, float]:
    """One d' for many observers, each with a criterion of their own, and its standard error.

    `counts` (observers, 4): hits, signal trials, false alarms, noise trials. A probit regression of the answer on
    observer and kind of clip (DeCarlo LT 1998, Psychol Methods 3:186-205), log-linear correction in each cell;
    averaging the observers' rates instead would make d' too small.
    """
    counts = counts[(counts[:, 1] > 0) & (counts[:, 3] > 0)].astype(float)
    total = int(counts[:, [1, 3]].sum())
    if not len(counts):
        return undefined(total, NO_TRIALS), np.nan
    yes, trials = counts[:, [0, 2]] + 0.5, counts[:, [1, 3]] + 1
    place, d_prime = -np.mean(ndtri(yes / trials), axis=1), 0.0
    for _ in range(100):
        steps, step, precision = _scoring_step(yes, trials, place, d_prime)
        place, d_prime = place + steps, d_prime + step
        if max(np.abs(steps).max(), abs(step)) < 1e-10:
            break
    se = float(1 / np.sqrt(precision))
    return measured(d_prime, d_prime - Z * se, d_prime + Z * se, total), se


def _scoring_step(
    yes: np.ndarray, trials: np.ndarray, place: np.ndarray, d_prime: float
) -> tuple[np.ndarray, float, float]:
    """Fisher scoring for criteria and d', the criteria eliminated; also the information left about d'."""
    half = np.array([0.5, -0.5])
    z = half * d_prime - place[:, None]
    chance, height = ndtr(z), np.exp(-(z**2) / 2) / np.sqrt(2 * np.pi)
    weight = height**2 / (chance * (1 - chance))
    slope, information = (yes - trials * chance) * weight / height, trials * weight
    own, shared, both = -slope.sum(axis=1), slope @ half, information @ half**2
    cross, diagonal = -(information @ half), information.sum(axis=1)
    precision = (both - cross**2 / diagonal).sum()
    step = (shared - cross * own / diagonal).sum() / precision
    return (own - cross * step) / diagonal, float(step), float(precision)
