"""`throughline practicals draw` and `panel`: exercise lists from a bank, examiners for every exam."""

import argparse
import hashlib
import json
from dataclasses import asdict

from app.files.bank import bank_from_file
from app.files.panel import candidates_from_file, conflicts_from_file, examiners_from_file, rooms_from_file
from app.files.yaml import read_yaml
from assessments.practicals.drawing import Drawing, draw
from assessments.practicals.drawing_specification import (
    DrawingSpecification,
    drawing_specification,
)
from assessments.practicals.panel import seat
from curriculum.faults import N_, Fault, RefusedError


def add_to(parser: argparse.ArgumentParser) -> None:
    """The verbs of this noun."""
    verbs = parser.add_subparsers(title="what to do", metavar="VERB", required=True)
    drawing = verbs.add_parser("draw", help="exercise lists of equal difficulty from a bank")
    drawing.add_argument(
        "--bank",
        required=True,
        metavar="BANK.csv",
        help="exercise, difficulty, minutes, any fields",
    )
    drawing.add_argument("--specification", required=True, metavar="FILE.yaml")
    drawing.add_argument("--lists", type=_count, default=1, metavar="N")
    drawing.add_argument(
        "--seed",
        required=True,
        metavar="SECRET",
        help="the same secret draws the same lists",
    )
    drawing.add_argument("--json", action="store_true")
    drawing.set_defaults(act=_draw)
    panel = verbs.add_parser("panel", help="two examiners, a slot and a room for every exam")
    panel.add_argument("--candidates", required=True, metavar="FILE", help="candidate; slots, by spaces, if wanted")
    panel.add_argument("--examiners", required=True, metavar="FILE", help="examiner, senior; at_least, at_most, slots")
    panel.add_argument("--conflicts", required=True, metavar="FILE", help="candidate, examiner")
    panel.add_argument("--rooms", required=True, metavar="FILE", help="room, slot")
    panel.add_argument("--size", type=_count, default=2, help="examiners an exam")
    panel.add_argument("--json", action="store_true")
    panel.set_defaults(act=_panel)


def _count(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text) <= 500:
        raise argparse.ArgumentTypeError(f"{text!r} is not allowed; allowed: 1 to 500")
    return int(text)


def _draw(options: argparse.Namespace) -> int:
    bank = bank_from_file(options.bank)
    path = options.specification
    try:
        specification = drawing_specification(read_yaml(path))
        _check_names({one.id for one in bank}, specification)
        seed = int.from_bytes(hashlib.sha256(options.seed.encode()).digest(), "big")
        drawn = draw(bank, specification, options.lists, seed)
    except RefusedError as refusal:
        raise RefusedError(one if one.source else one.within(path) for one in refusal.faults) from refusal
    print(json.dumps(as_json(drawn), ensure_ascii=False) if options.json else as_text(drawn))
    return 0


def _panel(options: argparse.Namespace) -> int:
    exams = seat(
        candidates_from_file(options.candidates),
        examiners_from_file(options.examiners),
        conflicts_from_file(options.conflicts),
        rooms_from_file(options.rooms),
        options.size,
    )
    if options.json:
        print(json.dumps({"exams": [asdict(one) for one in exams], "connected": True}, ensure_ascii=False))
        return 0
    for one in exams:
        print(f"{one.slot}  {one.room}  {one.candidate}: {', '.join(one.examiners)}")
    print("All examiners are linked through shared candidates.")
    return 0


def _check_names(known: set[str], specification: DrawingSpecification) -> None:
    named = {
        "always": specification.always,
        "apart": [one for pair in specification.apart for one in pair],
    }
    faults = [
        Fault("unknown", N_("{name} is not in the bank"), {"name": name}, field)
        for field, names in named.items()
        for name in names
        if name not in known
    ]
    if faults:
        raise RefusedError(faults)


def as_json(drawn: Drawing) -> dict[str, object]:
    """What the command prints of a drawing."""
    lists = [{"tasks": list(one.tasks), "minutes": one.minutes, "difficulty": one.difficulty} for one in drawn.lists]
    answer = {"proven_optimal": drawn.proven_optimal, "gap": drawn.gap, "lists": lists}
    return answer if drawn.deviation is None else {**answer, "deviation": drawn.deviation}


def as_text(drawn: Drawing) -> str:
    """A drawing in lines for a director."""
    lines = [
        f"List {n}: {', '.join(one.tasks)} ({one.minutes:g} minutes, mean difficulty {one.difficulty:.3f})"
        for n, one in enumerate(drawn.lists, 1)
    ]
    proof = "Proven best." if drawn.proven_optimal else f"Not proven best; at most {drawn.gap:.4f} from it."
    return "\n".join([*lines, proof])
