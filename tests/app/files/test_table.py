"""Tables that people send: read as text from CSV and from workbooks that another library wrote, or refused in a sentence."""

import io
import zipfile
from datetime import date, datetime, time

import pytest
from openpyxl import Workbook

from app.files.table import MOST_ROWS, read_table
from curriculum.faults import RefusedError


def book(*rows):
    made, file = Workbook(), io.BytesIO()
    for row in rows:
        made.active.append(row)
    made.save(file)
    return file.getvalue()


@pytest.mark.parametrize(
    "content",
    [
        b"date,minutes\n2026-03-01,60\n",
        b"\xef\xbb\xbfdate;minutes\r\n2026-03-01;60\r\n\r\n",
        "date\tminutes\n2026-03-01\t60".encode("utf-16"),
        book(["date", "minutes"], [date(2026, 3, 1), 60]),
        book(["date", "minutes"], [datetime(2026, 3, 1), 60.0], [None, None]),
    ],
)
def test_a_table_is_read_whatever_it_was_written_with(content):
    table = read_table(content)
    assert (table.columns, table.rows) == (("date", "minutes"), ((2, ("2026-03-01", "60")),))


def test_a_workbooks_times_are_text_and_formulas_are_not_computed():
    table = read_table(book(["from", "x"], [time(9, 30), "=1+1"], ["a", "b"]))
    assert table.rows[0] == (2, ("09:30", ""))


def packed(name, size):
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr(name, b"0" * size)
    return file.getvalue()


ENTITIES = b'<!DOCTYPE a [<!ENTITY b "bb"><!ENTITY c "&b;&b;">]><a>&c;</a>'


def with_sheet(content):
    """A workbook whose sheet is replaced."""
    old, new = zipfile.ZipFile(io.BytesIO(book(["a"], ["b"]))), io.BytesIO()
    with zipfile.ZipFile(new, "w") as archive:
        for one in old.namelist():
            archive.writestr(one, content if "sheet1" in one else old.read(one))
    return new.getvalue()


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"", "empty"),
        (b"date,minutes\n", "empty"),
        (b"date\n" + "Sm\xf8r".encode("latin-1"), "not-text"),
        (b"a,b\n1,\x00", "not-text"),
        (b'a,b\n"1,2', "not-csv"),
        (b"a,a\n1,2", "twice"),
        (b"a\n1,2", "no-name"),
        (b"a\n" + b"1\n" * (MOST_ROWS + 1), "rows"),
        (b"a\n" + b"x" * 1_001, "letters"),
        (b"a" + b",b" * 60 + b"\n1", "columns"),
        (b"x" * (4 * 2**20 + 1), "too-large"),
        (b"PK\x03\x04 nothing", "not-book"),
        (packed("xl/workbook.xml", 61 * 2**20), "bomb"),
        (packed("other.txt", 10), "not-book"),
        (with_sheet(b"<no"), "not-book"),
        (with_sheet(ENTITIES), "not-book"),
    ],
)
def test_what_can_not_be_read_is_refused_with_a_sentence(content, code):
    with pytest.raises(RefusedError) as refusal:
        read_table(content)
    assert {fault.code for fault in refusal.value.faults} == {code}
