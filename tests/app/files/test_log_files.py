"""The log as files, read back by libraries that know the formats: icalendar, openpyxl, the standard csv module."""

import csv
import io
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import pytest
from icalendar import Calendar
from openpyxl import load_workbook

from app.files.log_calendar import CalendarEvent, log_calendar
from app.files.log_table import RISKY, log_csv, log_workbook

NOW = datetime(2026, 3, 2, 9, 30, tzinfo=UTC)
OSLO = ZoneInfo("Europe/Oslo")
ODD = 'Høyt, "over"; \\ all\nline two 🙂 ' * 9


def events(*some):
    return Calendar.from_ical(log_calendar(some, "Hours", NOW)).walk("VEVENT")


def test_times_are_in_utc_summer_and_winter():
    for month, hour in ((1, 8), (7, 7)):
        first = datetime(2026, month, 5, 9, 0, tzinfo=OSLO)
        (event,) = events(CalendarEvent("a", first, first.replace(hour=10), "Observed"))
        assert event.decoded("DTSTART") == datetime(2026, month, 5, hour, tzinfo=UTC)
        assert (event["UID"], event["STATUS"], event.decoded("DTSTAMP")) == ("a", "CONFIRMED", NOW)


def test_days_end_on_the_day_after_the_last_as_the_standard_counts():
    (event,) = events(CalendarEvent("a", date(2026, 3, 1), date(2026, 3, 2), "Workshop", cancelled=True))
    assert (event.decoded("DTSTART"), event.decoded("DTEND")) == (date(2026, 3, 1), date(2026, 3, 3))
    assert event["STATUS"] == "CANCELLED"


def test_odd_text_comes_back_as_it_was_and_no_line_is_too_long():
    made = log_calendar([CalendarEvent("a", NOW, NOW, ODD, ODD, "BEGIN:VEVENT\r\nEND:VCALENDAR\x00")], ODD, NOW)
    (event,) = Calendar.from_ical(made).walk("VEVENT")
    assert (str(event["SUMMARY"]), str(event["DESCRIPTION"])) == (ODD, ODD)
    assert str(event["LOCATION"]) == "BEGIN:VEVENT\nEND:VCALENDAR"
    assert max(map(len, made.split(b"\r\n"))) <= 75
    assert made.count(b"\r\nBEGIN:VEVENT\r\n") == 1


ROWS = [{"trainee": start + "1+1", "date": date(2026, 3, 1), "minutes": 60} for start in RISKY]
COLUMNS = ("trainee", "date", "minutes", "=cmd")


def test_no_text_in_a_table_is_taken_for_a_formula():
    """OWASP, "CSV Injection": the beginnings that spreadsheets compute."""
    read = list(csv.reader(io.StringIO(log_csv(COLUMNS, ROWS).decode("utf-8-sig"))))
    assert read[0] == ["trainee", "date", "minutes", "'=cmd"]
    assert all(row[0] == f"'{given['trainee']}" for row, given in zip(read[1:], ROWS, strict=True))
    sheet = load_workbook(io.BytesIO(log_workbook(COLUMNS, ROWS, "Hours"))).active
    for row in sheet.iter_rows(min_row=2):
        assert (row[0].data_type, row[1].is_date, row[2].value) == ("s", True, 60)


@pytest.mark.parametrize("text", ["\x00\x0b", "\ud800", "x" * 40_000, "𝔘\u202e"])
def test_odd_characters_break_no_file(text):
    rows = [{"trainee": text}]
    assert load_workbook(io.BytesIO(log_workbook(("trainee",), rows, "Hours"))).active.max_row == 2
    assert log_csv(("trainee",), rows)
    assert events(CalendarEvent("a", NOW, NOW, text))
