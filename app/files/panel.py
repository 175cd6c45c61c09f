"""Candidates, examiners, conflicts and rooms from CSV; slots are separated by spaces."""

import csv
from pathlib import Path

from assessments.practicals.panel import Examiner
from curriculum.faults import N_, Fault, RefusedError

YES = ("yes", "true", "1", "senior")


def rows_from_file(path: str, needed: tuple[str, ...]) -> list[dict[str, str]]:
    """The rows of a CSV file that has the needed columns, none of them empty."""
    try:
        with Path(path).open(encoding="utf-8-sig", newline="") as file:
            reader = csv.DictReader(file)
            missing = [name for name in needed if name not in (reader.fieldnames or ())]
            faults = [Fault("missing", N_("this column is missing"), {}, name, 1, path) for name in missing]
            rows = []
            for row in reader if not faults else ():
                rows.append({k: (v or "").strip() for k, v in row.items() if k})
                faults += [
                    Fault("empty", N_("is empty"), {}, n, reader.line_num, path) for n in needed if not rows[-1][n]
                ]
    except (OSError, UnicodeDecodeError, csv.Error) as error:
        problem = {"problem": str(error)}
        raise RefusedError([Fault("unreadable", N_("can't be read: {problem}"), problem, source=path)]) from error
    if faults:
        raise RefusedError(faults)
    return rows


def candidates_from_file(path: str) -> dict[str, frozenset[str]]:
    """Columns `candidate` and, if wanted, `slots`."""
    return {r["candidate"]: frozenset(r.get("slots", "").split()) for r in rows_from_file(path, ("candidate",))}


def examiners_from_file(path: str) -> tuple[Examiner, ...]:
    """Columns `examiner`, `senior` (yes or no) and, if wanted, `at_least`, `at_most`, `slots`."""
    found, faults = [], []
    for line, row in enumerate(rows_from_file(path, ("examiner", "senior")), 2):
        loads = {}
        for name, otherwise in (("at_least", 0), ("at_most", 1000)):
            text = row.get(name) or str(otherwise)
            if not text.isdecimal():
                faults.append(Fault("not-number", N_("{v!r} is not a whole number"), {"v": text}, name, line, path))
            loads[name] = int(text) if text.isdecimal() else otherwise
        senior, slots = row["senior"].lower() in YES, frozenset(row.get("slots", "").split())
        found.append(Examiner(row["examiner"], senior, slots=slots, **loads))
    if faults:
        raise RefusedError(faults)
    return tuple(found)


def conflicts_from_file(path: str) -> frozenset[tuple[str, str]]:
    """Columns `candidate`, `examiner`: who may not examine whom."""
    return frozenset((r["candidate"], r["examiner"]) for r in rows_from_file(path, ("candidate", "examiner")))


def rooms_from_file(path: str) -> dict[str, tuple[str, ...]]:
    """Columns `room`, `slot`, a line for each; slots in the order of the file."""
    rooms: dict[str, tuple[str, ...]] = {}
    for row in rows_from_file(path, ("room", "slot")):
        rooms[row["slot"]] = (*rooms.get(row["slot"], ()), row["room"])
    return rooms
