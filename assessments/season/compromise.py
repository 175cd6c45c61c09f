"""What a panel could accept, met with how candidates did: Hofstee and Beuk on a season's totals.

Hofstee WKB (1983) in Anderson & Helmick, On Educational Testing, 109-127; Beuk CH (1984) J Educ Meas 21:147-152.
"""

from collections.abc import Mapping, Sequence

import numpy as np

from assessments.measurement.beuk import beuk
from assessments.measurement.hofstee import hofstee
from assessments.measurement.limits import DEFAULT_LIMITS, Limits
from assessments.measurement.statistic import Statistic, measured
from curriculum.faults import N_, Fault

BOUNDS = ("lowest", "highest", "fewest", "most", "passing")
"""Lowest and highest pass mark a judge could accept, fewest and most per cent failing, per cent expected to pass."""
SEED = 20260119


def bound_faults(bounds: Mapping[str, float | None]) -> tuple[Fault, ...]:
    """Nothing wrong with all of `BOUNDS` from 0 to 100 and in order, or with none; else a fault at each field."""
    if all(bounds.get(name) is None for name in BOUNDS):
        return ()
    sentence = N_("give a number from 0 to 100, or leave all five of these empty")
    wrong = [name for name in BOUNDS if bounds.get(name) is None or not 0 <= bounds[name] <= 100]
    if wrong:
        return tuple(Fault("no-bound", sentence, field=f"bound.{name}") for name in wrong)
    backwards = [high for low, high in (BOUNDS[:2], BOUNDS[2:4]) if bounds[low] > bounds[high]]
    return tuple(
        Fault("backwards", N_("the highest can't lie below the lowest"), field=f"bound.{name}") for name in backwards
    )


def panel_compromise(
    own: Mapping[str, float],
    bounds: Mapping[str, Mapping[str, float]],
    totals: Sequence[float],
    limits: Limits = DEFAULT_LIMITS,
) -> dict[str, Statistic]:
    """`hofstee` and `beuk` in per cent; empty when no judge gave bounds or there are no totals.

    `own` is each judge's own pass mark, `bounds` what each could accept, `totals` a season's totals, all in per cent.
    """
    judges = [judge for judge in sorted(own) if bounds.get(judge)]
    if not judges or not len(totals):
        return {}
    scores, counts = np.asarray(totals, float), {"judges": len(judges), "candidates": len(totals)}
    held = limits.compromise.applied(measured(0.0, None, None, len(scores)), **counts)
    if held.withheld:
        return {"hofstee": held, "beuk": held}
    box = np.array([[bounds[judge][name] for name in BOUNDS[:4]] for judge in judges])
    expected = np.array([[own[judge], bounds[judge]["passing"]] for judge in judges])
    found = {
        "hofstee": hofstee(scores, box, np.random.default_rng([SEED, 1])).cut,
        "beuk": beuk(scores, expected, np.random.default_rng([SEED, 2])).cut,
    }
    return {name: limits.compromise.applied(one, **counts) for name, one in found.items()}
