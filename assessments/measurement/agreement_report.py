"""Every coefficient of agreement for one set of ratings, held back where the data are too few."""

from collections.abc import Callable, Mapping
from itertools import combinations

import numpy as np

from assessments.measurement import weights
from assessments.measurement.bland_altman import MarkDifferences, mark_differences
from assessments.measurement.fleiss import category_kappas, fleiss_kappa, z_of_no_agreement
from assessments.measurement.gwet import agreement_coefficient
from assessments.measurement.intraclass import FORMS, intraclass
from assessments.measurement.kappa import kappa
from assessments.measurement.krippendorff_alpha import alpha, alpha_of_marks
from assessments.measurement.limits import Limits
from assessments.measurement.percent import agreement
from assessments.measurement.ratings import Ratings
from assessments.measurement.statistic import Statistic, reason, undefined
from curriculum.faults import N_

MOST_CATEGORIES = 100
MOST_CELLS = 50_000_000
MOST_PAIRS = 190
KAPPAS = {"kappa": weights.identity, "kappa_linear": weights.linear, "kappa_quadratic": weights.quadratic}
PERCENTS = {
    "adjacent": weights.adjacent,
    "percent_linear": weights.linear,
    "percent_quadratic": weights.quadratic,
}
COEFFICIENTS = {
    "ac1": weights.identity,
    "ac2_linear": weights.linear,
    "ac2_quadratic": weights.quadratic,
    "ac2_ordinal": weights.ordinal,
}
NEEDS_TWO = reason("needs-two", N_("is for two examiners: see the pairs"))
NEEDS_ORDER = reason("needs-order", N_("needs categories in order: give them with --categories"))
NEEDS_NUMBERS = reason("needs-numbers", N_("needs ratings that are numbers"))
NEEDS_NAMES = reason("needs-names", N_("needs to know which examiner gave which rating"))
NO_PAIR = reason("no-pair", N_("needs units with two ratings or more, and there is none"))
NO_COMMON = reason("no-common", N_("no unit is rated by both"))
TOO_MANY = reason("marks", N_("the ratings take too many values to be categories: read the measures for marks"))


def agreement_report(
    ratings: Ratings, chance: np.random.Generator, limits: Limits, anyway: bool, disagreement: np.ndarray | None = None
) -> dict[str, object]:
    """All coefficients by their keys; a standard error is None wherever its coefficient is held back."""
    found: dict[str, object] = {}
    if _countable(ratings):
        found |= _of_categories(ratings, chance, limits, anyway, disagreement)
    else:
        found |= dict.fromkeys(_category_keys(disagreement), undefined(ratings.units_with_two, TOO_MANY))
    found["alpha_interval"] = _alpha(ratings, "interval", chance, limits, anyway)
    found["alpha_ratio"] = _alpha(ratings, "ratio", chance, limits, anyway)
    found |= _of_marks(ratings, limits, anyway)
    return found if ratings.units_with_two else {key: _alone(one) for key, one in found.items()}


def _alone(one: object) -> object:
    return one.held_back(NO_PAIR) if isinstance(one, Statistic) and one.estimate is None else one


def _countable(ratings: Ratings) -> bool:
    """Whether the ratings are categories, few enough to be counted unit by unit."""
    q = len(ratings.categories)
    return q <= MOST_CATEGORIES and q * ratings.units <= MOST_CELLS


def _category_keys(disagreement: np.ndarray | None) -> list[str]:
    own = ["kappa_weighted"] if disagreement is not None else []
    return ["percent", *PERCENTS, *KAPPAS, *own, "fleiss_kappa", "alpha_nominal", "alpha_ordinal", *COEFFICIENTS]


def _of_categories(
    ratings: Ratings, chance: np.random.Generator, limits: Limits, anyway: bool, disagreement: np.ndarray | None
) -> dict[str, object]:
    counts, q = ratings.counts, len(ratings.categories)
    found: dict[str, object] = {
        "percent": _many(agreement(counts, weights.identity(q)), ratings, limits, anyway),
    }
    for key, make in PERCENTS.items():
        found[key] = _ordered(ratings, lambda make=make: _many(agreement(counts, make(q)), ratings, limits, anyway))
    kinds = {key: make(q) for key, make in KAPPAS.items()}
    if disagreement is not None:
        kinds["kappa_weighted"] = weights.from_disagreement(disagreement)
    found |= _kappas(ratings, kinds, chance, limits, anyway)
    found |= _fleiss(ratings, limits, anyway)
    found["alpha_nominal"] = _alpha(ratings, "nominal", chance, limits, anyway)
    found["alpha_ordinal"] = _ordered(ratings, lambda: _alpha(ratings, "ordinal", chance, limits, anyway))
    for key, make in COEFFICIENTS.items():
        if key != "ac1" and not ratings.ordered:
            found |= {key: undefined(ratings.units_with_two, NEEDS_ORDER), f"{key}_se": None}
            continue
        statistic, error = agreement_coefficient(counts, make(q), ratings.from_square)
        found |= _with_error(key, _many(statistic, ratings, limits, anyway), error)
    return found


def _ordered(ratings: Ratings, compute: Callable[[], Statistic]) -> Statistic:
    return compute() if ratings.ordered else undefined(ratings.units_with_two, NEEDS_ORDER)


def _many(statistic: Statistic, ratings: Ratings, limits: Limits, anyway: bool) -> Statistic:
    two = len(ratings.examiners) == 2
    limit = limits.pair if two else limits.many
    things = {"common_units" if two else "units_with_two_ratings": ratings.units_with_two}
    return limit.applied(statistic, anyway, **things)


def _with_error(key: str, statistic: Statistic, error: float) -> dict[str, object]:
    return {key: statistic, f"{key}_se": error if statistic.estimate is not None else None}


def _alpha(ratings: Ratings, metric: str, chance: np.random.Generator, limits: Limits, anyway: bool) -> Statistic:
    paired = ratings.units_with_two
    values = category_values(ratings)
    if metric in ("interval", "ratio") and values is None:
        return undefined(paired, NEEDS_NUMBERS)
    if not _countable(ratings):
        if metric != "interval":
            return undefined(paired, TOO_MANY)
        marks = alpha_of_marks(ratings.unit, ratings.values, ratings.units, chance)
        return _many(marks, ratings, limits, anyway)
    places = np.arange(len(ratings.categories), dtype=float)
    statistic = alpha(ratings.counts, metric, places if values is None else values, chance)
    return _many(statistic, ratings, limits, anyway)


def category_values(ratings: Ratings) -> np.ndarray | None:
    """(categories,) the numbers that the categories are, or None."""
    return None if ratings.values is None else np.array([float(label) for label in ratings.categories])


def _kappas(
    ratings: Ratings, kinds: Mapping[str, np.ndarray], chance: np.random.Generator, limits: Limits, anyway: bool
) -> dict[str, object]:
    if not ratings.examiners:
        return {key: undefined(ratings.units_with_two, NEEDS_NAMES) for key in kinds}
    if len(ratings.examiners) == 2:
        return _pair(ratings, 0, 1, kinds, chance, limits, anyway)
    found: dict[str, object] = {key: undefined(ratings.units_with_two, NEEDS_TWO) for key in kinds}
    places = range(len(ratings.examiners))
    pairs = list(combinations(places, 2))
    if len(pairs) <= MOST_PAIRS:
        found["pairs"] = [
            {"examiners": [ratings.examiners[a], ratings.examiners[b]]}
            | _pair(ratings, a, b, kinds, chance, limits, anyway)
            for a, b in pairs
        ]
    return found


def _pair(
    ratings: Ratings,
    a: int,
    b: int,
    kinds: Mapping[str, np.ndarray],
    chance: np.random.Generator,
    limits: Limits,
    anyway: bool,
) -> dict[str, object]:
    table = ratings.pair_table(a, b)
    found: dict[str, object] = {}
    if not table.any():
        return {one: undefined(0, NO_COMMON) if one == key else None for key in kinds for one in (key, f"{key}_se")}
    for key, table_of_weights in kinds.items():
        if key != "kappa" and not ratings.ordered:
            found |= {key: undefined(int(table.sum()), NEEDS_ORDER), f"{key}_se": None}
            continue
        statistic, error = kappa(table, table_of_weights, chance)
        found |= _with_error(key, limits.pair.applied(statistic, anyway, common_units=int(table.sum())), error)
    return found


def _fleiss(ratings: Ratings, limits: Limits, anyway: bool) -> dict[str, object]:
    counts = ratings.counts
    statistic, error = fleiss_kappa(counts)
    shown = limits.many.applied(statistic, anyway, units_with_two_ratings=ratings.units_with_two)
    found = _with_error("fleiss_kappa", shown, error)
    per_unit = ratings.ratings_a_unit
    if shown.estimate is not None and (per_unit == per_unit[0]).all():
        found["fleiss_z"] = z_of_no_agreement(counts, shown.estimate)
        found["fleiss_categories"] = dict(zip(ratings.categories, category_kappas(counts).tolist(), strict=True))
    return found


def _of_marks(ratings: Ratings, limits: Limits, anyway: bool) -> dict[str, object]:
    why = NEEDS_NAMES if not ratings.examiners else NEEDS_NUMBERS if ratings.values is None else None
    if why:
        return {key: undefined(ratings.units, why) for key in (*FORMS, "bias")} | {"limits": None}
    counts = {"units": ratings.units_with_two, "examiners": len(ratings.examiners)}
    found: dict[str, object] = {}
    for form, statistic in intraclass(ratings, ratings.values).items():
        # Few examiners leave their variance barely known; only the agreement forms rest on it.
        few = counts if "_a_" in form else counts | {"examiners": max(4, counts["examiners"])}
        few = few if counts["examiners"] >= 2 else counts
        found[form] = limits.intraclass.applied(statistic, anyway, **few)
    return found | _differences(ratings, limits, anyway)


def _differences(ratings: Ratings, limits: Limits, anyway: bool) -> dict[str, object]:
    if len(ratings.examiners) != 2:
        return {"bias": undefined(ratings.units, NEEDS_TWO), "limits": None}
    table = ratings.matrix(ratings.values)
    both = np.isfinite(table).all(axis=1)
    table = table[both]
    marks = mark_differences(table[:, 0], table[:, 1], None if ratings.owner is None else ratings.owner[both])
    low, high = (limits.mark_differences.applied(limit, anyway, pairs=len(table)) for limit in (marks.low, marks.high))
    return {"bias": marks.bias, "limits": {"low": low, "high": high}} | _detail(marks, low.estimate is not None)


def _detail(marks: MarkDifferences, shown: bool) -> dict[str, object]:
    detail = {
        "sd_difference": marks.sd,
        "limits_se": marks.limit_se,
        "slope_on_mean": marks.slope,
        "slope_p": marks.slope_p,
        "variance_between_candidates": marks.between,
        "variance_within_candidates": marks.within,
        "middle_of_differences": marks.middle,
    }
    return detail if shown else dict.fromkeys(detail)
