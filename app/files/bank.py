"""A bank of exercises from CSV: `exercise, difficulty, minutes` and any further fields."""

import csv
from pathlib import Path

from assessments.practicals.bank import BankExercise
from curriculum.faults import N_, Fault, RefusedError

NEEDED = ("exercise", "difficulty", "minutes")


def bank_from_file(path: str) -> tuple[BankExercise, ...]:
    """Read a bank; raise `RefusedError` with every fault and its line."""
    faults: list[Fault] = []
    try:
        with Path(path).open(encoding="utf-8-sig", newline="") as file:
            reader = csv.DictReader(file)
            for name in NEEDED:
                if name not in (reader.fieldnames or ()):
                    faults.append(Fault("missing", N_("this column is missing"), {}, name, 1, path))
            if faults:
                raise RefusedError(faults)
            found = tuple(_exercise(row, reader.line_num, path, faults) for row in reader)
    except (OSError, UnicodeDecodeError, csv.Error) as error:
        problem = {"problem": str(error)}
        raise RefusedError([Fault("unreadable", N_("can't be read: {problem}"), problem, source=path)]) from error
    if not found:
        faults.append(Fault("empty", N_("holds no exercise"), {}, "exercise", 1, path))
    names = [one.id for one in found]
    for place, name in enumerate(names):
        if name in names[:place]:
            faults.append(
                Fault(
                    "twice",
                    N_("{name} stands twice"),
                    {"name": name},
                    "exercise",
                    place + 2,
                    path,
                )
            )
    if faults:
        raise RefusedError(faults)
    return found


def _exercise(row: dict, line: int, path: str, faults: list[Fault]) -> BankExercise:
    numbers = {}
    for name in ("difficulty", "minutes"):
        try:
            numbers[name] = float(row[name])
            good = abs(numbers[name]) < 1e6 and (name == "difficulty" or numbers[name] >= 0)
        except (TypeError, ValueError):
            good = False
        if not good:
            values = {"value": row[name] or ""}
            sentence = N_("{value!r} is not a number allowed here")
            faults.append(Fault("not-number", sentence, values, name, line, path))
            numbers[name] = 0.0
    return BankExercise(row["exercise"] or "", fields={k: v for k, v in row.items() if k}, **numbers)
