"""A table that somebody sends: CSV or a workbook (XLSX), as rows of text, within limits and with plain refusals."""

import csv
import io
import zipfile
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime, time

from openpyxl import load_workbook

from curriculum.faults import N_, Fault, RefusedError

MOST_BYTES, MOST_UNPACKED, MOST_FILES = 4 * 2**20, 60 * 2**20, 300
MOST_ROWS, MOST_COLUMNS, MOST_LETTERS = 2_000, 60, 1_000
MARKS = (("utf-8-sig", b"\xef\xbb\xbf"), ("utf-16", b"\xff\xfe"), ("utf-16", b"\xfe\xff"))
SEPARATORS = (",", ";", "\t")

EMPTY = N_("the file is empty; it needs a heading and at least one row")
TOO_LARGE = N_("the file is too large; at most {most} MB can be read")
NOT_TEXT = N_("the file is not text in UTF-8: save it as CSV in UTF-8, or as a workbook (XLSX)")
NOT_CSV = N_("the file is no table: {problem}")
NOT_BOOK = N_("the workbook can't be read: save it again as XLSX without a password, or as CSV")
BOMB = N_("the workbook unpacks to far more than a log of hours; save only the sheet with the hours")
ROWS = N_("the file has more than {most} rows; split it")
COLUMNS = N_("the file has more than {most} columns; leave out what is not about the hours")
LETTERS = N_("row {row} has a cell of more than {most} letters")
TWICE = N_("“{name}” stands twice in the heading; every column needs a name of its own")
NO_NAME = N_("column {place} has cells but no name in the heading")


@dataclass(frozen=True, slots=True)
class Table:
    """The heading, and rows with their number in the file (the heading is row 1); rows are as wide as the heading."""

    columns: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]


def read_table(content: bytes) -> Table:
    """The first sheet or the whole CSV; days are written 2026-11-25. `RefusedError` with every fault found."""
    if not content.strip():
        raise _refused("empty", EMPTY)
    if len(content) > MOST_BYTES:
        raise _refused("too-large", TOO_LARGE, most=MOST_BYTES // 2**20)
    is_book = content.startswith(b"PK\x03\x04")
    return _table(_book_rows(content) if is_book else _csv_rows(content))


def _csv_rows(content: bytes) -> Iterator[list[str]]:
    encoding = next((name for name, mark in MARKS if content.startswith(mark)), "utf-8")
    try:
        text = content.decode(encoding)
    except UnicodeDecodeError:
        raise _refused("not-text", NOT_TEXT) from None
    if "\x00" in text:
        raise _refused("not-text", NOT_TEXT)
    heading = text.partition("\n")[0]
    separator = max(SEPARATORS, key=heading.count)
    try:
        yield from csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    except csv.Error as error:
        raise _refused("not-csv", NOT_CSV, problem=str(error)) from None


def _book_rows(content: bytes) -> Iterator[list[str]]:
    """Sizes are taken from what unpacks, not from what the file says of itself."""
    _refuse_bomb(content)
    try:
        book = load_workbook(io.BytesIO(content), read_only=True, data_only=True, keep_links=False)
        sheet = book.worksheets[0]
        sheet.reset_dimensions()
        for row in sheet.iter_rows(values_only=True):
            yield [_text(cell) for cell in row[: MOST_COLUMNS + 1]]
    except RefusedError:
        raise
    except Exception:  # a damaged workbook fails in as many ways as there are parts in it
        raise _refused("not-book", NOT_BOOK) from None


def _refuse_bomb(content: bytes) -> None:
    unpacked = 0
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as packed:
            if len(packed.infolist()) > MOST_FILES:
                raise _refused("bomb", BOMB)
            for one in packed.infolist():
                with packed.open(one) as file:
                    while piece := file.read(2**16):
                        unpacked += len(piece)
                        if unpacked > MOST_UNPACKED:
                            raise _refused("bomb", BOMB)
    except (zipfile.BadZipFile, RuntimeError, NotImplementedError, EOFError, OSError, ValueError):
        raise _refused("not-book", NOT_BOOK) from None


def _text(cell: object) -> str:
    if cell is None:
        return ""
    if isinstance(cell, datetime):
        return cell.date().isoformat() if cell.time() == time() else cell.isoformat(" ", "minutes")
    if isinstance(cell, date):
        return cell.isoformat()
    if isinstance(cell, time):
        return cell.isoformat("minutes")
    if isinstance(cell, float) and cell.is_integer():
        return str(int(cell))
    return str(cell)


def _table(rows: Iterable[list[str]]) -> Table:
    found: list[tuple[int, list[str]]] = []
    for number, cells in enumerate(rows, start=1):
        stripped = [cell.strip() for cell in cells]
        if not any(stripped):
            continue
        if len(found) > MOST_ROWS:
            raise _refused("rows", ROWS, most=MOST_ROWS)
        if any(len(cell) > MOST_LETTERS for cell in stripped):
            raise _refused("letters", LETTERS, row=number, most=MOST_LETTERS)
        found.append((number, stripped))
    if len(found) < 2:
        raise _refused("empty", EMPTY)
    return _checked(found[0][1], found[1:])


def _checked(heading: list[str], rows: list[tuple[int, list[str]]]) -> Table:
    width = max(len(heading), *(len(cells) for _, cells in rows))
    if width > MOST_COLUMNS:
        raise _refused("columns", COLUMNS, most=MOST_COLUMNS)
    padded = [(number, tuple(cells) + ("",) * (width - len(cells))) for number, cells in rows]
    names = (*heading, *[""] * (width - len(heading)))
    used = [place for place in range(width) if names[place] or any(cells[place] for _, cells in padded)]
    faults = [_fault("no-name", NO_NAME, place=place + 1) for place in used if not names[place]]
    given = [names[place] for place in used if names[place]]
    faults += [_fault("twice", TWICE, name=name) for name in dict.fromkeys(given) if given.count(name) > 1]
    if faults:
        raise RefusedError(faults)
    return Table(
        tuple(names[place] for place in used),
        tuple((number, tuple(cells[place] for place in used)) for number, cells in padded),
    )


def _fault(code: str, sentence: str, **values: object) -> Fault:
    return Fault(code, sentence, values, "file")


def _refused(code: str, sentence: str, **values: object) -> RefusedError:
    return RefusedError([_fault(code, sentence, **values)])
