"""Which language a person reads: RFC 9110, 12.5.4 (Accept-Language), among the catalogues there are."""

from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from app.wording.dates import clock_text, day_text, moment_text, times_text
from app.wording.hours import hours
from app.wording.languages import ENGLISH, Language, Languages, accepted_locales

PO = 'msgid ""\nmsgstr ""\n"Content-Type: text/plain; charset=utf-8\\n"\n"Plural-Forms: {plural}\\n"\n'
GERMAN = 'msgid "Today"\nmsgstr "Heute"\n\nmsgid "{hours} h"\nmsgstr "{hours} Std."\n'
POLISH = 'msgid "{number} day"\nmsgid_plural "{number} days"\nmsgstr[0] "{number} dzień"\nmsgstr[1] "{number} dni"\nmsgstr[2] "{number} dnia"\n'


@pytest.fixture
def languages(tmp_path: Path) -> Languages:
    plurals = {
        "en": ("nplurals=2; plural=(n != 1);", ""),
        "de": ("nplurals=2; plural=(n != 1);", GERMAN),
        "pl": ("nplurals=3; plural=(n==1 ? 0 : n<5 ? 1 : 2);", POLISH),
    }
    for name, (plural, texts) in plurals.items():
        path = tmp_path / name / "LC_MESSAGES" / "throughline.po"
        path.parent.mkdir(parents=True)
        path.write_text(f"{PO.format(plural=plural)}\n{texts}", encoding="utf-8")
    return Languages(tmp_path)


@pytest.mark.parametrize(
    ("header", "wanted"),
    [
        ("da, en-GB;q=0.8, en;q=0.7", ["da", "en_GB", "en"]),  # the example of RFC 9110
        ("en;q=0.1, de", ["de", "en"]),
        ("de;q=0, en", ["en"]),
        ("*, de;q=x, ;;, de;q=9", []),
        ("", []),
    ],
)
def test_the_header_is_read_by_weight(header: str, wanted: list[str]) -> None:
    assert accepted_locales(header) == wanted


@pytest.mark.parametrize(
    ("accepted", "school", "locale"),
    [
        ("", "de_AT", "de_AT"),
        ("de-CH,de;q=0.9", "en_GB", "de"),
        ("en-US", "en_GB", "en_GB"),
        ("fr, en;q=0.5", "de", "en"),
        ("fr", "de", "de"),
        ("fr", "fr_FR", "en_GB"),
        ("", "no such locale", "en_GB"),
        ("zz-ZZ, \u00e4\u00f6, de\x00", "x" * 300, "en_GB"),
    ],
)
def test_a_person_reads_what_they_ask_for_or_the_schools(
    languages: Languages, accepted: str, school: str, locale: str
) -> None:
    assert languages.chosen(accepted, school).locale == locale


def test_a_text_without_translation_stays_english(languages: Languages) -> None:
    language = languages.of("de_DE")
    assert (language("Today"), language("Cohort"), language("")) == ("Heute", "Cohort", "")


def test_plurals_follow_the_language(languages: Languages) -> None:
    said = [languages.of("pl").ngettext("{number} day", "{number} days", number) for number in (1, 3, 5)]
    assert said == ["1 dzień", "3 dni", "5 dnia"]
    assert ENGLISH.ngettext("{number} day", "{number} days", 1200) == "1,200 days"


def test_days_times_and_numbers_are_the_locales(languages: Languages) -> None:
    """As the Unicode CLDR has them; known from the locales' own use."""
    assert day_text(date(2026, 11, 25), "de_DE") == "25.11.2026"
    assert day_text(date(2026, 11, 25), "en_GB") == "25 Nov 2026"
    assert clock_text(24 * 60, "de_DE") == "00:00"
    assert times_text(570, 630, ENGLISH) == "09:30–10:30"
    assert "16:30" in moment_text(datetime(2026, 11, 25, 15, 30, tzinfo=UTC), "Europe/Vienna", "de_AT")
    assert hours(75 * 60_000, languages.of("de")) == "75.000 Std."
    assert hours(-90, Language("en_GB")) == "−1 h 30 min"
