"""What every `measure` word shares: the file, `--json`, `--anyway`, `--seed`, roles of columns, and the answer."""

import argparse
import json
import math
from collections.abc import Iterable, Mapping

import numpy as np

from app.files.measurement import Table
from assessments.measurement.statistic import Statistic
from curriculum.faults import N_, Fault, RefusedError

UNIT_NAMES = (
    "unit",
    "object",
    "candidate",
    "subject",
    "performance",
    "lesson",
    "case",
    "row",
    "id",
    "judge",
    "person",
    "trainee",
    "name",
    "number",
    "no",
    "nr",
)
# So many rows that numbers in the first column can be told to name them, where two columns or more are left.
LEAST_NUMBERED = 5


def add_file_options(parser: argparse.ArgumentParser) -> None:
    """Add the file and the options that every word takes."""
    parser.add_argument(
        "file",
        metavar="FILE.csv",
        help="a table with a header; empty cells are missing",
    )
    parser.add_argument("--json", action="store_true", help="answer in JSON")
    parser.add_argument(
        "--anyway",
        action="store_true",
        help="show numbers that rest on too few data, flagged",
    )
    parser.add_argument(
        "--seed",
        type=whole_option,
        default=1,
        metavar="N",
        help="seed of the resampling (default 1)",
    )


def add_roles(parser: argparse.ArgumentParser, **roles: str) -> None:
    """Add `--ROLE COLUMN` options; a column named like its role needs none."""
    for role, meaning in roles.items():
        parser.add_argument(f"--{role}", metavar="COLUMN", help=f"column of {meaning} (default: {role})")


def role(options: argparse.Namespace, name: str, table: Table, others: Iterable[str] = ()) -> str:
    """The column that plays a role; `RefusedError` when neither the option nor a column of that name is there."""
    asked = getattr(options, name.replace("-", "_"), None)
    found = asked or named(table.columns, (name, *others))
    if found is None:
        sentence = N_("no column is named so; say which with --{role}; the file has {columns}")
        values = {"role": name.replace("_", "-"), "columns": ", ".join(table.columns)}
        raise RefusedError([Fault("no-column", sentence, values, name, 1, table.source)])
    table.text(found)
    return found


def named(columns: Iterable[str], names: Iterable[str]) -> str | None:
    """The first of these columns that bears one of the names, in whatever letters; exactly so comes first."""
    columns = list(columns)
    alike = {column.lower(): column for column in reversed(columns)}
    return next((column for name in names for column in (name, alike.get(name)) if column in columns), None)


def number_option(text: str) -> float:
    """A finite number, for `type=` of an option."""
    try:
        value = float(text)
    except ValueError:
        value = math.nan
    if not math.isfinite(value):
        raise argparse.ArgumentTypeError(f"{text!r} is not a number")
    return value


def positive_option(text: str) -> float:
    """A number above 0, for `type=` of an option."""
    value = number_option(text)
    if value <= 0:
        raise argparse.ArgumentTypeError(f"{text!r} is not above 0")
    return value


def whole_option(text: str) -> int:
    """A whole number, 0 or more, for `type=` of an option."""
    if not text.isdecimal():
        raise argparse.ArgumentTypeError(f"{text!r} is not a whole number, 0 or more")
    return int(text)


def refuse_outside(table: Table, column: str, scores: np.ndarray, most: float | None, least: float = 0.0) -> None:
    """Raise `RefusedError` for scores below `least`, or above `most` where that is known."""
    wrong = np.flatnonzero((scores < least) | (scores > (math.inf if most is None else most)))
    if most is not None and len(wrong):
        sentence = N_("{value} is not between {least} and {most}")
        raise RefusedError(table.cells(column, wrong, "outside", sentence, least=f"{least:g}", most=f"{most:g}"))


def with_detail(cut: Statistic, **detail: object) -> dict[str, object]:
    """A cut with what its method adds, which is held back with it."""
    return {"cut": cut} | (detail if cut.estimate is not None else dict.fromkeys(detail))


def show(options: argparse.Namespace, answer: Mapping[str, object], sentences: Iterable[str]) -> int:
    """Print the answer as JSON, or as sentences; the exit status 0."""
    if options.json:
        print(
            json.dumps(
                plain({"file": options.file, "seed": options.seed, **answer}),
                indent=1,
                ensure_ascii=False,
            )
        )
    else:
        print("\n".join(sentences))
    return 0


def plain(value: object) -> object:
    """Values as JSON takes them: a `Statistic` as its six keys, what is not finite as null."""
    match value:
        case Statistic():
            return statistic_json(value)
        case Fault():
            return value.text()
        case Mapping():
            return {str(key): plain(inner) for key, inner in value.items()}
        case np.ndarray():
            return plain(value.tolist())
        case list() | tuple():
            return [plain(inner) for inner in value]
        case np.generic():
            return plain(value.item())
        case float():
            return value if math.isfinite(value) else None
    return value


def statistic_json(statistic: Statistic) -> dict[str, object]:
    return {
        "estimate": plain(statistic.estimate),
        "low": plain(statistic.low),
        "high": plain(statistic.high),
        "n": statistic.n,
        "withheld": statistic.withheld.text() if statistic.withheld else None,
        "flags": [flag.text() for flag in statistic.flags],
    }


def columns_but_the_unit(options: argparse.Namespace, table: Table, besides: str | None = None) -> list[str]:
    """The columns of a wide table, without the one that names its rows, and without `besides`.

    `RefusedError` when no other is left.
    """
    left = Table(table.source, {name: own for name, own in table.columns.items() if name != besides}, table.lines)
    names = unit_column(options.unit, left)
    others = [column for column in left.columns if column != names]
    if not others:
        sentence = N_("is the only column; a wide table has one for each examiner or part besides")
        raise RefusedError([Fault("one-column", sentence, {}, names or "", 1, table.source)])
    return others


def unit_column(asked: str | None, table: Table) -> str | None:
    """The column that names the rows of a wide table.

    That one is `asked`, or else the first column when it bears a name for what is rated (or none), counts the rows,
    holds a different name in each, or different whole numbers quite unlike those of the other columns.
    """
    if asked or not table.columns:
        table.text(asked or "")
        return asked
    first, *others = table.columns
    cells = table.text(first)
    if first.lower() in ("", *UNIT_NAMES):
        return first
    if len(set(cells)) < len(cells):
        return None
    numbers = [_number(cell) for cell in cells]
    if None in numbers:
        return first if numbers.count(None) == len(cells) else None
    return (
        first if _is_numbering(numbers, [_number(cell) for column in others for cell in table.text(column)]) else None
    )


def _is_numbering(numbers: list[float], others: list[float | None]) -> bool:
    if (
        len(numbers) < LEAST_NUMBERED
        or len(others) < 2 * len(numbers)
        or any(number != int(number) for number in numbers)
    ):
        return False
    counted = numbers == [numbers[0] + row for row in range(len(numbers))]
    known = [number for number in others if number is not None]
    return counted or (bool(known) and (min(numbers) > max(known) or max(numbers) < min(known)))


def _number(cell: str) -> float | None:
    try:
        value = float(cell)
    except ValueError:
        return None
    return value if math.isfinite(value) else None
