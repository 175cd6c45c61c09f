"""`throughline measure cut-score`: a pass mark by the method asked for."""

import argparse
from collections.abc import Callable

import numpy as np

from app.cli.measure_compromise import beuk_cut, hofstee_cut
from app.cli.measure_exam_cut import exam_regression
from app.cli.measure_options import (
    add_file_options,
    add_roles,
    columns_but_the_unit,
    number_option,
    positive_option,
    refuse_outside,
    role,
    show,
    with_detail,
)
from app.cli.speaking import spoken
from app.files.measurement import Table, read_table
from app.wording.measurement_cut_score import cut_score_sentences
from assessments.measurement.angoff import angoff
from assessments.measurement.angoff_rounds import compare_rounds
from assessments.measurement.borderline_group import borderline_group
from assessments.measurement.borderline_regression import borderline_regression
from assessments.measurement.contrasting_groups import contrasting_groups
from assessments.measurement.limits import DEFAULT_LIMITS
from assessments.measurement.statistic import Statistic, reason
from curriculum.faults import N_, Fault, RefusedError

LOW_R2 = reason("low-r2", N_("grades explain less than 40 % of the differences between marks"))
BEYOND = reason(
    "beyond", N_("the borderline grade lies beyond the grades given, so that the line is drawn on past them")
)
FAR = N_("more than 2 standard deviations from the judges' mean")
AT_ODDS = N_("sees which elements are hard quite unlike the other judges")


def add_to(parser: argparse.ArgumentParser) -> None:
    add_file_options(parser)
    parser.add_argument("--method", choices=sorted(METHODS), required=True)
    parser.add_argument("--judges", metavar="FILE", help="the judges' answers (hofstee, beuk)")
    parser.add_argument("--before", metavar="FILE", help="angoff: the same judges' answers in the round before")
    parser.add_argument("--wide", action="store_true", help="angoff: one row per judge, a column for each element")
    add_roles(parser, score="scores", grade="overall grades", judge="judges", element="elements (angoff, long)")
    parser.add_argument("--borderline", metavar="GRADE[,GRADE]", help="the borderline grade; two if the scale has two")
    parser.add_argument("--groups", metavar="COLUMN", help="contrasting groups: 1 for competent, 0 for not yet")
    parser.add_argument("--competent", metavar="GRADE", type=number_option, help="the lowest grade that is competent")
    parser.add_argument("--max", type=positive_option, help="the highest mark there can be")
    parser.add_argument(
        "--exercise", metavar="COLUMN", help="borderline regression: add up the pass marks of the exercises in COLUMN"
    )
    parser.add_argument("--unit", metavar="COLUMN", help="column of candidates (with --exercise; default: candidate)")
    for which in ("pass", "fail"):
        parser.add_argument(
            f"--false-{which}-cost", metavar="COST", type=positive_option, default=1.0,
            help=f"contrasting groups: how bad a wrong {which} is beside a wrong {'fail' if which == 'pass' else 'pass'}",
        )  # fmt: skip
    parser.set_defaults(act=measure)


def measure(options: argparse.Namespace) -> int:
    table = read_table(options.file)
    chance = np.random.default_rng(options.seed)
    found = METHODS[options.method](options, table, chance)
    cut = found["cut"]
    if options.max and isinstance(cut, Statistic) and cut.estimate is not None:
        found["cut_percent"] = 100 * cut.estimate / options.max
    return show(
        options, {"method": options.method} | found, cut_score_sentences(options.method, found, options.max, spoken())
    )


def _angoff(options: argparse.Namespace, table: Table, chance: np.random.Generator) -> dict[str, object]:
    names, marks = _judgements(options, table)
    _refuse_below_nothing(table, marks)
    found = angoff(marks)
    cut = DEFAULT_LIMITS.angoff.applied(found.cut, options.anyway, judges=len(names))
    judges = [
        {"id": name, "cut": own, "flags": [text for text, is_so in ((FAR, far), (AT_ODDS, odd)) if is_so]}
        for name, own, far, odd in zip(names, found.judge_cuts.tolist(), found.far, found.at_odds, strict=True)
    ]
    top = options.max or (marks.shape[1] if marks.max() <= 1 else None)
    return with_detail(
        cut,
        cut_percent=100 * found.cut.estimate / top if top and found.cut.estimate is not None else None,
        se=found.se,
        se_new_elements=found.se_new_elements,
        median=found.median,
        judge_sd=found.judge_sd,
        variances=found.variances,
    ) | {"judges": judges, "rounds": _rounds(options, names, marks)}


def _refuse_below_nothing(table: Table, marks: np.ndarray) -> None:
    if marks.min(initial=0) < 0:
        sentence = N_("a just-acceptable candidate's chance or mark can't be below nothing: {value}")
        raise RefusedError([Fault("negative", sentence, {"value": f"{marks.min():g}"}, "", None, table.source)])


def _rounds(options: argparse.Namespace, names: list[str], marks: np.ndarray) -> dict[str, object] | None:
    """How the judges moved since the round before, matched by their names."""
    if not options.before:
        return None
    table = read_table(options.before)
    before, earlier = _judgements(options, table)
    faults = [
        Fault("judges", N_("judge {judge} is not in both rounds"), {"judge": name}, "--before", None, table.source)
        for name in sorted(set(names) ^ set(before))
    ]
    if earlier.shape[1] != marks.shape[1]:
        values = {"before": earlier.shape[1], "now": marks.shape[1]}
        sentence = N_("has {before} elements; the later round has {now}")
        faults.append(Fault("elements", sentence, values, "--before", None, table.source))
    if faults:
        raise RefusedError(faults)
    moved = compare_rounds(earlier[[before.index(name) for name in names]], marks)
    return {
        "change": DEFAULT_LIMITS.angoff.applied(moved.change, options.anyway, judges=len(names)),
        "sd_before": moved.sd_before,
        "sd_after": moved.sd_after,
        "sd_p": moved.sd_p,
        "by_judge": dict(zip(names, moved.by_judge.tolist(), strict=True)),
    }


def _judgements(options: argparse.Namespace, table: Table) -> tuple[list[str], np.ndarray]:
    long = not options.wide and (options.element or "element" in table.columns)
    if not long:
        options.unit = options.judge or ("judge" if "judge" in table.columns else None)
        columns = columns_but_the_unit(options, table)
        names = table.text(options.unit) if options.unit else [str(row + 1) for row in range(len(table))]
        return list(names), np.stack([table.complete_numbers(column) for column in columns], axis=1)
    judge = role(options, "judge", table)
    (judges, row), (elements, column) = (
        table.complete_codes(judge),
        table.complete_codes(role(options, "element", table)),
    )
    table.refuse_repeated(row * len(elements) + column, judge)
    marks = np.full((len(judges), len(elements)), np.nan)
    marks[row, column] = table.complete_numbers(role(options, "score", table))
    missing = np.argwhere(np.isnan(marks))
    if len(missing):
        sentence = N_("judge {judge} has no answer for {element}")
        values = {"judge": judges[missing[0][0]], "element": elements[missing[0][1]]}
        raise RefusedError([Fault("missing", sentence, values, judge, None, table.source)])
    return list(judges), marks


def _scored(options: argparse.Namespace, table: Table) -> tuple[np.ndarray, str, np.ndarray]:
    """Scores and grade column of the candidates who have both, and which rows those are."""
    grade = role(options, "grade", table, ("global_grade",))
    score = role(options, "score", table)
    scores = table.numbers(score)
    refuse_outside(table, score, scores, options.max)
    kept = np.isfinite(scores) & np.array([bool(cell) for cell in table.text(grade)])
    return scores[kept], grade, kept


def _borderline(options: argparse.Namespace) -> list[str]:
    if not options.borderline:
        raise RefusedError([Fault("missing", N_("say which grade is borderline"), {}, "--borderline")])
    return [grade.strip() for grade in options.borderline.split(",")]


def _group(options: argparse.Namespace, table: Table, chance: np.random.Generator) -> dict[str, object]:
    scores, grade, kept = _scored(options, table)
    wanted = _borderline(options)
    labels, place = table.codes(grade)
    chosen = [at for at, label in enumerate(labels) if label in wanted or _number(label) in map(_number, wanted)]
    if not chosen:
        values = {"wanted": ", ".join(wanted), "labels": ", ".join(labels)}
        sentence = N_("nobody has the grade {wanted}; the grades are {labels}")
        raise RefusedError([Fault("no-grade", sentence, values, "--borderline")])
    found = borderline_group(scores, np.isin(place[kept], chosen), chance)
    cut = DEFAULT_LIMITS.borderline_group.applied(found.cut, options.anyway, borderline_candidates=found.cut.n)
    return with_detail(cut, se=found.se, mean=found.mean, median=found.median, se_mean=found.se_mean) | {
        "borderline_candidates": found.cut.n
    }


def _number(label: str) -> float | str:
    try:
        return float(label)
    except ValueError:
        return label


def _regression(options: argparse.Namespace, table: Table, chance: np.random.Generator) -> dict[str, object]:
    try:
        borderline = float(np.mean([float(wanted) for wanted in _borderline(options)]))
    except ValueError as error:
        sentence = N_("must be a number, as the grades are for this method")
        raise RefusedError([Fault("not-a-number", sentence, {}, "--borderline")]) from error
    if options.exercise:
        return exam_regression(options, table, borderline, chance)
    scores, grade, kept = _scored(options, table)
    grades = table.numbers(grade)[kept]
    found = borderline_regression(scores, grades, borderline, chance)
    counts = {"candidates": len(scores), "grades_used": len(np.unique(grades))}
    cut = DEFAULT_LIMITS.borderline_regression.applied(found.cut, options.anyway, **counts)
    if cut.estimate is not None and found.r2 < DEFAULT_LIMITS.least_r2:
        cut = cut.flagged(LOW_R2)
    if cut.estimate is not None and not grades.min() <= borderline <= grades.max():
        cut = cut.flagged(BEYOND)
    detail = {"intercept": found.intercept, "slope": found.slope, "r2": found.r2, "residual_sd": found.residual_sd}
    return with_detail(cut, se=found.se, se_resampled=found.se_resampled, **detail) | counts


def _contrasting(options: argparse.Namespace, table: Table, chance: np.random.Generator) -> dict[str, object]:
    if options.groups:
        options.grade = options.groups
    scores, grade, kept = _scored(options, table)
    grades = table.numbers(grade)[kept]
    lowest = _lowest_competent(options, grades)
    share = options.false_pass_cost / (options.false_pass_cost + options.false_fail_cost)
    found = contrasting_groups(scores, grades >= lowest, share)
    smaller = int(min((grades >= lowest).sum(), (grades < lowest).sum()))
    limit = DEFAULT_LIMITS.contrasting_groups
    cut = limit.applied(found.cut, options.anyway, candidates_in_the_smaller_group=smaller)
    return with_detail(
        cut,
        se=found.se,
        intercept=found.intercept,
        slope=found.slope,
        normal_cut=found.normal_crossing,
        least_errors_cut=(found.least_errors_from + found.least_errors_to) / 2,
        least_errors_from=found.least_errors_from,
        least_errors_to=found.least_errors_to,
        errors=found.errors,
    ) | {"smaller_group": smaller, "share": share}


def _lowest_competent(options: argparse.Namespace, grades: np.ndarray) -> float:
    """The lowest grade that counts as competent: as asked, or above the borderline, or the higher of two."""
    if options.competent is not None:
        return options.competent
    if options.borderline:
        numbers = [grade for grade in map(_number, _borderline(options)) if isinstance(grade, float)]
        above = grades[grades > max(numbers, default=np.inf)]
        return float(above.min()) if len(above) else np.inf
    if len(np.unique(grades)) <= 2:
        return float(grades.max())
    sentence = N_("say from which grade a candidate is competent, or give a column of 0 and 1 with --groups")
    raise RefusedError([Fault("missing", sentence, {}, "--competent")])


METHODS: dict[str, Callable[[argparse.Namespace, Table, np.random.Generator], dict[str, object]]] = {
    "angoff": _angoff,
    "borderline-group": _group,
    "borderline-regression": _regression,
    "contrasting-groups": _contrasting,
    "hofstee": hofstee_cut,
    "beuk": beuk_cut,
}
