"""`throughline archive`: a school's whole record written to one file, and a school made from one."""

import argparse
from pathlib import Path

from app.cli.opening import opened_store
from app.cli.speaking import spoken
from app.clock import system_clock
from app.files.receipts import write_root
from app.settings import settings_from
from app.use_cases.archiving import export_school, import_school
from curriculum.faults import N_, Fault, RefusedError

WRITTEN = N_("{name}: {rows} rows of {tables} tables written to {path}.")
TAKEN = N_("{name}: taken in, and its record holds. Its root:")
NO_SCHOOL = N_("no school here has this short name; there are: {names}")


def add_to(command: argparse.ArgumentParser) -> None:
    verbs = command.add_subparsers(metavar="VERB", required=True)
    verb = verbs.add_parser("export", help="write everything of a school to one file")
    verb.add_argument("slug", metavar="SCHOOL", help="the school's short name, as in its addresses")
    verb.add_argument("--to", required=True, metavar="FILE.zip")
    verb.set_defaults(act=_export)
    verb = verbs.add_parser("import", help="make a school from such a file, of this version or an older one")
    verb.add_argument("file", metavar="FILE.zip")
    verb.set_defaults(act=_import)


def _export(options: argparse.Namespace) -> int:
    store = opened_store(settings_from())
    try:
        schools = {one.slug: one for one in store.schools()}
        if options.slug not in schools:
            names = ", ".join(schools) or "–"
            raise RefusedError([Fault("no-school", NO_SCHOOL, {"names": names}, source=options.slug)])
        school = schools[options.slug]
        made = export_school(store, school, Path(options.to), system_clock())
    finally:
        store.engine.dispose()
    rows = spoken().figure(sum(rows for rows, _ in made.tables.values()))
    print(spoken()(WRITTEN, name=school.name, rows=rows, tables=len(made.tables), path=options.to))
    return 0


def _import(options: argparse.Namespace) -> int:
    store = opened_store(settings_from())
    try:
        found = import_school(store, Path(options.file))
        name = next(one.name for one in store.schools() if one.id == found.school)
    finally:
        store.engine.dispose()
    print(spoken()(TAKEN, name=name))
    print(f"  {write_root(found.root)}")
    return 0
