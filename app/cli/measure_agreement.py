"""`throughline measure agreement`: every coefficient of agreement that the ratings allow."""

import argparse

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
    ratings = ratings_in(read_table(options.file), options)
    table = _disagreement(options, len(ratings.categories))
    chance = np.random.default_rng(options.seed)
    found = agreement_report(ratings, chance, DEFAULT_LIMITS, options.anyway, table)
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
        return ratings_wide(table, columns_but_the_unit(options, table), categories)
    unit, examiner, score = (role(options, name, table) for name in ("unit", "examiner", "score"))
    return ratings_long(table, unit, examiner, score, categories)


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
