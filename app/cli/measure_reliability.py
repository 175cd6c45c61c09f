"""`throughline measure reliability`: alpha and the standard error of a total score."""

import argparse

import numpy as np

from app.cli.measure_options import UNIT_NAMES, add_file_options, add_roles, columns_but_the_unit, role, show
from app.cli.speaking import spoken
from app.files.measurement import Table, read_table
from app.wording.measurement import reliability_sentences
from assessments.measurement.cronbach import cronbach
from assessments.measurement.limits import DEFAULT_LIMITS


def add_to(parser: argparse.ArgumentParser) -> None:
    add_file_options(parser)
    parser.add_argument("--wide", action="store_true", help="one row per candidate, a column for each part")
    add_roles(parser, unit="candidates", object="candidates", score="the mark of a part")
    add_roles(parser, item="the part", examiner="the part, where examiners are the parts")
    parser.add_argument("--facets", metavar="COLUMN[,COLUMN]", help="columns that together name the part")
    parser.set_defaults(act=measure)


def measure(options: argparse.Namespace) -> int:
    table = read_table(options.file)
    parts = _part_columns(options, table)
    marks = _long(options, table, parts) if parts else _wide(options, table)
    complete = marks[np.isfinite(marks).all(axis=1)]
    counts = {"candidates": len(complete), "items": marks.shape[1]}
    alpha, sem = cronbach(complete)
    found = {
        "alpha": DEFAULT_LIMITS.cronbach.applied(alpha, options.anyway, **counts),
        "sem": DEFAULT_LIMITS.cronbach.applied(sem, options.anyway, **counts),
    }
    left_out = len(marks) - len(complete)
    rests_on = {"candidates": len(complete), "items": marks.shape[1], "incomplete_left_out": left_out}
    return show(options, rests_on | found, reliability_sentences(found, rests_on, spoken()))


def _part_columns(options: argparse.Namespace, table: Table) -> list[str]:
    """The columns that name the part in a long table; none when the table is wide."""
    if options.wide:
        return []
    if options.facets:
        return [facet.strip() for facet in options.facets.split(",")]
    if options.item or options.examiner:
        return [column for column in (options.item, options.examiner) if column]
    marked = {"score", "rating"} & set(table.columns)
    if "item" in table.columns and marked:
        return ["item"]
    others = [column for column in table.columns if column not in (*UNIT_NAMES, *marked)]
    return others if marked and len(others) == 1 and len(table.columns) == 3 else []


def _wide(options: argparse.Namespace, table: Table) -> np.ndarray:
    options.unit = options.unit or options.object
    columns = columns_but_the_unit(options, table)
    return np.stack([table.numbers(column) for column in columns], axis=1)


def _long(options: argparse.Namespace, table: Table, facets: list[str]) -> np.ndarray:
    options.object = options.object or options.unit
    candidate = role(options, "object", table, ("unit", "candidate"))
    candidates, row = table.complete_codes(candidate)
    part = np.zeros(len(table), np.int64)
    for facet in facets:
        labels, codes = table.complete_codes(facet)
        part = part * len(labels) + codes
    parts, column = np.unique(part, return_inverse=True)
    table.refuse_repeated(row * len(parts) + column, candidate)
    marks = np.full((len(candidates), len(parts)), np.nan)
    marks[row, column] = table.numbers(role(options, "score", table, ("rating",)))
    return marks
