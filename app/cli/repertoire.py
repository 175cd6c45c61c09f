"""`throughline repertoire check|compare|bank|case|from-case`: editions of the repertoire on the command line."""

import argparse
import csv
import json
import sys
from dataclasses import asdict
from datetime import date
from fractions import Fraction
from pathlib import Path

from app.cli.speaking import spoken
from app.files.case import case_package, edition_from_case, outline_of_case, write_case
from app.files.repertoire import edition_from_folder, edition_to_folder
from curriculum.faults import N_
from curriculum.fields import NUMBER
from curriculum.repertoire.bank import exam_bank
from curriculum.repertoire.comparing import compare_editions

COLUMNS = ("exercise", "difficulty", "minutes", "apparatus", "series", "level", "family", "place", "spot")
ADDED, REMOVED, MOVED = N_("added: {id}"), N_("removed: {id}"), N_("moved: {id}")


def add_to(parser: argparse.ArgumentParser) -> None:
    """Add the verbs."""
    verbs = parser.add_subparsers(title="what to do", metavar="VERB", required=True)
    check = verbs.add_parser("check", help="read an edition and tell every fault")
    check.add_argument("folder", metavar="FOLDER")
    check.set_defaults(act=_check)
    compare = verbs.add_parser("compare", help="what differs between two editions, exercise by exercise")
    compare.add_argument("old", metavar="FOLDER")
    compare.add_argument("new", metavar="FOLDER")
    compare.set_defaults(act=_compare)
    bank = verbs.add_parser("bank", help="the exercises as tasks for drawing exam lists (CSV, or JSON)")
    bank.add_argument("folder", metavar="FOLDER")
    bank.add_argument(
        "--factor", type=factor, default=Fraction(1), help="seconds of a task for one of movement, 1 to 10"
    )
    bank.set_defaults(act=_bank)
    case = verbs.add_parser("case", help="the edition as a CASE 1.1 package")
    case.add_argument("folder", metavar="FOLDER")
    case.add_argument("--to", metavar="FILE", required=True, help="where to write it")
    case.add_argument("--creator", default="", help="who publishes it; the edition's title if not given")
    case.add_argument("--case-version", choices=("1.1", "1.0"), default="1.1", help="1.0 leaves out what it lacks")
    case.set_defaults(act=_case)
    back = verbs.add_parser("from-case", help="the edition in a CASE package, as a folder; others are outlined")
    back.add_argument("file", metavar="FILE")
    back.add_argument("--to", metavar="FOLDER", help="where to write the edition; its outline is printed if not given")
    back.set_defaults(act=_from_case)
    for verb in (check, compare, bank):
        verb.add_argument("--json", action="store_true", help="as JSON")


def factor(text: str) -> Fraction:
    """A teaching factor from 1 to 10."""
    value = Fraction(text) if NUMBER.fullmatch(text) else None
    if value is None or not 1 <= value <= 10:
        raise argparse.ArgumentTypeError(f"“{text}” is not a number from 1 to 10")
    return value


def _check(options: argparse.Namespace) -> int:
    edition = edition_from_folder(options.folder)
    counts = {one.id: len(edition.on(one.id)) for one in edition.apparatus}
    detail = sum(one.in_detail for one in edition.exercises)
    to_confirm = [one.id for one in edition.exercises if one.confirm]
    if options.json:
        found = {"edition": edition.id, "exercises": len(edition.exercises), "series": len(edition.series)}
        found |= {"apparatus": counts, "in_detail": detail, "school_to_confirm": to_confirm}
        print(json.dumps(found, ensure_ascii=False))
        return 0
    language = spoken()
    print(f"{edition.id}: {edition.title}")
    sentence = N_("{exercises} exercises in {series} series, {detail} of them in full detail; no faults")
    print(language(sentence, exercises=len(edition.exercises), series=len(edition.series), detail=detail))
    for one in edition.apparatus:
        print(f"  {one.name}: {counts[one.id]}")
    print(language(N_("School to confirm: {number}"), number=len(to_confirm)))
    return 0


def _compare(options: argparse.Namespace) -> int:
    found = compare_editions(edition_from_folder(options.old), edition_from_folder(options.new))
    if options.json:
        print(json.dumps(asdict(found), ensure_ascii=False))
        return 0
    language = spoken()
    if found.same:
        print(language(N_("Both editions teach the same.")))
    for sentence, ids in ((ADDED, found.added), (REMOVED, found.removed), (MOVED, found.moved)):
        for id in ids:
            print(language(sentence, id=id))
    for difference in found.shared:
        shown = f"{difference.path}: {difference.before or '–'} → {difference.after or '–'}"
        print(language(N_("for all: {difference}"), difference=shown))
    for change in found.changed:
        print(language(N_("changed: {id}"), id=change.exercise))
        for difference in change.differences:
            print(f"  {difference.path}: {difference.before or '–'} → {difference.after or '–'}")
    return 0


def _bank(options: argparse.Namespace) -> int:
    tasks = exam_bank(edition_from_folder(options.folder), options.factor)
    rows = [{name: _plain(getattr(task, name)) for name in COLUMNS} for task in tasks]
    if options.json:
        print(json.dumps({"tasks": rows}, ensure_ascii=False))
        return 0
    writer = csv.DictWriter(sys.stdout, COLUMNS, lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return 0


def _case(options: argparse.Namespace) -> int:
    edition = edition_from_folder(options.folder)
    day = edition.published or date(1970, 1, 1)
    package = case_package(
        edition, options.creator or edition.title, f"{day.isoformat()}T00:00:00Z", version=options.case_version
    )
    Path(options.to).write_text(write_case(package), encoding="utf-8")
    said = N_("{items} items and {associations} associations written to {file}")
    values = {"items": len(package["CFItems"]), "associations": len(package["CFAssociations"]), "file": options.to}
    print(spoken()(said, **values))
    return 0


def _from_case(options: argparse.Namespace) -> int:
    text = Path(options.file).read_bytes()
    if options.to is None:
        for depth, kind, statement in outline_of_case(text):
            print(f"{'  ' * depth}{kind}: {statement.splitlines()[0]}" if kind else f"{'  ' * depth}{statement}")
        return 0
    edition_to_folder(edition_from_case(text), options.to)
    print(spoken()(N_("The edition is written to {folder}"), folder=options.to))
    return 0


def _plain(value: object) -> object:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Fraction):
        return int(value) if value.denominator == 1 else round(float(value), 4)
    return value
