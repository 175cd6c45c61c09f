"""The hour log as CSV (RFC 4180, UTF-8) and as a workbook (ISO/IEC 29500, XLSX); no text in them is ever a formula."""

import csv
import io
from collections.abc import Mapping, Sequence
from datetime import date

from openpyxl import Workbook
from openpyxl.cell import WriteOnlyCell
from openpyxl.cell.cell import ILLEGAL_CHARACTERS_RE
from openpyxl.styles import Font

Rows = Sequence[Mapping[str, object]]
# Beginnings that spreadsheets take for a formula: OWASP, "CSV Injection".
RISKY = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
LONGEST_CELL = 32_767


def log_csv(columns: Sequence[str], rows: Rows) -> bytes:
    """A line for each row; text that a spreadsheet would take for a formula begins with an apostrophe."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow([plain(name) for name in columns])
    writer.writerows([plain(row.get(name, "")) for name in columns] for row in rows)
    return ("\ufeff" + text.getvalue()).encode("utf-8", "replace")


def log_workbook(columns: Sequence[str], rows: Rows, title: str) -> bytes:
    """One sheet with a heading; days are days, minutes numbers, all else text."""
    book = Workbook(write_only=True)
    sheet = book.create_sheet(title)
    sheet.freeze_panes = "A2"
    sheet.append([_cell(sheet, name, Font(bold=True)) for name in columns])
    for row in rows:
        sheet.append([_cell(sheet, row.get(name, "")) for name in columns])
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


def plain(value: object) -> str:
    """A value as text that no spreadsheet computes."""
    text = str(value)
    return f"'{text}" if isinstance(value, str) and text.startswith(RISKY) else text


def _cell(sheet: object, value: object, font: Font | None = None) -> WriteOnlyCell:
    if isinstance(value, str):
        value = ILLEGAL_CHARACTERS_RE.sub("", value)[:LONGEST_CELL].encode("utf-8", "replace").decode()
    cell = WriteOnlyCell(sheet, value)
    if isinstance(value, str):
        cell.data_type = "s"
    elif isinstance(value, date):
        cell.number_format = "yyyy-mm-dd"
    if font:
        cell.font = font
    return cell
