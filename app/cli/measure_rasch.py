"""`throughline measure rasch`: severity of examiners, and measures of candidates freed from it."""

import argparse
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from app.cli.measure_options import add_file_options, named, role, show, unit_column, whole_option
from app.cli.speaking import spoken
from app.files.measurement import Table, in_order, read_table
from app.wording.measurement_rasch import rasch_sentences
from assessments.measurement.limits import DEFAULT_LIMITS
from assessments.measurement.rasch.design import RaschDesign, rasch_design
from assessments.measurement.rasch.report import Asked, rasch_report
from curriculum.faults import N_, Fault, RefusedError

MOST_RATINGS_FOR_ADVICE = 200_000


def add_to(parser: argparse.ArgumentParser) -> None:
    add_file_options(parser)
    parser.add_argument(
        "--object",
        metavar="COLUMN",
        help="column of the candidates (default: candidate)",
    )
    parser.add_argument(
        "--facets",
        metavar="A,B,…",
        help="columns of the facets (default: examiner,exercise,criterion)",
    )
    parser.add_argument(
        "--score",
        metavar="COLUMN",
        help="column of the ratings (default: score, else rating)",
    )
    parser.add_argument(
        "--examiner",
        metavar="COLUMN",
        help="the facet of examiners (default: examiner, else the first)",
    )
    parser.add_argument(
        "--lesson",
        metavar="COLUMN",
        help="the facet whose ratings share a lesson (default: exercise)",
    )
    parser.add_argument(
        "--model",
        choices=("rating-scale", "partial-credit"),
        help="steps for all, or for each (see --steps)",
    )
    parser.add_argument(
        "--steps",
        metavar="COLUMN",
        help="facet with steps of its own (default: criterion, else the last)",
    )
    parser.add_argument(
        "--groups",
        metavar="COLUMN",
        help="column of the candidates' group: a mean for each",
    )
    parser.add_argument("--estimator", choices=("marginal", "joint", "conditional"), default="marginal")
    parser.add_argument(
        "--session",
        metavar="COLUMN",
        help="column of the session (default: session, when there is one)",
    )
    parser.add_argument("--time", metavar="COLUMN", help="column of time, a number (default: none)")
    parser.add_argument(
        "--draws",
        type=whole_option,
        metavar="N",
        help="simulated sets for the range of fit (default: 200, none above 100,000 ratings)",
    )
    parser.add_argument(
        "--wide",
        action="store_true",
        help="one row per candidate, a column for each element",
    )
    parser.set_defaults(act=measure)


def measure(options: argparse.Namespace) -> int:
    table = read_table(options.file)
    names, columns, ratings, kept = _wide(table, options) if options.wide else _long(table, options)
    facets = [(name, *column) for name, column in zip(names[1:], columns[1:], strict=True)]
    steps_of = _steps(options, names)
    design = rasch_design(columns[0], facets, ratings, steps_of)
    asked = replace(
        _asked(options, table, names, design, kept),
        other=_other(options, names, columns[0], facets, ratings, steps_of),
    )
    chance = np.random.default_rng(options.seed)
    found = rasch_report(design, asked, chance, DEFAULT_LIMITS, options.anyway)
    model = "partial-credit" if len(design.groups) > 1 else "rating-scale"
    rests_on = {
        "n": len(design.cell),
        "left_out": len(table) - len(kept) if not options.wide else 0,
        "model": model,
    }
    return show(
        options,
        rests_on | found,
        rasch_sentences(found, design.facets[asked.judge].name, spoken()),
    )


def _long(table: Table, options: argparse.Namespace):
    thing = role(options, "object", table, ("candidate",))
    found = [named(table.columns, [name]) for name in ("examiner", "exercise", "criterion")]
    usual = [name for name in found if name]
    facets = _listed(options.facets) or usual or [role(options, "facets", table)]
    twice = sorted({name for name in facets if [thing, *facets].count(name) > 1})
    if twice:
        raise RefusedError(Fault("twice", N_("stands twice among object and facets"), {}, name) for name in twice)
    ratings = table.numbers(role(options, "score", table, ("rating",)))
    kept = np.flatnonzero(~np.isnan(ratings))
    columns = [_kept(*table.complete_codes(name), kept) for name in (thing, *facets)]
    return [thing, *facets], columns, ratings[kept], kept


def _kept(labels: Sequence[str], codes: np.ndarray, kept: np.ndarray) -> tuple[tuple[str, ...], np.ndarray]:
    used, codes = np.unique(codes[kept], return_inverse=True)
    return tuple(labels[place] for place in used), codes


def _wide(table: Table, options: argparse.Namespace):
    thing = unit_column(options.object, table)
    labels = [name for name in table.columns if name not in (thing, options.groups)]
    if len(labels) < 2:
        sentence = N_("needs two columns or more beside the one that names the rows")
        raise RefusedError([Fault("one-column", sentence, {}, thing or "", 1, table.source)])
    if thing:
        table.refuse_repeated(table.complete_codes(thing)[1], thing)
    ratings = np.column_stack([table.numbers(name) for name in labels]).ravel()
    kept = np.flatnonzero(~np.isnan(ratings))
    people = table.text(thing) if thing else [str(number + 1) for number in range(len(table))]
    rows = np.repeat(np.arange(len(table)), len(labels))
    items = np.tile(np.arange(len(labels)), len(table))
    facet = (_listed(options.facets) or ["item"])[0]
    return (
        [thing or "candidate", facet],
        [_kept(people, rows, kept), _kept(labels, items, kept)],
        ratings[kept],
        kept,
    )


def _listed(text: str | None) -> list[str]:
    return [name.strip() for name in (text or "").split(",") if name.strip()]


def _steps(options: argparse.Namespace, names: Sequence[str]) -> str | None:
    if options.model == "rating-scale" or (options.model is None and options.steps is None):
        return None
    chosen = options.steps or named(names[1:], ["criterion"]) or names[-1]
    return names[_place(chosen, names, "--steps") + 1]


def _other(options, names: Sequence[str], people, facets, ratings: np.ndarray, steps_of: str | None):
    """The same ratings with the other steps, to be compared with; None where there is nothing to compare."""
    if options.estimator != "marginal" or not 3 <= len(np.unique(ratings)) <= len(ratings) <= MOST_RATINGS_FOR_ADVICE:
        return None
    own = options.steps or named(names[1:], ["criterion"]) or names[-1]
    try:
        return rasch_design(people, facets, ratings, own if steps_of is None else None)
    except RefusedError:
        return None


def _place(name: str, names: Sequence[str], option: str) -> int:
    if name not in names[1:]:
        sentence = N_("{name} is not one of the facets: {facets}")
        raise RefusedError(
            [
                Fault(
                    "no-facet",
                    sentence,
                    {"name": name, "facets": ", ".join(names[1:])},
                    option,
                )
            ]
        )
    return names[1:].index(name)


def _asked(options, table: Table, names: Sequence[str], design: RaschDesign, kept: np.ndarray) -> Asked:
    judge = _place(
        options.examiner or named(names[1:], ["examiner"]) or names[1],
        names,
        "--examiner",
    )
    lesson = options.lesson or named(names[1:], ["exercise"])
    lesson = _place(lesson, names, "--lesson") if lesson else None
    labels, group = _groups(options, table, design, kept)
    session = time = None
    if not options.wide:
        column = options.session or named(table.columns, ["session"])
        session = _kept(*table.complete_codes(column), kept) if column else None
        time = table.complete_numbers(options.time)[kept] if options.time else None
    return Asked(options.estimator, judge, lesson, group, labels, session, time, options.draws)


def _groups(options, table: Table, design: RaschDesign, kept: np.ndarray) -> tuple[tuple[str, ...], np.ndarray]:
    if not options.groups:
        return ("all",), np.zeros(len(design.candidates), np.int64)
    cells = table.text(options.groups)
    named = {unit_column(options.object, table), options.groups} - {None}
    rows = kept // (len(table.columns) - len(named)) if options.wide else kept
    empty = [row for row in np.unique(rows) if not cells[row]]
    if empty:
        raise RefusedError(table.cells(options.groups, empty, "missing", N_("is empty; a value is needed here")))
    labels = in_order({cells[row] for row in rows})
    place = {label: number for number, label in enumerate(labels)}
    codes = np.array([place[cells[row]] for row in rows])
    group = np.zeros(len(design.candidates), np.int64)
    group[design.candidate] = codes
    apart = np.flatnonzero(group[design.candidate] != codes)
    if len(apart):
        sentence = N_("puts a candidate in a second group; a candidate belongs to one")
        line = table.lines[rows[apart[0]]]
        raise RefusedError([Fault("two-groups", sentence, {}, options.groups, line, table.source)])
    return labels, group
