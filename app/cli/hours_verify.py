"""`throughline hours verify`: the whole record against itself, and against receipts and roots held outside it."""

import argparse
from pathlib import Path

from app.cli.opening import opened_store
from app.cli.speaking import spoken
from app.files.receipts import read_held, write_root
from app.queries.proof import NOT_WHOLE, Audit, audit
from app.settings import settings_from
from app.storage.work import School
from app.wording.faults import fault_text
from assessments.records.receipt import Held, Root
from curriculum.faults import N_, Fault, RefusedError

HOLDS = N_("{name}: holds, {size} events. Its root now:")
FAILS = N_("{name}: does not hold.")
FITS = N_("{name}: holds against the record.")
WHOLE = N_("{name}: whole in itself; the record was not asked.")
NO_SCHOOL = N_("{name}: no school here has the record it is of.")


def add_verify(verb: argparse.ArgumentParser) -> None:
    """What `verify` takes."""
    verb.add_argument(
        "held",
        nargs="*",
        metavar="FILE",
        help="a receipt, a proof that one root continues another, or a text that has the line with a root",
    )
    verb.add_argument("--alone", action="store_true", help="check receipts in themselves, without any database")
    verb.set_defaults(act=_verify)


def _verify(options: argparse.Namespace) -> int:
    """Exit status 1 if anything does not hold."""
    held = _read(options.held)
    if options.alone:
        return max((_alone(name, one) for name, one in held), default=0)
    audits = _audits()
    found = [_said_of_school(school, one) for school, one in audits]
    by_id = {school.id: one for school, one in audits}
    return max([0, *found, *(_said_of_held(name, one, by_id) for name, one in held)])


def _read(names: list[str]) -> list[tuple[str, Held]]:
    """Every file, or every fault of all of them."""
    held, faults = [], []
    for name in names:
        try:
            held.append((name, read_held(Path(name).read_text(encoding="utf-8"))))
        except RefusedError as refusal:
            faults += [fault.within(name) for fault in refusal.faults]
        except (OSError, UnicodeDecodeError) as error:
            faults.append(Fault("unreadable", N_("can't be read: {why}"), {"why": str(error)}, source=name))
    if faults:
        raise RefusedError(faults)
    return held


def _audits() -> list[tuple[School, Audit]]:
    store, audits = opened_store(settings_from()), []
    for school in store.schools():
        with store.reading(school.id) as work:
            audits.append((school, audit(work)))
    store.engine.dispose()
    return audits


def _said_of_school(school: School, one: Audit) -> int:
    if one.faults:
        return _say_fails(school.name, one.faults)
    print(spoken()(HOLDS, name=school.name, size=spoken().figure(one.size)))
    print(f"  {write_root(one.root)}")
    return 0


def _said_of_held(name: str, held: Held, audits: dict[str, Audit]) -> int:
    school = held.school if isinstance(held, Root) else held.root.school
    if school not in audits:
        print(spoken()(NO_SCHOOL, name=name))
        return 1
    faults = audits[school].against(held)
    if faults:
        return _say_fails(name, faults)
    print(spoken()(FITS, name=name))
    return 0


def _alone(name: str, held: Held) -> int:
    if not isinstance(held, Root) and not held.is_whole:
        return _say_fails(name, (Fault("not-whole", NOT_WHOLE),))
    print(spoken()(WHOLE, name=name))
    return 0


def _say_fails(name: str, faults: tuple[Fault, ...]) -> int:
    print(spoken()(FAILS, name=name))
    for fault in faults:
        print(f"  {fault_text(fault, spoken())}")
    return 1
