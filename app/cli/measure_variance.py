"""`throughline measure variance`: where the differences between marks come from, and what a plan would be worth."""

import argparse
from collections.abc import Sequence

import numpy as np

from app.cli.measure_options import add_file_options, named, number_option, positive_option, role, show, unit_column
from app.cli.speaking import spoken
from app.files.measurement import Table, read_table
from app.wording.measurement_variance import variance_sentences
from assessments.measurement.limits import DEFAULT_LIMITS
from assessments.measurement.variance_design import VarianceDesign, variance_design
from assessments.measurement.variance_report import Question, variance_report
from curriculum.faults import N_, Fault, RefusedError


def add_to(parser: argparse.ArgumentParser) -> None:
    add_file_options(parser)
    parser.add_argument(
        "--object",
        metavar="COLUMN",
        help="column of what is measured (default: candidate)",
    )
    parser.add_argument("--facets", metavar="A,B,…", help="columns of the facets (default: examiner)")
    parser.add_argument("--score", metavar="COLUMN", help="column of the score (default: score)")
    parser.add_argument(
        "--examiner",
        metavar="COLUMN",
        help="the facet of examiners (default: examiner, else the first)",
    )
    parser.add_argument(
        "--nested",
        action="append",
        default=[],
        metavar="A=B",
        help="A is nested in B, as in examiner=task (repeatable)",
    )
    parser.add_argument("--fixed", metavar="A,…", help="facets whose elements are the whole set")
    parser.add_argument(
        "--method",
        choices=("anova", "reml"),
        default="anova",
        help="mean squares, or REML",
    )
    parser.add_argument(
        "--plan",
        action="append",
        default=[],
        metavar="A=N,B=N",
        help="numbers of a plan; unequal loads as in examiner=4/2/1 (repeatable)",
    )
    parser.add_argument(
        "--cut",
        type=number_option,
        metavar="SCORE",
        help="the cut, on the scale of one score",
    )
    parser.add_argument(
        "--wide",
        action="store_true",
        help="one row per candidate, a column for each element",
    )
    parser.set_defaults(act=measure)


def measure(options: argparse.Namespace) -> int:
    factors, design = design_in(read_table(options.file), options)
    plans, shown = _plans(options.plan, factors, design)
    judge = options.examiner or named(factors[1:], ["examiner"]) or factors[1]
    fixed = [_place(name, factors, "--fixed") for name in _listed(options.fixed)]
    if len(fixed) == len(factors) - 1:
        sentence = N_("holds every facet; nothing is left to generalize over")
        raise RefusedError([Fault("all-fixed", sentence, {}, "--fixed")])
    question = Question(
        options.method,
        plans,
        fixed,
        options.cut,
        _place(judge, factors, "--examiner"),
        shown,
    )
    chance = np.random.default_rng(options.seed)
    found = variance_report(design, question, chance, DEFAULT_LIMITS, options.anyway)
    rests_on = {
        "n": len(design.scores),
        "levels": _levels(design, factors),
        "cut": options.cut,
    }
    return show(
        options,
        rests_on | found,
        variance_sentences(found, factors, judge, design.objects, spoken()),
    )


def design_in(table: Table, options: argparse.Namespace) -> tuple[list[str], VarianceDesign]:
    """The factors' names, object first, and the design; rows without a score are left out."""
    factors, codes, scores = _wide(table, options) if options.wide else _long(table, options)
    kept = ~np.isnan(scores)
    if kept.sum() < 2:
        raise RefusedError(
            [
                Fault(
                    "no-scores",
                    N_("has no two scores"),
                    {},
                    "score",
                    None,
                    table.source,
                )
            ]
        )
    codes = [np.unique(column[kept], return_inverse=True)[1] for column in codes]
    return factors, variance_design(factors, codes, scores[kept], _nested(options.nested))


def _long(table: Table, options: argparse.Namespace):
    thing = role(options, "object", table, ("candidate",))
    facets = _listed(options.facets) or [role(options, "examiner", table)]
    factors = [thing, *facets]
    twice = sorted({name for name in factors if factors.count(name) > 1})
    if twice:
        raise RefusedError(Fault("twice", N_("stands twice among object and facets"), {}, name) for name in twice)
    score = role(options, "score", table, ("rating",))
    return (
        factors,
        [table.complete_codes(name)[1] for name in factors],
        table.numbers(score),
    )


def _wide(table: Table, options: argparse.Namespace):
    first = unit_column(options.object, table)
    columns = [name for name in table.columns if name != first]
    if len(columns) < 2:
        sentence = N_("needs two columns or more beside the one that names the rows")
        raise RefusedError([Fault("one-column", sentence, {}, first or "", 1, table.source)])
    if first:
        table.refuse_repeated(table.complete_codes(first)[1], first)
    facet = (_listed(options.facets) or ["item"])[0]
    rows = np.repeat(np.arange(len(table)), len(columns))
    scores = np.column_stack([table.numbers(name) for name in columns]).ravel()
    return (
        [first or "candidate", facet],
        [rows, np.tile(np.arange(len(columns)), len(table))],
        scores,
    )


def _listed(text: str | None) -> list[str]:
    return [name.strip() for name in (text or "").split(",") if name.strip()]


def _place(name: str, factors: Sequence[str], option: str) -> int:
    if name not in factors[1:]:
        sentence = N_("{name} is not one of the facets: {facets}")
        raise RefusedError(
            [
                Fault(
                    "no-facet",
                    sentence,
                    {"name": name, "facets": ", ".join(factors[1:])},
                    option,
                )
            ]
        )
    return factors.index(name)


def _nested(pairs: Sequence[str]) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for pair in (part for text in pairs for part in _listed(text)):
        inner, equals, outer = (part.strip() for part in pair.partition("="))
        if not (inner and equals and outer):
            raise RefusedError(
                [
                    Fault(
                        "nested",
                        N_("{pair} is not of the form examiner=task"),
                        {"pair": pair},
                        "--nested",
                    )
                ]
            )
        found.setdefault(inner, []).append(outer)
    return found


def _plans(texts: Sequence[str], factors: Sequence[str], design: VarianceDesign):
    plans, shown = [], []
    for text in texts:
        numbers = {factors.index(name): number for name, number in _observed(design, factors).items()}
        written: dict[str, object] = {}
        for part in _listed(text):
            name, _, value = (piece.strip() for piece in part.partition("="))
            place = _place(name, factors, "--plan")
            numbers[place] = _effective(value, part)
            written[name] = numbers[place] if "/" in value else float(value)
        plans.append(numbers)
        shown.append(_observed(design, factors) | written)
    return plans, [{name: int(n) if n == int(n) else n for name, n in plan.items()} for plan in shown]


def _effective(value: str, part: str) -> float:
    try:
        loads = [positive_option(load) for load in value.split("/")]
    except argparse.ArgumentTypeError:
        loads = []
    if not loads:
        sentence = N_("{part} is not of the form examiner=2, nor examiner=4/2/1 for unequal loads")
        raise RefusedError([Fault("plan", sentence, {"part": part}, "--plan")])
    return loads[0] if len(loads) == 1 else sum(loads) ** 2 / sum(load**2 for load in loads)


def _observed(design: VarianceDesign, factors: Sequence[str]) -> dict[str, float]:
    """Levels of each facet within those it is nested in, on average."""
    found = {}
    for place, name in enumerate(factors[1:], start=1):
        own = next(effect for effect in design.effects if place in effect.factors)
        outer = own.factors - {place}
        codes = np.unique(own.codes, return_index=True)[1]
        around = [effect for effect in design.effects if effect.factors == outer]
        groups = len(np.unique(around[0].codes[codes])) if around else 1
        found[name] = len(codes) / groups
    return found


def _levels(design: VarianceDesign, factors: Sequence[str]) -> dict[str, int]:
    found = {}
    for place, name in enumerate(factors):
        own = next(effect for effect in design.effects if place in effect.factors)
        found[name] = own.levels
    return found
