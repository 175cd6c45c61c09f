"""The readiness report as PDF: structure after PDF/UA-1 (ISO 14289-1:2014, clauses 5, 7.1, 7.2), read with pikepdf."""

import io
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path

import pikepdf
import pytest

from app.files.readiness import readiness_from_file
from app.files.readiness_pdf import readiness_pdf
from app.wording.languages import Language
from assessments.readiness.evidence import DocumentEvidence, Evidence, HoursEvidence, PlanLine, RuleLine
from assessments.readiness.report import report

SEED = Path(__file__).parents[3] / "seed_data" / "readiness" / "comprehensive.yaml"
MADE = datetime(2026, 3, 1, 9, 0, tzinfo=UTC)
HOURS = HoursEvidence(
    complete=False,
    further_minutes=5_130,
    waiting_minutes=390,
    credited_minutes=21_870,
    enrolled=date(2025, 6, 2),
    window_end=date(2026, 12, 2),
    rules=(RuleLine("hosts", "Different hosts observed", "count", 3, 2, 1, 1),),
    plan=(PlanLine("in", ("Observed teaching",), 600), PlanLine("anywhere", ("a", "b"), 4_530)),
)
CRITERIA = readiness_from_file(SEED)
EVIDENCE = Evidence(hours=(("comprehensive", HOURS),), documents=(DocumentEvidence("agreement", True),))
REPORT = report(CRITERIA, EVIDENCE, MADE.date())


def opened(person="Maren Oakhill", found=REPORT, **more):
    return pikepdf.open(io.BytesIO(readiness_pdf(found, person, "Halden Row", MADE, **more)))


def elements(node, kinds):
    for kid in node.get("/K", []) if not isinstance(node.get("/K"), pikepdf.Dictionary) else [node["/K"]]:
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            kinds.append(kid)
            elements(kid, kinds)
    return kinds


def test_it_is_tagged_has_language_and_title_and_claims_pdf_ua():
    pdf = opened()
    assert bool(pdf.Root.MarkInfo.Marked)
    assert str(pdf.Root.Lang).lower().startswith("en")
    assert bool(pdf.Root.ViewerPreferences.DisplayDocTitle)
    with pdf.open_metadata() as metadata:
        assert (metadata["dc:title"], metadata["pdfuaid:part"]) == ("Readiness of Maren Oakhill", "1")


def test_headings_tables_and_the_line_are_in_the_structure():
    pdf = opened()
    kinds = elements(pdf.Root.StructTreeRoot, [])
    names = [str(one["/S"]) for one in kinds]
    assert (names.count("/H1"), names.count("/H2"), names.count("/Table")) == (1, 3, 3)
    assert "/TH" in names
    figure = next(one for one in kinds if str(one["/S"]) == "/Figure")
    assert str(figure["/Alt"]) == "Line of time from 2 Jun 2025 to 2 Dec 2026; today is 1 Mar 2026."


def test_it_normally_is_one_page():
    assert len(opened().pages) == 1


def test_the_same_arguments_give_the_same_bytes():
    first, second = (readiness_pdf(REPORT, "Maren Oakhill", "Halden Row", MADE) for _ in range(2))
    assert first == second
    assert first != readiness_pdf(REPORT, "Maren Oakhill", "Halden Row", MADE.replace(hour=10))


HOSTILE = (
    '#panic("x")',
    "$a$ *b* \\ @c <d> [e] `f`",
    '#read("/etc/passwd")',
    "a\x00b\x07c",
    "\ud800",
    "",
    "محمد",
    "\u202ecba",
)


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_and_foreign_text_stays_text(name):
    assert len(opened(name).pages) == 1


def test_markup_in_a_name_is_shown_as_it_was_written():
    with opened('#panic("x") *b*').open_metadata() as metadata:
        assert metadata["dc:title"] == 'Readiness of #panic("x") *b*'


def test_a_character_that_no_font_has_still_gives_a_tagged_report():
    assert bool(opened("李小龍 🙂").Root.MarkInfo.Marked)


def test_a_report_with_nothing_left_or_nothing_known_is_made_too():
    done = replace(REPORT, gaps=(), ready=True, lines=tuple(replace(one, met=True) for one in REPORT.lines))
    assert len(opened(found=done).pages) == 1
    assert len(opened(found=report(CRITERIA, Evidence(), MADE.date())).pages) == 1


def test_a_time_without_a_zone_is_refused():
    with pytest.raises(ValueError, match="time zone"):
        readiness_pdf(REPORT, "M", "H", datetime(2026, 3, 1))


def test_another_language_is_set_in_the_file():
    assert str(opened(language=Language("de_DE")).Root.Lang).lower().startswith("de")
