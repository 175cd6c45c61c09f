"""`throughline measure agreement`: every coefficient of agreement that the ratings allow."""

import argparse
from dataclasses import replace

import numpy as np

from app.cli.measure_options import add_file_options, add_roles, columns_but_the_unit, role, show
from app.cli.speaking import spoken
from app.files.measurement import Table, read_table
from app.files.ratings import ratings_counts, ratings_long, ratings_square, ratings_wide
from app.wording.measurement import agreement_sentences
from assessments.measurement.agreement_report import agreement_report
from assessments.measurement.limits import DEFAULT_LIMITS
from assessments.measurement.ratings import Ratings
from curriculum.faults import N_, Fault, RefusedError


def add_to(parser: argparse.ArgumentParser) -> None:
    add_file_options(parser)
    add_roles(parser, unit="what is rated", examiner="who rates", score="the rating")
    parser.add_argument("--candidate", metavar="COLUMN", help="whose unit it is, where a candidate has several")
    layout = parser.add_mutually_exclusive_group()
    layout.add_argument("--wide", action="store_true", help="one row per unit, a column for each examiner")
    layout.add_argument("--square", action="store_true", help="counts: rows examiner A, columns examiner B")
    layout.add_argument("--counts", action="store_true", help="counts: one row per unit, a column for each category")
    parser.add_argument("--categories", metavar="A,B,…", help="the scale's categories, lowest first")
    parser.add_argument(
        "--disagreement", metavar="ROWS", help='a table of disagreement for kappa_weighted, such as "0,1,3;1,0,6;3,6,0"'
    )
    parser.set_defaults(act=measure)


def measure(options: argparse.Namespace) -> int:
    table = read_table(options.file)
    ratings = owned(ratings_in(table, options), table, options)
    weights = _disagreement(options, len(ratings.categories))
    chance = np.random.default_rng(options.seed)
    found = agreement_report(ratings, chance, DEFAULT_LIMITS, options.anyway, weights)
    rests_on = {
        "units": ratings.units,
        "units_with_two_ratings": ratings.units_with_two,
        "ratings": len(ratings.unit),
        "examiners": list(ratings.examiners),
        "categories": list(ratings.categories) if len(ratings.categories) <= 100 else None,
    }
    return show(options, rests_on | found, agreement_sentences(ratings, found, spoken()))


def ratings_in(table: Table, options: argparse.Namespace) -> Ratings:
    """The ratings of a file in the layout that the options say."""
    categories = _categories(options)
    if options.square:
        return ratings_square(table)
    if options.counts:
        return ratings_counts(table, columns_but_the_unit(options, table), categories is not None)
    if options.wide:
        return ratings_wide(table, columns_but_the_unit(options, table, options.candidate), categories)
    unit, examiner, score = (role(options, name, table) for name in ("unit", "examiner", "score"))
    return ratings_long(table, unit, examiner, score, categories)


def owned(ratings: Ratings, table: Table, options: argparse.Namespace) -> Ratings:
    """The ratings with whose unit each is; `RefusedError` where a unit is given to two candidates."""
    if options.candidate is None:
        return ratings
    if options.square or options.counts:
        raise RefusedError([Fault("layout", N_("needs one row a unit, or one row a rating"), {}, "--candidate")])
    candidate = table.complete_codes(options.candidate)[1]
    if options.wide:
        return replace(ratings, owner=candidate)
    unit = table.complete_codes(role(options, "unit", table))[1]
    owner = np.zeros(ratings.units, np.int64)
    owner[unit[::-1]] = candidate[::-1]
    apart = np.flatnonzero(owner[unit] != candidate)
    if len(apart):
        sentence = N_("gives a unit to a second candidate; a unit belongs to one")
        line = table.lines[apart[0]]
        raise RefusedError([Fault("two-candidates", sentence, {}, options.candidate, line, table.source)])
    return replace(ratings, owner=owner)


def _categories(options: argparse.Namespace) -> list[str] | None:
    if options.categories is None:
        return None
    labels = [label.strip() for label in options.categories.split(",") if label.strip()]
    if len(set(labels)) < 2 or len(set(labels)) < len(labels):
        raise RefusedError([Fault("categories", N_("needs two different categories or more"), {}, "--categories")])
    return labels


def _disagreement(options: argparse.Namespace, q: int) -> np.ndarray | None:
    if options.disagreement is None:
        return None
    sentence = N_("must be {q} rows of {q} numbers, rows apart by ; and numbers by , with nothing below 0")
    fault = Fault("disagreement", sentence, {"q": q}, "--disagreement")
    try:
        table = np.array([[float(cell) for cell in row.split(",")] for row in options.disagreement.split(";")])
    except ValueError as error:
        raise RefusedError([fault]) from error
    if table.shape != (q, q) or not np.isfinite(table).all() or table.min() < 0 or table.max() == 0:
        raise RefusedError([fault])
    return table
