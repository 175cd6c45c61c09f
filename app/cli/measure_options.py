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
)


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
        type=int,
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
    found = asked or next((column for column in (name, *others) if column in table.columns), None)
    if found is None:
        sentence = N_("no column is named so; say which with --{role}; the file has {columns}")
        values = {"role": name, "columns": ", ".join(table.columns)}
        raise RefusedError([Fault("no-column", sentence, values, name, 1, table.source)])
    table.text(found)
    return found


def number_option(text: str) -> float:
    """A finite number, for `type=` of an option."""
    value = float(text)
    if not math.isfinite(value):
        raise ValueError(text)
    return value


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


def columns_but_the_unit(options: argparse.Namespace, table: Table) -> list[str]:
    """The columns of a wide table, without the one that names its rows.

    That one is `--unit`, or else the first column when it bears a name for what is rated (or none),
    counts the rows, or holds a different name in each.
    """
    if options.unit:
        table.text(options.unit)
    first = next(iter(table.columns))
    names = options.unit or (first if _names_rows(first, table.text(first)) else None)
    return [column for column in table.columns if column != names]


def _names_rows(column: str, cells: list[str]) -> bool:
    if column.lower() in ("", *UNIT_NAMES):
        return True
    counted = len(cells) > 4 and cells == [str(row + 1) for row in range(len(cells))]
    return counted or (len(set(cells)) == len(cells) and not any(_is_number(cell) for cell in cells))


def _is_number(cell: str) -> bool:
    try:
        float(cell)
    except ValueError:
        return False
    return True
