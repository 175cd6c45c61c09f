"""CSV tables with a header, read into columns; what can't be read is named by file, line and column."""

import csv
import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from curriculum.faults import N_, Fault, RefusedError

MOST_FAULTS = 20


@dataclass(frozen=True, slots=True)
class Table:
    """Columns of text as written, each row with its line in the file; an empty cell is missing."""

    source: str
    columns: dict[str, list[str]]
    lines: list[int]

    def __len__(self) -> int:
        return len(self.lines)

    def text(self, column: str) -> list[str]:
        """The column as text; `RefusedError` names the columns there are."""
        if column not in self.columns:
            there = ", ".join(self.columns)
            sentence = N_("there is no such column; the file has {columns}")
            raise RefusedError(
                [
                    Fault(
                        "no-column",
                        sentence,
                        {"columns": there},
                        column,
                        1,
                        self.source,
                    )
                ]
            )
        return self.columns[column]

    def numbers(self, column: str, whole: bool = False) -> np.ndarray:
        """The column as floats, nan where the cell is empty; `RefusedError` with each cell that is no number."""
        cells = self.text(column)
        try:
            numbers = np.array([float(cell) if cell else math.nan for cell in cells])
        except ValueError:
            numbers = np.array([_number(cell) for cell in cells])
        empty = np.fromiter((not cell for cell in cells), bool, len(cells))
        wrong = ~np.isfinite(numbers) & ~empty
        if whole:
            wrong |= ~empty & (numbers != np.floor(numbers))
        if wrong.any():
            sentence = N_("{value} is not a whole number") if whole else N_("{value} is not a number")
            raise RefusedError(self.cells(column, np.flatnonzero(wrong), "not-a-number", sentence))
        return numbers

    def complete_numbers(self, column: str, whole: bool = False) -> np.ndarray:
        """The column as floats; an empty cell is a fault as well."""
        numbers = self.numbers(column, whole)
        empty = np.flatnonzero(np.isnan(numbers))
        if len(empty):
            raise RefusedError(self.cells(column, empty, "missing", N_("is empty; a number is needed here")))
        return numbers

    def codes(self, column: str, labels: Sequence[str] | None = None) -> tuple[tuple[str, ...], np.ndarray]:
        """The column's labels in order and each row's place among them (-1: empty).

        With `labels` those are the only ones allowed; without, they are the ones that occur,
        in the order of numbers when all are numbers, else of text.
        """
        cells = self.text(column)
        distinct = set(cells) - {""}
        known = tuple(labels) if labels is not None else in_order(distinct)
        if labels is None:
            places = {label: place for place, label in enumerate(known)}
        else:
            same = {_same(label): place for place, label in enumerate(known)}
            places = {cell: same.get(_same(cell), -1) for cell in distinct}
        found = np.fromiter((places.get(cell, -1) for cell in cells), np.int64, len(cells))
        strange = [row for row in np.flatnonzero(found < 0) if cells[row]]
        if strange:
            allowed = ", ".join(known)
            sentence = N_("{value} is not one of {allowed}")
            raise RefusedError(self.cells(column, strange, "unknown-label", sentence, allowed=allowed))
        return known, found

    def complete_codes(self, column: str) -> tuple[tuple[str, ...], np.ndarray]:
        """The same; an empty cell is a fault."""
        labels, codes = self.codes(column)
        empty = np.flatnonzero(codes < 0)
        if len(empty):
            raise RefusedError(self.cells(column, empty, "missing", N_("is empty; a value is needed here")))
        return labels, codes

    def refuse_repeated(self, keys: np.ndarray, column: str) -> None:
        """Raise `RefusedError` for the rows whose key (one integer a row) stands in an earlier row."""
        _, first = np.unique(keys, return_index=True)
        if len(first) < len(keys):
            repeated = np.setdiff1d(np.arange(len(keys)), first)
            sentence = N_("this row gives again what an earlier row gave")
            raise RefusedError(self.cells(column, repeated, "twice", sentence))

    def cells(self, column: str, rows: Sequence[int], code: str, sentence: str, **more: object) -> Iterator[Fault]:
        """A fault for each of these rows' cells, up to twenty."""
        cells = self.columns.get(column)
        for row in list(rows)[:MOST_FAULTS]:
            values = {"value": cells[row] if cells else "", **more}
            yield Fault(code, sentence, values, column, self.lines[row], self.source)


def in_order(labels: set[str]) -> tuple[str, ...]:
    """Labels sorted as numbers when all are numbers, else as text."""
    if all(math.isfinite(_number(label)) for label in labels):
        return tuple(sorted(labels, key=lambda label: (float(label), label)))
    return tuple(sorted(labels))


def categories_in(cells: Iterable[str]) -> tuple[str, ...]:
    """The different ratings in order, "1.0" and "1" being one."""
    distinct = set(cells) - {""}
    if all(math.isfinite(_number(cell)) for cell in distinct):
        return tuple(f"{number:.15g}" for number in sorted({float(cell) for cell in distinct}))
    return in_order(distinct)


def refuse_mixture(table: "Table", columns: Sequence[str]) -> None:
    """Raise `RefusedError` for cells that are no numbers where others are: a slip of the pen is no category."""
    cells = {column: table.text(column) for column in columns}
    if not any(math.isfinite(_number(cell)) for cell in set().union(*cells.values())):
        return
    sentence = N_("{value} is not a number, as others are; leave a missing rating empty, or give the --categories")
    faults = []
    for column, own in cells.items():
        strange = [row for row, cell in enumerate(own) if cell and not math.isfinite(_number(cell))]
        faults += table.cells(column, strange, "not-a-number", sentence)
    if faults:
        raise RefusedError(faults)


def read_table(path: Path | str) -> Table:
    """Read a CSV file with a header; raise `RefusedError` for what can't be read."""
    source = str(path)
    try:
        with open(path, encoding="utf-8-sig", newline="") as stream:
            return _table(csv.reader(stream, strict=True), source)
    except OSError as error:
        problem = error.strerror or str(error)
        raise RefusedError([_fault(source, None, "", N_("can't be read: {problem}"), problem=problem)]) from error
    except UnicodeDecodeError as error:
        raise RefusedError([_fault(source, None, "", N_("is not UTF-8 text"))]) from error


def _table(reader: Iterator[list[str]], source: str) -> Table:
    try:
        header = [name.strip() for name in next(reader, [])]
        _check_header(header, source)
        kept = [(reader.line_num, row) for row in reader if any(row)]
    except csv.Error as error:
        raise RefusedError([_fault(source, reader.line_num, "", N_("is not CSV: {problem}"), problem=error)]) from error
    if not kept:
        raise RefusedError([_fault(source, 1, "", N_("has a header and no rows"))])
    _check_lengths(kept, len(header), source)
    lines, rows = zip(*kept, strict=True)
    columns = ([cell.strip() for cell in column] for column in zip(*rows, strict=True))
    # A comma at the end of every line makes no column.
    named = {name: own for name, own in zip(header, columns, strict=True) if name or any(own)}
    return Table(source, named, list(lines))


def _check_lengths(kept: list[tuple[int, list[str]]], expected: int, source: str) -> None:
    sentence = N_("has {found} cells; the header has {expected}")
    wrong = [(line, len(row)) for line, row in kept if len(row) != expected]
    if wrong:
        raise RefusedError(
            _fault(source, line, "", sentence, found=found, expected=expected) for line, found in wrong[:MOST_FAULTS]
        )


def _check_header(header: list[str], source: str) -> None:
    if not any(header):
        raise RefusedError([_fault(source, 1, "", N_("is empty; the first line must name the columns"))])
    for sign, name in ((";", N_("semicolons")), ("\t", N_("tabs"))):
        if len(header) == 1 and sign in header[0]:
            sentence = N_("is parted by {sign}; commas are needed")
            raise RefusedError([_fault(source, 1, "", sentence, sign=name)])
    twice = sorted({name for name in header if header.count(name) > 1})
    if twice:
        raise RefusedError(_fault(source, 1, name, N_("stands twice among the columns")) for name in twice)


def _fault(source: str, line: int | None, column: str, sentence: str, **values: object) -> Fault:
    return Fault("unreadable", sentence, values, column, line, source)


def _number(cell: str) -> float:
    try:
        return float(cell) if cell else math.nan
    except ValueError:
        return math.inf


def _same(label: str) -> str:
    number = _number(label)
    return repr(number) if math.isfinite(number) else label
