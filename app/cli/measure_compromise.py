"""`throughline measure cut-score --method hofstee | beuk`: a pass mark between what judges ask and how candidates did."""

import argparse

import numpy as np

from app.cli.measure_options import refuse_outside, role, with_detail
from app.files.measurement import Table, read_table
from assessments.measurement.beuk import beuk
from assessments.measurement.hofstee import hofstee
from assessments.measurement.limits import DEFAULT_LIMITS
from curriculum.faults import N_, Fault, RefusedError

HOFSTEE = (
    ("hofstee_kmin", "kmin", "lowest_cut"),
    ("hofstee_kmax", "kmax", "highest_cut"),
    ("hofstee_fmin", "fmin", "fewest_fail_percent"),
    ("hofstee_fmax", "fmax", "most_fail_percent"),
)
BEUK = (
    ("beuk_min_pass_mark", "min_pass_mark", "cut"),
    ("beuk_expected_pass_rate", "expected_pass_rate", "pass_percent"),
)

CUTS = {"hofstee_kmin", "hofstee_kmax", "beuk_min_pass_mark"}


def hofstee_cut(options: argparse.Namespace, table: Table, chance: np.random.Generator) -> dict[str, object]:
    scores, judges = _scores(options, table), _from_judges(options, HOFSTEE)
    found = hofstee(scores, judges, chance, options.max)
    counts = {"judges": len(judges), "candidates": len(scores)}
    cut = DEFAULT_LIMITS.compromise.applied(found.cut, options.anyway, **counts)
    box = dict(zip(("kmin", "kmax", "fmin", "fmax"), found.box, strict=True))
    fallback = {"fallback": found.fallback}
    return with_detail(cut, se=found.se, fail_percent=found.fail_percent) | box | fallback | counts


def beuk_cut(options: argparse.Namespace, table: Table, chance: np.random.Generator) -> dict[str, object]:
    scores, judges = _scores(options, table), _from_judges(options, BEUK)
    found = beuk(scores, judges, chance, options.max)
    counts = {"judges": len(judges), "candidates": len(scores)}
    cut = DEFAULT_LIMITS.compromise.applied(found.cut, options.anyway, **counts)
    passing = {"pass_percent": found.pass_percent, "fail_percent": 100 - found.pass_percent}
    asked = {"slope": found.slope, "mean_cut": found.mean_cut, "mean_pass": found.mean_pass}
    return with_detail(cut, se=found.se, **passing) | asked | counts


def _scores(options: argparse.Namespace, table: Table) -> np.ndarray:
    column = role(options, "score", table)
    scores = table.complete_numbers(column)
    refuse_outside(table, column, scores, options.max)
    return scores


def _from_judges(options: argparse.Namespace, names: tuple[tuple[str, ...], ...]) -> np.ndarray:
    """(judges, answers), each a cut that can be or a share in per cent."""
    if not options.judges:
        raise RefusedError([Fault("missing", N_("this method needs the judges' answers"), {}, "--judges")])
    table = read_table(options.judges)
    answers = []
    for choice in names:
        column = next((name for name in choice if name in table.columns), None)
        if column is None:
            sentence = N_("no column is named so; the judges' file has {columns}")
            values = {"columns": ", ".join(table.columns)}
            raise RefusedError([Fault("no-column", sentence, values, " or ".join(choice[1:]), 1, table.source)])
        own = table.complete_numbers(column)
        if choice[0] in CUTS:
            refuse_outside(table, column, own, options.max)
        else:
            _refuse_no_shares(table, column, own)
        answers.append(own)
    return np.stack(answers, axis=1)


def _refuse_no_shares(table: Table, column: str, own: np.ndarray) -> None:
    """Shares are in per cent; where all lie above 0 and up to 1, somebody wrote 0.7 and meant 70."""
    wrong = np.flatnonzero((own < 0) | (own > 100))
    if not len(wrong) and 0 < own.max(initial=0.0) <= 1:
        wrong = np.flatnonzero(own > 0)
    if len(wrong):
        raise RefusedError(table.cells(column, wrong, "per-cent", N_("{value} is no share in per cent, from 0 to 100")))
