"""`throughline practicals draw` and `panel`: exercise lists from a bank, examiners for every exam."""

import argparse
import json
from dataclasses import asdict

from app.cli.speaking import spoken
from app.files.bank import bank_from_file, transitions_from_file
from app.files.panel import candidates_from_file, conflicts_from_file, examiners_from_file, rooms_from_file
from app.files.yaml import read_yaml
from app.wording.drawing import drawing_lines, panel_lines
from assessments.practicals.drawing import draw, seed_of
from assessments.practicals.drawing_names import check_names
from assessments.practicals.drawing_relaxed import draw_relaxed
from assessments.practicals.drawing_specification import DrawingSpecification, drawing_specification
from assessments.practicals.drawn_list import Drawing
from assessments.practicals.panel import is_connected, seat
from curriculum.faults import RefusedError


def add_to(parser: argparse.ArgumentParser) -> None:
    """The verbs of this noun."""
    verbs = parser.add_subparsers(title="what to do", metavar="VERB", required=True)
    _add_draw(verbs.add_parser("draw", help="exercise lists of equal difficulty from a bank"))
    _add_panel(verbs.add_parser("panel", help="two examiners, a slot and a room for every exam"))


def _add_draw(verb: argparse.ArgumentParser) -> None:
    fields = "exercise, difficulty, minutes; recently_drawn, candidates, spots and any other fields if wanted"
    verb.add_argument("--bank", required=True, metavar="BANK.csv", help=fields)
    verb.add_argument("--specification", required=True, metavar="FILE.yaml")
    verb.add_argument("--transitions", metavar="FILE.csv", help="from, to, seconds")
    verb.add_argument("--lists", type=_count, default=1, metavar="N")
    verb.add_argument("--seed", required=True, metavar="SECRET", help="the same secret draws the same lists")
    relax = "where the specification can't be kept, let minutes give way, then counts by kind, and say so"
    verb.add_argument("--relax", action="store_true", help=relax)
    verb.add_argument("--json", action="store_true")
    verb.set_defaults(act=_draw)


def _add_panel(verb: argparse.ArgumentParser) -> None:
    verb.add_argument("--candidates", required=True, metavar="FILE", help="candidate; slots, by spaces, if wanted")
    verb.add_argument("--examiners", required=True, metavar="FILE", help="examiner, senior; at_least, at_most, slots")
    verb.add_argument("--conflicts", required=True, metavar="FILE", help="candidate, examiner")
    verb.add_argument("--rooms", required=True, metavar="FILE", help="room, slot")
    verb.add_argument("--size", type=_count, default=2, help="examiners an exam")
    row = "at most so many slots one after another for an examiner, slots in the order of the rooms' file"
    verb.add_argument("--in-a-row", type=_count, metavar="N", help=row)
    verb.add_argument("--json", action="store_true")
    verb.set_defaults(act=_panel)


def _count(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text) <= 500:
        raise argparse.ArgumentTypeError(f"{text!r} is not allowed; allowed: 1 to 500")
    return int(text)


def _draw(options: argparse.Namespace) -> int:
    bank = bank_from_file(options.bank)
    known = {one.id for one in bank}
    pairs = transitions_from_file(options.transitions, known) if options.transitions else {}
    try:
        specification = drawing_specification(read_yaml(options.specification))
        check_names(bank, specification)
        act = draw_relaxed if options.relax else draw
        drawn = act(bank, specification, options.lists, seed_of(options.seed), pairs)
    except RefusedError as refusal:
        faults = (one if one.source else one.within(options.specification) for one in refusal.faults)
        raise RefusedError(faults) from refusal
    if options.json:
        print(json.dumps(as_json(drawn, specification), ensure_ascii=False))
    else:
        print("\n".join(drawing_lines(drawn, specification, spoken())))
    return 0


def _panel(options: argparse.Namespace) -> int:
    rooms = rooms_from_file(options.rooms)
    candidates = candidates_from_file(options.candidates, rooms)
    examiners = examiners_from_file(options.examiners, rooms)
    conflicts = conflicts_from_file(options.conflicts, candidates, [one.id for one in examiners])
    exams = seat(candidates, examiners, conflicts, rooms, options.size, in_a_row=options.in_a_row)
    connected = is_connected(exams)
    if options.json:
        print(json.dumps({"exams": [asdict(one) for one in exams], "connected": connected}, ensure_ascii=False))
    else:
        print("\n".join(panel_lines(exams, connected, spoken())))
    return 0


def as_json(drawn: Drawing, specification: DrawingSpecification) -> dict[str, object]:
    """What the command prints of a drawing; beyond what each list comes to, only what there is something to say of."""
    lists = [_told(asdict(one), ALWAYS) for one in drawn.lists]
    answer = {"proven_optimal": drawn.proven_optimal, "gap": drawn.gap, "lists": lists}
    further = {"order": specification.order, "notice": specification.notice, "deviation": drawn.deviation}
    broken = [asdict(one) | {"list": one.list + 1} for one in drawn.broken]
    return answer | _told(further | {"left_out": drawn.left_out, "broken": broken})


ALWAYS = ("tasks", "minutes", "difficulty", "transition_seconds", "order_proven")


def _told(found: dict[str, object], always: tuple[str, ...] = ()) -> dict[str, object]:
    return {name: value for name, value in found.items() if name in always or value not in (None, (), [])}
