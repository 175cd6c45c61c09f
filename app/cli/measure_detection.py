"""`throughline measure detection`: how well each observer tells faults from sound clips."""

import argparse

import numpy as np

from app.cli.measure_options import add_file_options, add_roles, role, show
from app.cli.speaking import spoken
from app.files.measurement import Table, read_table
from app.wording.measurement import detection_sentences
from assessments.measurement.detection import detection, pooled_detection
from assessments.measurement.limits import DEFAULT_LIMITS
from curriculum.faults import N_, Fault, RefusedError

COUNTS = ("hits", "signal_trials", "false_alarms", "noise_trials")
YES_NO = {"1": 1, "0": 0, "1.0": 1, "0.0": 0, "yes": 1, "no": 0, "true": 1, "false": 0}


def add_to(parser: argparse.ArgumentParser) -> None:
    add_file_options(parser)
    add_roles(parser, observer="observers")
    for name in COUNTS:
        words = name.replace("_", " ")
        parser.add_argument(
            f"--{name.replace('_', '-')}", metavar="COLUMN", help=f"column of {words} (default: {name})"
        )
    add_roles(parser, signal="1 for a clip with a fault, 0 for a sound one", response="1 where a fault was reported")
    rules = ("log-linear", "half", "none")
    parser.add_argument(
        "--correction", choices=rules, default=rules[0], help=f"for rates of 0 and 1; default {rules[0]}"
    )
    parser.set_defaults(act=measure)


def measure(options: argparse.Namespace) -> int:
    table = read_table(options.file)
    names, counts = _trials(options, table) if _one_row_a_trial(options, table) else _counts(options, table)
    observers = [_observer(options, name, row) for name, row in zip(names, counts, strict=True)]
    answer = {"correction": options.correction, "observers": observers}
    if len(observers) > 1:
        answer |= _pooled(options, counts)
    return show(options, answer, detection_sentences(observers, answer.get("pooled"), spoken()))


def _pooled(options: argparse.Namespace, counts: np.ndarray) -> dict[str, object]:
    statistic, se = pooled_detection(counts)
    signal, noise = (int(total) for total in counts.sum(axis=0)[[1, 3]])
    shown = DEFAULT_LIMITS.detection.applied(statistic, options.anyway, signal_trials=signal, noise_trials=noise)
    return {"pooled": shown, "pooled_se": se if shown.estimate is not None else None}


def _observer(options: argparse.Namespace, name: str, counts: np.ndarray) -> dict[str, object]:
    found = detection(*(float(count) for count in counts), options.correction)
    trials = {"signal_trials": int(counts[1]), "noise_trials": int(counts[3])}
    limit = DEFAULT_LIMITS.detection
    d_prime = limit.applied(found.d_prime, options.anyway, **trials)
    detail = {
        "se": found.se,
        "hit_rate": found.hit_rate,
        "false_alarm_rate": found.false_alarm_rate,
        "ln_beta": found.ln_beta,
        "beta": float(np.exp(found.ln_beta)),
        "a_prime": found.a_prime,
        "a_z": found.a_z,
    }
    return {
        "id": name,
        "d_prime": d_prime,
        "criterion": limit.applied(found.criterion, options.anyway, **trials),
        **(detail if d_prime.estimate is not None else dict.fromkeys(detail)),
        "hits": int(counts[0]),
        "false_alarms": int(counts[2]),
        **trials,
    }


def _one_row_a_trial(options: argparse.Namespace, table: Table) -> bool:
    return options.hits is None and "hits" not in table.columns


def _counts(options: argparse.Namespace, table: Table) -> tuple[list[str], np.ndarray]:
    columns = [role(options, name, table) for name in COUNTS]
    counts = np.stack([table.complete_numbers(column, whole=True) for column in columns], axis=1)
    for count, trials in ((0, 1), (2, 3)):
        wrong = np.flatnonzero((counts[:, count] > counts[:, trials]) | (counts[:, count] < 0))
        if len(wrong):
            sentence = N_("must lie between 0 and the {trials}")
            values, line = {"trials": columns[trials]}, table.lines[wrong[0]]
            raise RefusedError([Fault("count", sentence, values, columns[count], line, table.source)])
    names = [str(place + 1) for place in range(len(table))]
    if options.observer or "observer" in table.columns:
        column = role(options, "observer", table)
        labels, place = table.complete_codes(column)
        counts = np.stack([np.bincount(place, part, len(labels)) for part in counts.T], axis=1)
        names = list(labels)
    return names, counts


def _trials(options: argparse.Namespace, table: Table) -> tuple[list[str], np.ndarray]:
    names, who = ("all",), np.zeros(len(table), np.int64)
    if options.observer or "observer" in table.columns:
        names, who = table.complete_codes(role(options, "observer", table))
    signal, response = (_yes_no(table, role(options, name, table)) for name in ("signal", "response"))
    sums = (signal & response, signal, ~signal & response, ~signal)
    return list(names), np.stack([np.bincount(who, part, len(names)) for part in sums], axis=1)


def _yes_no(table: Table, column: str) -> np.ndarray:
    found = [YES_NO.get(cell.lower()) for cell in table.text(column)]
    if None in found:
        line = table.lines[found.index(None)]
        sentence = N_("must be 1 or 0 (or yes or no)")
        raise RefusedError([Fault("yes-no", sentence, {}, column, line, table.source)])
    return np.array(found, bool)
