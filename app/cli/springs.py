"""`throughline springs match`: the closest spring setting on another machine."""

import argparse
import json
from datetime import date

from app.cli.speaking import spoken
from app.clock import system_clock
from app.files.yaml import read_yaml
from app.wording.faults import fault_text
from app.wording.springs import match_sentence
from curriculum.faults import N_, Fault, RefusedError
from curriculum.sessions.reading_machines import read_machines
from curriculum.sessions.spring_match import SpringMatch, match_springs, springs_meant, springs_named
from curriculum.sessions.springs import Machine, Spring


def add_to(parser: argparse.ArgumentParser) -> None:
    """Add the verb."""
    verbs = parser.add_subparsers(title="what to do", metavar="VERB", required=True)
    match = verbs.add_parser("match", help="the closest springs on another machine, over a travel")
    match.add_argument("--machines", metavar="FILE", required=True, help="machines with their springs' readings")
    match.add_argument("--from", dest="origin", metavar="NAME", required=True, help="the machine that is known")
    match.add_argument("--springs", required=True, help="how many of its springs, or their labels: heavy,light")
    match.add_argument("--to", dest="target", metavar="NAME", required=True, help="the other machine")
    match.add_argument("--travel", type=_travel, required=True, metavar="FROM:TO", help="metres, such as 0.1:0.6")
    match.add_argument("--gear", default="", help="gear of the known machine, its first if not given")
    match.add_argument("--on", type=_day, help="the day to judge calibrations by, today if not given")
    match.add_argument("--json", action="store_true", help="as JSON")
    match.set_defaults(act=_match)


def _match(options: argparse.Namespace) -> int:
    try:
        machines = read_machines(read_yaml(options.machines))
        origin, target = _named(machines, options.origin, "from"), _named(machines, options.target, "to")
        today = options.on or system_clock().date()
        wanted = _wanted(origin, options.springs)
        found = match_springs(origin, wanted, target, options.travel, today, options.gear)
    except RefusedError as error:
        raise RefusedError(f if f.source else f.within(options.machines) for f in error.faults) from error
    print(json.dumps(_as_data(found, options), ensure_ascii=False)) if options.json else _print(found, options)
    return 0


def _wanted(origin: Machine, text: str) -> tuple[Spring, ...]:
    labels = [one.label for one in origin.springs]
    if text.isascii() and text.isdecimal() and text not in labels:
        return springs_meant(origin, int(text))
    return springs_named(origin, [word.strip() for word in text.split(",")])


def _named(machines: tuple[Machine, ...], name: str, field: str) -> Machine:
    for machine in machines:
        if machine.name == name:
            return machine
    values = {"value": name, "known": ", ".join(one.name for one in machines)}
    raise RefusedError(
        [Fault("no-such-machine", N_("there is no machine “{value}”; there are: {known}"), values, field)]
    )


def _travel(text: str) -> tuple[float, float]:
    try:
        start, end = (float(part) for part in text.split(":"))
    except ValueError as error:
        raise argparse.ArgumentTypeError(f"“{text}” is not a travel in metres such as 0.1:0.6") from error
    if not 0 <= start < end <= 5:
        raise argparse.ArgumentTypeError(f"“{text}” must rise, from 0 to 5 metres")
    return start, end


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError as error:
        raise argparse.ArgumentTypeError(f"“{text}” is not a day such as 2026-11-25") from error


def _as_data(found: SpringMatch, options: argparse.Namespace) -> dict:
    return {
        "from": options.origin,
        "springs": list(found.wanted),
        "to": options.target,
        "travel": list(options.travel),
        "match": list(found.labels) if found.close else None,
        "closest": list(found.labels),
        "gear": found.gear or None,
        "worst_difference": found.worst_difference,
        "worst_at": found.worst_at,
        "within_15_percent": found.close,
        "wanted_newtons": list(found.wanted_loads),
        "newtons": list(found.loads),
        "extrapolated": found.extrapolated,
        "left_out": [fault.text() for fault in found.left_out],
        "sentence": match_sentence(found, options.target),
    }


def _print(found: SpringMatch, options: argparse.Namespace) -> None:
    language = spoken()
    print(match_sentence(found, options.target, language))
    at = N_("  at {travel} m: {wanted} N on {origin}, {load} N on {target}")
    for travel, wanted, load in zip(options.travel, found.wanted_loads, found.loads, strict=True):
        shown = {"travel": language.figure(travel), "wanted": round(wanted), "load": round(load)}
        print(language(at, origin=options.origin, target=options.target, **shown))
    if found.extrapolated:
        print(language(N_("! the travel goes beyond what was measured; measure over the whole travel")))
    for fault in found.left_out:
        print(language(N_("! left out: {why}"), why=fault_text(fault, language)))
