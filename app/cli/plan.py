"""`throughline plan check|build`: session plans on the command line."""

import argparse
import json
from dataclasses import replace
from fractions import Fraction

from app.cli.repertoire import factor
from app.cli.speaking import spoken
from app.files.repertoire import edition_from_folder
from app.files.yaml import read_yaml
from app.wording.plans_in_lines import built_line, plan_lines
from curriculum.faults import N_, Fault, RefusedError
from curriculum.repertoire.edition import Edition
from curriculum.repertoire.exercise import BAR_LOCKS
from curriculum.sessions.plan import LONGEST, Plan, caution_codes, read_plan
from curriculum.sessions.plan_builder import Wish, build_plan
from curriculum.sessions.plan_check import PlanCheck, check_plan


def add_to(parser: argparse.ArgumentParser) -> None:
    """Add the verbs."""
    verbs = parser.add_subparsers(title="what to do", metavar="VERB", required=True)
    check = verbs.add_parser("check", help="time, transitions, order, balance and cautions of a plan")
    check.add_argument("plan", metavar="PLAN.yaml")
    check.set_defaults(act=_check)
    build = verbs.add_parser("build", help="the best plan in a given time")
    build.add_argument("--apparatus", help="only these, such as reformer,mat")
    build.add_argument("--intake", type=_seconds, default=0, help="seconds before the first exercise")
    build.add_argument("--close", type=_seconds, default=0, help="seconds after the last one")
    build.set_defaults(act=_build)
    for verb, needed in ((check, False), (build, True)):
        verb.add_argument("--repertoire", metavar="FOLDER", required=True, help="the edition")
        verb.add_argument("--minutes", type=_minutes, required=needed, help="the time there is")
        verb.add_argument("--level", required=needed, help="a level of the edition")
        verb.add_argument("--factor", type=factor, help="teaching factor, 1 if not given")
        verb.add_argument("--client", help="caution codes of the client, such as pregnancy,knee")
        verb.add_argument("--foot-bar", choices=BAR_LOCKS, help="how the machine's foot bar goes down")
        verb.add_argument("--json", action="store_true", help="as JSON")


def _check(options: argparse.Namespace) -> int:
    edition = edition_from_folder(options.repertoire)
    node = read_yaml(options.plan)
    try:
        plan = read_plan(node, edition)
    except RefusedError as error:
        raise RefusedError(fault.within(options.plan) for fault in error.faults) from error
    given = {"factor": options.factor, "minutes": options.minutes, "foot_bar": options.foot_bar}
    if options.level:
        given["level"] = _level(options.level, edition)
    if options.client is not None:
        given["client"] = caution_codes(options.client, edition)
    plan = replace(plan, **{name: value for name, value in given.items() if value is not None})
    checked = check_plan(plan, edition)
    print(json.dumps(_as_data(checked), ensure_ascii=False)) if options.json else _print(plan, checked)
    return 0


def _build(options: argparse.Namespace) -> int:
    edition = edition_from_folder(options.repertoire)
    wish = Wish(
        options.minutes,
        _level(options.level, edition),
        caution_codes(options.client or "", edition),
        options.factor or Fraction(1),
        options.intake,
        options.close,
        options.foot_bar or "",
        _apparatus(options.apparatus, edition),
    )
    built = build_plan(edition, wish)
    checked = check_plan(built.plan, edition)
    if options.json:
        found = {"minutes": wish.minutes, "level": wish.level, "exercises": list(built.plan.exercises)}
        found |= {"value": built.value, "bound": built.bound, "gap": built.gap, "considered": built.considered}
        print(json.dumps(found | _as_data(checked), ensure_ascii=False))
        return 0
    print(built_line(len(built.plan.exercises), built.considered, built.value, spoken()))
    _print(built.plan, checked)
    return 0


def _level(level: str, edition: Edition) -> str:
    allowed = [one.id for one in edition.levels]
    if level in allowed:
        return level
    sentence = N_("“{value}” is not one of: {allowed}")
    raise RefusedError([Fault("no-such-level", sentence, {"value": level, "allowed": ", ".join(allowed)}, "level")])


def _apparatus(words: str | None, edition: Edition) -> tuple[str, ...]:
    found = tuple(word.strip() for word in (words or "").split(",") if word.strip())
    allowed = [one.id for one in edition.apparatus]
    sentence = N_("“{value}” is not one of: {allowed}")
    faults = [
        Fault("no-such-apparatus", sentence, {"value": one, "allowed": ", ".join(allowed)}, "apparatus")
        for one in found
        if one not in allowed
    ]
    if faults:
        raise RefusedError(faults)
    return found


def _whole(text: str, low: int, high: int) -> int:
    if not text.isascii() or not text.isdecimal() or not low <= int(text) <= high:
        raise argparse.ArgumentTypeError(f"“{text}” is not a whole number from {low} to {high}")
    return int(text)


def _minutes(text: str) -> int:
    return _whole(text, 1, LONGEST)


def _seconds(text: str) -> int:
    return _whole(text, 0, 7200)


def _number(value: Fraction | int) -> int | float:
    return int(value) if Fraction(value).denominator == 1 else float(value)


def _as_data(checked: PlanCheck) -> dict:
    return {
        "seconds": _number(checked.seconds),
        "moving_seconds": _number(checked.moving_seconds),
        "transition_seconds": _number(checked.transition_seconds),
        "items": [
            {
                "exercise": item.exercise.id,
                "seconds": _number(item.seconds),
                "transition_seconds": item.transition_seconds,
                "changes": list(item.passage.steps) if item.passage else [],
            }
            for item in checked.items
        ],
        "order_kept": checked.order_kept,
        "out_of_order": list(checked.out_of_order),
        "families": checked.families,
        "warnings": [warning.text() for warning in checked.warnings],
    }


def _print(plan: Plan, checked: PlanCheck) -> None:
    print("\n".join(plan_lines(plan, checked, spoken())))
