"""Time and memory of the measurement: agreement of a million ratings, severities of 30 000 and of a million.

The intraclass forms are also timed against a general statistics package (pingouin), and Fleiss' kappa against another
(statsmodels), in the same run, where they are installed; they are no dependency, so install them in an environment
of their own and put that on PYTHONPATH.
"""

import json
import os
import resource
import sys
from collections.abc import Callable
from importlib import import_module
from importlib.metadata import version
from importlib.util import find_spec
from time import perf_counter, process_time

import numpy as np

from assessments.measurement import weights
from assessments.measurement.bland_altman import mark_differences
from assessments.measurement.fleiss import fleiss_kappa
from assessments.measurement.gwet import agreement_coefficient
from assessments.measurement.intraclass import intraclass
from assessments.measurement.kappa import kappa
from assessments.measurement.krippendorff_alpha import alpha
from assessments.measurement.percent import agreement
from assessments.measurement.rasch.analysis import start_from
from assessments.measurement.rasch.candidates import measures
from assessments.measurement.rasch.conditional import conditional_fit
from assessments.measurement.rasch.element_rows import DRAWS
from assessments.measurement.rasch.fit import fit_ranges
from assessments.measurement.rasch.joint import joint_fit
from assessments.measurement.rasch.marginal import marginal_fit
from assessments.measurement.ratings import Ratings
from assessments.measurement.simulation.drawn_ratings import (
    category_chances,
    draw_ratings,
    even_truth,
    paired_plan,
    rated,
)

CATEGORIES = 4
UNITS, EXAMINERS = 200_000, 5
SMALL_UNITS = 2_500
LARGEST = {"agreement": 0.5, "joint_30000": 0.3, "marginal_30000": 3.0, "marginal_1000000": 20.0, "icc_ratio": 50.0}


def ratings_of(units: int, examiners: int) -> Ratings:
    """Every unit by every examiner, four categories in order; seed 1."""
    chance = np.random.default_rng(1)
    marks = chance.standard_normal((units, 1)) + 0.6 * chance.standard_normal((units, examiners))
    category = np.searchsorted([-1.0, 0.0, 1.0], marks).ravel()
    unit, examiner = (part.ravel() for part in np.indices((units, examiners)))
    names = tuple(f"E{number}" for number in range(examiners))
    return Ratings(unit, examiner, category, units, names, tuple("0123"), category.astype(float), True)


def seconds(task: Callable[[], object], times: int = 3) -> float:
    """The best of so many calls."""
    found = []
    for _ in range(times):
        start = perf_counter()
        task()
        found.append(perf_counter() - start)
    return min(found)


def agreement_seconds() -> dict[str, float]:
    """Each statistic with its interval, from a million ratings as they come in, counting them included."""
    many, two = ratings_of(UNITS, EXAMINERS), ratings_of(UNITS * EXAMINERS // 2, 2)
    identity, quadratic = weights.identity(CATEGORIES), weights.quadratic(CATEGORIES)
    values, chance = np.arange(CATEGORIES, dtype=float), np.random.default_rng(1)

    def counts() -> np.ndarray:
        many.__dict__.pop("counts", None)
        return many.counts

    table = two.matrix(two.values)
    tasks = {
        "percent": lambda: agreement(counts(), identity),
        "kappa": lambda: kappa(two.pair_table(0, 1), identity, chance),
        "kappa_quadratic": lambda: kappa(two.pair_table(0, 1), quadratic, chance),
        "fleiss_kappa": lambda: fleiss_kappa(counts()),
        "alpha_nominal": lambda: alpha(counts(), "nominal", values, chance),
        "alpha_ordinal": lambda: alpha(counts(), "ordinal", values, chance),
        "alpha_interval": lambda: alpha(counts(), "interval", values, chance),
        "ac1": lambda: agreement_coefficient(counts(), identity),
        "ac2_quadratic": lambda: agreement_coefficient(counts(), quadratic),
        "icc_six_forms": lambda: intraclass(many, many.values),
        "mark_differences": lambda: mark_differences(table[:, 0], table[:, 1]),
    }
    return {name: seconds(task) for name, task in tasks.items()}


def severity_seconds(candidates: int, examiners: int, exercises: int, criteria: int) -> dict[str, float]:
    """Joint likelihood, and marginal with standard errors from the joint answer on; two examiners a candidate."""
    chance = np.random.default_rng(1)
    plan = paired_plan(candidates, examiners, exercises, criteria)
    truth = even_truth(examiners, exercises, criteria, [[-1.0, 0.0, 1.0]])
    ratings = draw_ratings(category_chances(plan, chance.standard_normal(candidates), truth), chance)
    design, everyone = rated(plan, ratings), np.zeros(candidates, np.int64)
    joint = joint_fit(design)
    times = 3 if len(ratings) < 100_000 else 1
    found = {"ratings": len(ratings), "joint": seconds(lambda: joint_fit(design), times)}
    busy = process_time()
    found["marginal"] = seconds(lambda: marginal_fit(design, everyone, start_from(design, everyone, joint)), times)
    return found | {"marginal_processor": (process_time() - busy) / times}


def nightly_seconds(candidates: int, examiners: int, exercises: int, criteria: int) -> dict[str, float]:
    """Processor time of what runs in the background: 200 sets for the ranges of fit, and the conditional likelihood."""
    chance = np.random.default_rng(1)
    plan = paired_plan(candidates, examiners, exercises, criteria)
    truth = even_truth(examiners, exercises, criteria, [[-1.0, 0.0, 1.0]])
    design = rated(plan, draw_ratings(category_chances(plan, chance.standard_normal(candidates), truth), chance))
    joint, found = joint_fit(design), {"ratings": float(len(design.cell))}
    ability = measures(design, joint.full).estimate
    for name, task in (
        ("fit_ranges", lambda: fit_ranges(design, joint.full, ability, chance, DRAWS)),
        ("conditional", lambda: conditional_fit(design, joint.full * joint.shrink)),
    ):
        busy = process_time()
        task()
        found[name] = process_time() - busy
    return found


def package_ratios() -> dict[str, object]:
    """How many times longer the usual packages take for the same, or that they are not installed."""
    small = ratings_of(SMALL_UNITS, 4)
    found: dict[str, object] = {}
    if find_spec("pingouin") is None:
        found["icc_ratio"] = "pingouin is not installed"
    else:
        pingouin, pandas = import_module("pingouin"), import_module("pandas")
        frame = pandas.DataFrame({"unit": small.unit, "examiner": small.examiner, "mark": small.values})
        theirs = seconds(lambda: pingouin.intraclass_corr(frame, "unit", "examiner", "mark"), 1)
        ours = seconds(lambda: intraclass(small, small.values), 20)
        found |= {"icc_theirs": theirs, "icc_ours": ours, "icc_ratio": theirs / ours, "pingouin": version("pingouin")}
    if find_spec("statsmodels") is None:
        found["fleiss_ratio"] = "statsmodels is not installed"
    else:
        rater = import_module("statsmodels.stats.inter_rater")
        counts = ratings_of(UNITS, EXAMINERS).counts
        theirs, ours = seconds(lambda: rater.fleiss_kappa(counts)), seconds(lambda: fleiss_kappa(counts))
        found |= {"fleiss_theirs": theirs, "fleiss_ours": ours, "fleiss_ratio": theirs / ours}
        found["statsmodels"] = version("statsmodels")
    return found


def measure() -> dict[str, object]:
    """Seconds, peak memory in MiB, ratios, and which of the wanted limits are missed.

    Where others keep the machine busy (`others_at_work`: processes waiting for each core), seconds tell of them too;
    `marginal_processor` is then the time that the work itself took.
    """
    agreeing = agreement_seconds()
    some = severity_seconds(200, 12, 15, 5)
    many = severity_seconds(5000, 100, 20, 5)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / (1024 if sys.platform != "darwin" else 1024**2)
    ratios = package_ratios()
    found = {
        "agreement_of_1000000": agreeing,
        "severities_of_30000": some,
        "severities_of_1000000": many,
        "in_the_background": nightly_seconds(200, 12, 15, 5),
        "peak_mebibytes": peak,
        "packages": ratios,
        "others_at_work": os.getloadavg()[0] / (os.cpu_count() or 1),
        "numpy": version("numpy"),
        "scipy": version("scipy"),
    }
    return found | {"missed": _missed(agreeing, some, many, peak, ratios)}


def _missed(agreeing, some, many, peak: float, ratios) -> list[str]:
    wanted = [(name, took, LARGEST["agreement"]) for name, took in agreeing.items()]
    wanted += [(f"{kind}_30000", some[kind], LARGEST[f"{kind}_30000"]) for kind in ("joint", "marginal")]
    wanted += [("marginal_1000000", many["marginal"], LARGEST["marginal_1000000"]), ("peak_mebibytes", peak, 1024)]
    missed = [name for name, took, most in wanted if took > most]
    ratio = ratios["icc_ratio"]
    return missed + (["icc_ratio"] if isinstance(ratio, float) and ratio < LARGEST["icc_ratio"] else [])


if __name__ == "__main__":
    json.dump(measure(), sys.stdout, indent=1)
