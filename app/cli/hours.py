"""`throughline hours assess` and `check`: a trainee's standing, from files alone; `verify`: the record and its proofs."""

import argparse
import json
from datetime import date

from app.cli.hours_verify import add_verify
from app.cli.speaking import spoken
from app.files.facts import facts_from_file
from app.files.log import log_from_file
from app.files.requirements import requirements_from_file
from app.wording.standing_table import table
from assessments.hours.assessing import NO_FACTS, assess
from assessments.hours.clashes import check
from assessments.hours.standing import Standing
from curriculum.faults import N_, Fault, RefusedError
from curriculum.requirements.requirement_set import RequirementSet


def add_to(parser: argparse.ArgumentParser) -> None:
    """The verbs of this noun."""
    verbs = parser.add_subparsers(title="what to do", metavar="VERB", required=True)
    assessing = verbs.add_parser("assess", help="the standing of every trainee in a log")
    assessing.add_argument("--requirements", required=True, metavar="SET.yaml", help="the requirement set")
    assessing.add_argument("--log", required=True, metavar="LOG.csv", help="one entry a line")
    assessing.add_argument(
        "--as-of",
        required=True,
        type=_day,
        metavar="DATE",
        help="the day of assessment",
    )
    assessing.add_argument("--enrolled", type=_day, metavar="DATE", help="applies the set's window")
    assessing.add_argument(
        "--facts",
        metavar="FILE.yaml",
        help="practicals, documents, modules, leave, extensions",
    )
    assessing.add_argument("--json", action="store_true", help="one JSON line for each trainee")
    assessing.set_defaults(act=_assess)
    checking = verbs.add_parser("check", help="whether a requirement set can be read and met")
    checking.add_argument("requirements", metavar="SET.yaml")
    checking.set_defaults(act=_check)
    add_verify(verbs.add_parser("verify", help="whether the record, receipts and roots held outside it still hold"))


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text!r} is not a date; allowed: such as 2026-11-25") from None


def _assess(options: argparse.Namespace) -> int:
    requirements, entries, facts = _inputs(options)
    for trainee, log in entries.items():
        known = facts.get(trainee, NO_FACTS)
        standing = assess(requirements, log, known, as_of=options.as_of, enrolled=options.enrolled)
        if options.json:
            print(json.dumps(as_json(trainee, standing), ensure_ascii=False))
        else:
            print(table(trainee, requirements, standing, spoken()))
    return 0


def _inputs(options: argparse.Namespace) -> tuple[RequirementSet, dict, dict]:
    """The three files; every fault in any of them is shown at once."""
    faults: list[Fault] = []
    requirements = _tried(lambda: _met_set(options.requirements), faults)
    entries = _tried(
        lambda: log_from_file(options.log, requirements.fields if requirements else {}),
        faults,
    )
    facts = _tried(lambda: facts_from_file(options.facts), faults) if options.facts else {}
    if faults:
        raise RefusedError(faults)
    return requirements, entries, facts


def _tried(read, faults: list[Fault]):
    try:
        return read()
    except RefusedError as refusal:
        faults.extend(refusal.faults)
        return None


def _met_set(path: str) -> RequirementSet:
    requirements = requirements_from_file(path)
    clashes = check(requirements)
    if clashes:
        raise RefusedError(fault.within(path) for fault in clashes)
    return requirements


def _check(options: argparse.Namespace) -> int:
    requirements = _met_set(options.requirements)
    sentence = N_("{file}: {title} can be read and met.")
    print(spoken()(sentence, file=options.requirements, title=requirements.title))
    return 0


def as_json(trainee: str, standing: Standing) -> dict[str, object]:
    """What the command prints of a standing."""
    return {
        "trainee": trainee,
        "as_of": standing.as_of.isoformat(),
        "window_applied": standing.window_applied,
        "window_end": standing.plan.pace.end.isoformat() if standing.plan.pace.end else None,
        "earliest_end": standing.earliest_end.isoformat() if standing.earliest_end else None,
        "complete": standing.complete,
        "further_minutes": standing.further_minutes,
        "credited_minutes": standing.credited_minutes,
        "waiting_minutes": standing.waiting_minutes,
        "categories": [
            {"id": one.id, "needed": one.needed, "credited": one.credited, "waiting": one.waiting,
             "further_at_least": one.further_at_least}
            for one in standing.categories
        ],
        "rules": [
            {"id": one.id, "kind": one.kind, "needed": one.needed, "met": one.met, "short": one.short,
             "waiting": one.waiting}
            for one in standing.rules
        ],
        "given": [{"entry": one.entry, "category": one.category, "minutes": one.minutes} for one in standing.given],
        "set_aside": [
            {"entry": one.entry, "minutes": one.minutes, "reason": one.reason, "rule": one.rule}
            for one in standing.set_aside
        ],
    }  # fmt: skip
