"""A bank of exercises from CSV: `exercise, difficulty, minutes` and any further fields; transitions between them."""

from app.files.panel import rows_from_file
from assessments.practicals.bank import BankExercise
from curriculum.faults import N_, Fault, RefusedError

NEEDED = ("exercise", "difficulty", "minutes")
MOST = 1e6


def bank_from_file(path: str) -> tuple[BankExercise, ...]:
    """Read a bank, `recently_drawn` and `candidates` too if they are columns; raise `RefusedError` with every fault and its line."""
    faults: list[Fault] = []
    found: dict[str, BankExercise] = {}
    for line, row in rows_from_file(path, NEEDED):
        one = _exercise(row, line, path, faults)
        if one.id in found:
            faults.append(Fault("twice", N_("{name} stands twice"), {"name": one.id}, "exercise", line, path))
        found[one.id] = one
    if not found and not faults:
        faults.append(Fault("empty", N_("holds no exercise"), {}, "exercise", 1, path))
    if faults:
        raise RefusedError(faults)
    return tuple(found.values())


def transitions_from_file(path: str, known: set[str]) -> dict[tuple[str, str], float]:
    """Columns `from`, `to`, `seconds`; a pair holds for the way back too, unless that is written as well."""
    faults: list[Fault] = []
    found: dict[tuple[str, str], float] = {}
    for line, row in rows_from_file(path, ("from", "to", "seconds")):
        for column in ("from", "to"):
            if row[column] not in known:
                values = {"name": row[column]}
                faults.append(Fault("unknown", N_("{name} is not in the bank"), values, column, line, path))
        pair = row["from"], row["to"]
        if pair in found:
            faults.append(
                Fault("twice", N_("{name} stands twice"), {"name": " → ".join(pair)}, "from", line, path),
            )
        found[pair] = _number(row, "seconds", line, path, faults, least=0)
    if faults:
        raise RefusedError(faults)
    return found


def _number(row: dict[str, str], name: str, line: int, path: str, faults: list[Fault], least: float = -MOST) -> float:
    try:
        number = float(row[name])
        if least <= number <= MOST:
            return number
    except ValueError:
        pass
    sentence = N_("{value!r} is not a number allowed here; allowed: {least:g} to {most:g}")
    faults.append(Fault("not-number", sentence, {"value": row[name], "least": least, "most": MOST}, name, line, path))
    return 0.0


def _exercise(row: dict[str, str], line: int, path: str, faults: list[Fault]) -> BankExercise:
    difficulty = _number(row, "difficulty", line, path, faults)
    minutes = _number(row, "minutes", line, path, faults, least=0)
    recent = _whole(row, "recently_drawn", line, path, faults) or 0
    measured_on = _whole(row, "candidates", line, path, faults)
    return BankExercise(row["exercise"], difficulty, minutes, row, recent, measured_on)


def _whole(row: dict[str, str], name: str, line: int, path: str, faults: list[Fault]) -> int | None:
    text = row.get(name, "")
    if not text or text.isdecimal():
        return int(text) if text else None
    faults.append(Fault("not-number", N_("{value!r} is not a whole number"), {"value": text}, name, line, path))
    return None
