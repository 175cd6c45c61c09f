"""Readiness as a page and as a PDF, for the trainee and the director."""

from tests.app.pages.conftest import Town


def test_the_trainee_sees_what_blocks_the_certificate(town: Town) -> None:
    page = town.as_role("trainee").get("/readiness").text
    assert "in the order to clear it" in page
    assert "Hours of the comprehensive requirement set" in page


def test_the_pdf_is_the_same_for_trainee_and_director(town: Town) -> None:
    own = town.as_role("trainee").get("/readiness.pdf")
    seen = town.as_role("director").get("/trainees/enrolment-1/readiness.pdf")
    assert own.headers["content-type"] == "application/pdf"
    assert own.content[:5] == b"%PDF-"
    assert own.content == seen.content


def test_the_cohort_shows_everyone_worst_first(town: Town) -> None:
    page = town.as_role("director").get("/cohort").text
    assert page.index("Ida Marlowe") > 0
    assert page.index("Tomas Verrin") < page.index("Ida Marlowe")
