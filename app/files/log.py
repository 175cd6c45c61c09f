"""A log of hours read from CSV: one entry a line, every fault with its line and column."""

import csv
import re
from collections.abc import Mapping
from datetime import date
from pathlib import Path

from assessments.hours.entry import STATES, Entry
from curriculum.faults import N_, Fault, RefusedError
from curriculum.requirements.requirement_set import COLUMNS

MOST_BYTES = 256 * 1024 * 1024
MOST_MINUTES = 24 * 60
WHOLE = re.compile(r"[0-9]{1,7}")
DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


def log_from_file(path: Path | str, closed: Mapping[str, tuple[str, ...]]) -> dict[str, list[Entry]]:
    """The entries of every trainee, in the order of the file; `closed` lists the only values some fields may have.

    Raises `RefusedError` with every fault.
    """
    name = str(path)
    try:
        with Path(path).open(encoding="utf-8-sig", newline="") as file:
            return _Reading(name, closed).entries(file)
    except OSError as error:
        problem = error.strerror or str(error)
        raise RefusedError(
            [
                Fault(
                    "unreadable",
                    N_("can't be read: {problem}"),
                    {"problem": problem},
                    source=name,
                )
            ]
        ) from error
    except UnicodeDecodeError as error:
        raise RefusedError([Fault("unreadable", N_("is not UTF-8 text"), source=name)]) from error
    except csv.Error as error:
        raise RefusedError(
            [
                Fault(
                    "unreadable",
                    N_("is not CSV: {problem}"),
                    {"problem": error},
                    source=name,
                )
            ]
        ) from error


class _Reading:
    def __init__(self, name: str, closed: Mapping[str, tuple[str, ...]]):
        self.name, self.closed = name, closed
        self.faults: list[Fault] = []
        self.seen: dict[tuple[str, str], int] = {}

    def entries(self, file) -> dict[str, list[Entry]]:
        rows = csv.reader(file, strict=True)
        header = [one.strip() for one in next(rows, [])]
        self._check_header(header)
        if not set(COLUMNS) <= set(header):
            raise RefusedError(self.faults)
        found: dict[str, list[Entry]] = {}
        line = rows.line_num + 1
        for row in rows:
            if any(cell.strip() for cell in row):
                self._row(header, [cell.strip() for cell in row], line, found)
            line = rows.line_num + 1
        if self.faults:
            raise RefusedError(self.faults)
        return found

    def _fault(self, line: int, field: str, code: str, sentence: str, **values: object) -> None:
        self.faults.append(Fault(code, sentence, values, field, line, self.name))

    def _check_header(self, header: list[str]) -> None:
        needed = (*COLUMNS, *(name for name in self.closed if name not in COLUMNS))
        for column in needed:
            if column not in header:
                self._fault(
                    1,
                    column,
                    "missing-column",
                    N_("this column is missing; needed: {needed}"),
                    needed=", ".join(needed),
                )
        for column in {one for one in header if header.count(one) > 1}:
            self._fault(
                1,
                column or "(no name)",
                "double-column",
                N_("stands twice among the columns; each may stand once"),
            )
        for place, column in enumerate(header):
            if column in ("day", "week"):
                self._fault(
                    1,
                    column,
                    "reserved-column",
                    N_("is made from the date and can't be a column"),
                )
            if not column and header.count("") == 1:
                self._fault(
                    1,
                    f"column {place + 1}",
                    "no-name",
                    N_("this column has no name; every column needs one"),
                )

    def _row(
        self,
        header: list[str],
        row: list[str],
        line: int,
        found: dict[str, list[Entry]],
    ) -> None:
        if len(row) != len(header):
            sentence = N_("has {found} cells; the heading has {needed}")
            self._fault(line, "line", "ragged", sentence, found=len(row), needed=len(header))
            return
        cells = dict(zip(header, row, strict=True))
        before = len(self.faults)
        day, minutes = self._day(cells, line), self._minutes(cells, line)
        self._check_names(cells, line)
        fields = {
            name: self._values(name, cells[name], line) for name in header if name not in COLUMNS or name == "activity"
        }
        if len(self.faults) == before:
            entry = Entry(cells["id"], day, minutes, cells["state"], fields, line)
            found.setdefault(cells["trainee"], []).append(entry)

    def _check_names(self, cells: dict[str, str], line: int) -> None:
        for name in ("trainee", "id"):
            if not cells[name]:
                self._fault(line, name, "empty", N_("is empty; every entry needs one"))
        if cells["state"] not in STATES:
            sentence = N_("“{value}” is not a state; allowed: {allowed}")
            self._fault(
                line,
                "state",
                "unknown-state",
                sentence,
                value=cells["state"],
                allowed=", ".join(STATES),
            )
        key = (cells["trainee"], cells["id"])
        if key in self.seen and cells["id"]:
            sentence = N_("“{value}” stands already on line {first}; an id may stand once for each trainee")
            self._fault(
                line,
                "id",
                "double-id",
                sentence,
                value=cells["id"],
                first=self.seen[key],
            )
        self.seen.setdefault(key, line)

    def _day(self, cells: dict[str, str], line: int) -> date | None:
        try:
            if DATE.fullmatch(cells["date"]):
                return date.fromisoformat(cells["date"])
        except ValueError:
            pass
        self._fault(
            line,
            "date",
            "not-a-date",
            N_("“{value}” is not a date; allowed: such as 2026-11-25"),
            value=cells["date"],
        )
        return None

    def _minutes(self, cells: dict[str, str], line: int) -> int:
        if WHOLE.fullmatch(cells["minutes"]):
            return int(cells["minutes"])
        sentence = N_("“{value}” is not a whole number of minutes; allowed: 0 or more, without sign, point or unit")
        self._fault(line, "minutes", "not-minutes", sentence, value=cells["minutes"])
        return 0

    def _values(self, name: str, cell: str, line: int) -> tuple[str, ...]:
        values = tuple(dict.fromkeys(one.strip() for one in cell.split("|") if one.strip()))
        allowed = self.closed.get(name)
        if allowed is not None:
            for value in values or ("",):
                if value not in allowed:
                    sentence = N_("“{value}” can't be here; allowed: {allowed}")
                    self._fault(
                        line,
                        name,
                        "outside-list",
                        sentence,
                        value=value,
                        allowed=", ".join(allowed),
                    )
        return values
