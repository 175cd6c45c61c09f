"""`throughline simulate`: data drawn with known parameters, and how well each method finds them again."""

import argparse
import json
import sys
from collections.abc import Sequence

import numpy as np

from app.cli.measure_options import plain
from app.cli.speaking import spoken
from app.wording.simulations import study_sentences, study_table, summary_sentences, verdict, what
from assessments.measurement.simulation.studies import STUDIES
from assessments.measurement.simulation.study import Drawn, Finding, Study, draw, findings
from curriculum.faults import N_, Fault, RefusedError


def add_to(parser: argparse.ArgumentParser) -> None:
    names = ", ".join(STUDIES)
    parser.add_argument(
        "--study", action="append", metavar="NAME", default=[], help=f"which (repeatable; all if none): {names}"
    )
    parser.add_argument("--runs", type=int, metavar="N", help="data sets to draw (default: what each study needs)")
    parser.add_argument("--seed", type=int, default=1, metavar="S", help="seed of the chance (default 1)")
    form = parser.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help="answer in JSON")
    form.add_argument("--markdown", action="store_true", help="answer as tables in Markdown")
    parser.set_defaults(act=simulate)


def simulate(options: argparse.Namespace) -> int:
    """Run the studies asked for; `RefusedError` for a name that is not known or a number of runs below 2."""
    _check(options)
    answers = []
    for name in options.study or STUDIES:
        study = STUDIES[name]
        runs = options.runs or study.usual_runs
        found = findings(study, _drawn(study, runs, options.seed))
        answers.append((study, runs, found))
    _show(options, answers)
    return 0


def _check(options: argparse.Namespace) -> None:
    faults = [
        Fault("study", N_("no study is called {name}; there are {names}"), {"name": name, "names": ", ".join(STUDIES)}, "--study")
        for name in options.study
        if name not in STUDIES
    ]  # fmt: skip
    if options.runs is not None and options.runs < 2:
        faults.append(Fault("runs", N_("must be 2 at least"), {}, "--runs"))
    if options.seed < 0:
        faults.append(Fault("seed", N_("can't be below 0"), {}, "--seed"))
    if faults:
        raise RefusedError(faults)


def _drawn(study: Study, runs: int, seed: int) -> list[Drawn]:
    """Every run, with a line of progress at each tenth."""
    found = []
    for number, answer in enumerate(draw(study, runs, np.random.default_rng(seed)), start=1):
        found.append(answer)
        if number * 10 // runs > (number - 1) * 10 // runs:
            said = spoken()(N_("{study}: {done} of {runs} runs"), study=study.name, done=number, runs=runs)
            print(said, file=sys.stderr, flush=True)
    return found


def _show(options: argparse.Namespace, answers: Sequence[tuple[Study, int, list[Finding]]]) -> None:
    language = spoken()
    if options.json:
        studies = [_study_json(*answer) for answer in answers]
        print(json.dumps(plain({"seed": options.seed, "studies": studies}), indent=1, ensure_ascii=False))
        return
    for study, runs, found in answers:
        say = study_table if options.markdown else study_sentences
        print("\n".join(say(study, found, runs, language)))
    flat = [(study, finding) for study, _, found in answers for finding in found]
    first, *missed = summary_sentences(flat, language)
    listed = ["", *(f"- {line.strip()}" for line in missed)] if options.markdown else missed
    print("\n".join([first, *listed]))


def _study_json(study: Study, runs: int, found: Sequence[Finding]) -> dict[str, object]:
    language = spoken()
    rows = [
        {
            "key": finding.measure.key,
            "kind": finding.measure.kind,
            "what": what(finding, language),
            "value": finding.value,
            "error": finding.error,
            "observations": finding.observations,
            "expected": [finding.measure.low, finding.measure.high],
            "as_expected": finding.as_expected,
            "falls_short": finding.falls_short,
            "verdict": verdict(finding, language),
        }
        for finding in found
    ]
    return {"study": study.name, "runs": runs, "findings": rows}
