"""Candidates, examiners, conflicts and rooms from CSV; slots are separated by spaces."""

import csv
from collections.abc import Collection
from pathlib import Path

from assessments.practicals.panel import Examiner
from curriculum.faults import N_, Fault, RefusedError

YES = ("yes", "true", "1", "senior")
NO = ("no", "false", "0")
Lines = list[tuple[int, dict[str, str]]]


def rows_from_file(path: str, needed: tuple[str, ...]) -> Lines:
    """Line and row of a CSV file that has the needed columns, none of them empty; blank lines are passed over."""
    try:
        with Path(path).open(encoding="utf-8-sig", newline="") as file:
            reader = csv.DictReader(file)
            missing = [name for name in needed if name not in (reader.fieldnames or ())]
            faults = [Fault("missing", N_("this column is missing"), {}, name, 1, path) for name in missing]
            rows: Lines = []
            for row in reader if not faults else ():
                clean = {k: (v or "").strip() for k, v in row.items() if k}
                if any(clean.values()):
                    rows.append((reader.line_num, clean))
    except (OSError, UnicodeDecodeError, csv.Error) as error:
        problem = {"problem": str(error)}
        raise RefusedError([Fault("unreadable", N_("can't be read: {problem}"), problem, source=path)]) from error
    faults += [Fault("empty", N_("is empty"), {}, n, line, path) for line, row in rows for n in needed if not row[n]]
    if faults:
        raise RefusedError(faults)
    return rows


def _once(rows: Lines, columns: tuple[str, ...], path: str) -> list[Fault]:
    """A fault for each row whose columns repeat an earlier row."""
    seen: dict[tuple[str, ...], int] = {}
    faults = []
    for line, row in rows:
        first = seen.setdefault(tuple(row[name] for name in columns), line)
        if first != line:
            values = {"name": ", ".join(row[name] for name in columns), "first": first}
            sentence = N_("{name} stands in line {first} already")
            faults.append(Fault("twice", sentence, values, columns[0], line, path))
    return faults


def _known(rows: Lines, column: str, known: Collection[str], path: str) -> list[Fault]:
    """A fault for each word of the column that is not known."""
    sentence = N_("{name} is not known; allowed: {allowed}")
    allowed = ", ".join(known)
    return [
        Fault("unknown", sentence, {"name": name, "allowed": allowed}, column, line, path)
        for line, row in rows
        for name in (row.get(column, "").split() if column == "slots" else (row[column],))
        if name not in known
    ]


def _refuse(faults: list[Fault]) -> None:
    if faults:
        raise RefusedError(faults)


def candidates_from_file(path: str, slots: Collection[str]) -> dict[str, frozenset[str]]:
    """Columns `candidate` and, if wanted, `slots`, which must be among the rooms' `slots`."""
    rows = rows_from_file(path, ("candidate",))
    empty = [] if rows else [Fault("empty", N_("holds no candidate"), {}, "candidate", 1, path)]
    _refuse([*empty, *_once(rows, ("candidate",), path), *_known(rows, "slots", slots, path)])
    return {row["candidate"]: frozenset(row.get("slots", "").split()) for _, row in rows}


def examiners_from_file(path: str, slots: Collection[str]) -> tuple[Examiner, ...]:
    """Columns `examiner`, `senior` (yes or no) and, if wanted, `at_least`, `at_most`, `slots`."""
    rows = rows_from_file(path, ("examiner", "senior"))
    faults = [*_once(rows, ("examiner",), path), *_known(rows, "slots", slots, path)]
    found = [_examiner(line, row, path, faults) for line, row in rows]
    _refuse(faults)
    return tuple(found)


def _examiner(line: int, row: dict[str, str], path: str, faults: list[Fault]) -> Examiner:
    loads = {}
    for name, otherwise in (("at_least", 0), ("at_most", 1000)):
        text = row.get(name) or str(otherwise)
        if not text.isdecimal():
            faults.append(Fault("not-number", N_("{v!r} is not a whole number"), {"v": text}, name, line, path))
        loads[name] = int(text) if text.isdecimal() else otherwise
    if loads["at_least"] > loads["at_most"]:
        faults.append(Fault("loads", N_("at_least is more than at_most"), {}, "at_least", line, path))
    if row["senior"].lower() not in (*YES, *NO):
        sentence = N_("{v!r} is not allowed; allowed: yes, no")
        faults.append(Fault("senior", sentence, {"v": row["senior"]}, "senior", line, path))
    senior, slots = row["senior"].lower() in YES, frozenset(row.get("slots", "").split())
    return Examiner(row["examiner"], senior, slots=slots, **loads)


def conflicts_from_file(
    path: str, candidates: Collection[str], examiners: Collection[str]
) -> frozenset[tuple[str, str]]:
    """Columns `candidate`, `examiner`: who may not examine whom; both must be known."""
    rows = rows_from_file(path, ("candidate", "examiner"))
    _refuse([*_known(rows, "candidate", candidates, path), *_known(rows, "examiner", examiners, path)])
    return frozenset((row["candidate"], row["examiner"]) for _, row in rows)


def rooms_from_file(path: str) -> dict[str, tuple[str, ...]]:
    """Columns `room`, `slot`, a line for each; slots in the order of the file."""
    rows = rows_from_file(path, ("room", "slot"))
    _refuse(_once(rows, ("room", "slot"), path))
    rooms: dict[str, tuple[str, ...]] = {}
    for _, row in rows:
        rooms[row["slot"]] = (*rooms.get(row["slot"], ()), row["room"])
    return rooms
