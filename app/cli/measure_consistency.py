"""`throughline measure consistency`: would the same candidates get the same result again."""

import argparse
from collections.abc import Callable
from dataclasses import astuple, fields

import numpy as np

from app.cli.measure_options import add_file_options, add_roles, number_option, refuse_outside, role, show
from app.cli.speaking import spoken
from app.files.measurement import Table, read_table
from app.wording.measurement import consistency_sentences
from assessments.measurement.huynh import huynh, kr21
from assessments.measurement.limits import DEFAULT_LIMITS
from assessments.measurement.livingston_lewis import livingston_lewis
from assessments.measurement.peng_subkoviak import from_scores
from assessments.measurement.refitting import refit_intervals
from assessments.measurement.rudner import rudner
from assessments.measurement.statistic import NO_VARIATION, NOT_DEFINED, measured, reason
from assessments.measurement.true_scores import Decisions
from curriculum.faults import N_, Fault, RefusedError

FROM_KR21 = reason(
    "from-kr21", N_("no reliability was given: KR-21 stands in, which is right for counts of equal tasks")
)
FEW_NEAR = reason("few-near-cut", N_("fewer than 10 candidates lie within one standard error of the cut"))

UNDEFINED_KR21 = reason("unreliable", N_("KR-21 is not defined for one task: give --reliability"))
NO_KR21 = N_("KR-21 comes to {value} for these scores, and a reliability lies between 0 and 1: give --reliability")


def add_to(parser: argparse.ArgumentParser) -> None:
    add_file_options(parser)
    add_roles(parser, score="the candidates' scores")
    parser.add_argument("--cut", type=number_option, required=True, help="the lowest score that passes")
    parser.add_argument("--max", type=number_option, help="the highest score there can be (not for rudner)")
    parser.add_argument("--min", type=number_option, default=0.0, help="the lowest score there can be (default 0)")
    parser.add_argument("--reliability", type=number_option, help="of the scores, above 0 and below 1 (else KR-21)")
    add_roles(parser, error="each measure's standard error, for rudner")
    methods = ("livingston-lewis", "huynh", "normal", "rudner")
    parser.add_argument("--method", choices=methods, default=methods[0], help=f"default {methods[0]}")
    parser.set_defaults(act=measure)


def measure(options: argparse.Namespace) -> int:
    _check(options)
    table = read_table(options.file)
    if options.method == "rudner":
        return _from_measures(options, table)
    column = role(options, "score", table)
    scores = table.complete_numbers(column)
    if len(scores) < 2:
        raise RefusedError([Fault("too-few", N_("needs two candidates at least"), {}, column, 2, table.source)])
    refuse_outside(table, column, scores, options.max, options.min)
    fit = _fit(options)
    low, high = refit_intervals(scores, lambda some: np.array(astuple(fit(some))), np.random.default_rng(options.seed))
    found = _statistics(options, fit(scores), low, high, _cautions(options, scores), len(scores))
    if found["agreement"].estimate is None:
        found = {name: one.held_back(_why_undecided(options, scores)) for name, one in found.items()}
    rests_on = {"candidates": len(scores), "method": options.method, "cut": options.cut}
    known = _reliability(options, scores)
    rests_on |= {"reliability": known, "kr21": kr21(scores - options.min, options.max - options.min)}
    return show(options, rests_on | found, consistency_sentences(found, rests_on, spoken()))


def _from_measures(options: argparse.Namespace, table: Table) -> int:
    scores = table.complete_numbers(role(options, "score", table, ("estimate", "measure")))
    error = role(options, "error", table, ("se",))
    errors = table.complete_numbers(error)
    wrong = np.flatnonzero(errors <= 0)
    if len(wrong):
        raise RefusedError(table.cells(error, wrong, "error", N_("{value} is not above 0")))
    decided = rudner(scores, errors, options.cut)

    def refit(rows: np.ndarray) -> np.ndarray:
        return np.array(astuple(rudner(scores[rows], errors[rows], options.cut)))

    low, high = refit_intervals(np.arange(len(scores)), refit, np.random.default_rng(options.seed))
    near = np.count_nonzero(np.abs(scores - options.cut) <= errors)
    found = _statistics(options, decided, low, high, [FEW_NEAR] * bool(near < 10), len(scores))
    rests_on = {"candidates": len(scores), "method": options.method, "cut": options.cut}
    return show(options, rests_on | found, consistency_sentences(found, rests_on, spoken()))


def _why_undecided(options: argparse.Namespace, scores: np.ndarray) -> Fault:
    """Why these scores decide nothing: they do not differ, or hang together too little, or there are too few."""
    if not np.ptp(scores):
        return NO_VARIATION
    few = DEFAULT_LIMITS.consistency.applied(measured(0.0, None, None, len(scores)), candidates=len(scores)).withheld
    known = _reliability(options, scores)
    if np.isnan(known):
        return few or UNDEFINED_KR21
    return few or (NOT_DEFINED if 0 < known < 1 else reason("unreliable", NO_KR21, value=f"{known:.3g}"))


def _cautions(options: argparse.Namespace, scores: np.ndarray) -> list[Fault]:
    known = _reliability(options, scores)
    error = scores.std(ddof=1) * np.sqrt(max(0.0, 1 - known)) if len(scores) > 1 else 0.0
    near = np.count_nonzero(np.abs(scores - options.cut) <= error)
    return [FROM_KR21] * (options.reliability is None) + [FEW_NEAR] * bool(near < 10)


def _statistics(
    options: argparse.Namespace, decided: Decisions, low: np.ndarray, high: np.ndarray, cautions: list[Fault], n: int
) -> dict[str, object]:
    found = {}
    for at, field in enumerate(fields(decided)):
        statistic = measured(getattr(decided, field.name), low[at], high[at], n)
        shown = DEFAULT_LIMITS.consistency.applied(statistic, options.anyway, candidates=n)
        found[field.name] = shown.flagged(*cautions) if shown.estimate is not None else shown
    return found


def _reliability(options: argparse.Namespace, scores: np.ndarray) -> float:
    given = options.reliability
    return kr21(scores - options.min, options.max - options.min) if given is None else given


def _fit(options: argparse.Namespace) -> Callable[[np.ndarray], Decisions]:
    least, most, cut = options.min, options.max, options.cut
    if options.method == "huynh":
        return lambda scores: huynh(scores - least, cut - least, int(most - least), options.reliability)
    if options.method == "normal":
        return lambda scores: from_scores(scores, cut, _reliability(options, scores))
    return lambda scores: livingston_lewis(scores, cut, most, _reliability(options, scores), least)


def _check(options: argparse.Namespace) -> None:
    faults = []
    if options.method == "rudner":
        return
    if options.max is None:
        raise RefusedError([Fault("missing", N_("this method needs the highest score there can be"), {}, "--max")])
    if not options.min < options.max:
        faults.append(Fault("range", N_("must be above --min"), {}, "--max"))
    if not options.min <= options.cut <= options.max:
        faults.append(Fault("range", N_("must lie between --min and --max"), {}, "--cut"))
    if options.reliability is not None and not 0 < options.reliability < 1:
        faults.append(Fault("range", N_("must be above 0 and below 1"), {}, "--reliability"))
    if options.method == "huynh" and (options.max - options.min) % 1:
        faults.append(Fault("range", N_("must be a whole number of tasks for this method"), {}, "--max"))
    if faults:
        raise RefusedError(faults)
