"""An exam from its setting to its decision: the director and two examiners who score alone, each in a browser of their own."""

import pytest
from playwright.sync_api import Locator, Page, expect

from app.queries.exam_facts import practical_of
from app.use_cases.asker import Asker
from app.use_cases.demo import SCHOOL
from app.use_cases.exams import keep_sheet
from assessments.practicals.sheets import Grade, Mark, Sheet
from tests.browser.site import NOW, Site
from tests.browser.walking import SignIn, fits, named, open_at, press, refused

CANDIDATE = "Tomas Verrin"
NOTES = ("Counts calmly, and the room goes quiet.", "Stands too far from the head end.")
REASON = "Clear of the cut, every floor reached."
# The examiner's tablet, and the way that takes most care; every page of it is opened in every width elsewhere.
pytestmark = pytest.mark.parametrize(("width", "script"), [("tablet", True), ("phone", False)])


def test_an_exam_is_set_scored_alone_by_two_and_decided(
    sign_in: SignIn, own_site: Site, width: str, script: bool
) -> None:
    director = sign_in("director", width, script)
    set_the_exam(director, script)
    all_but_the_first_block_is_kept(own_site, director.url.rpartition("/")[2])
    first, second = (sign_in(role, width, script) for role in ("examiner", "examiner2"))
    open_sheet(first)
    send_too_early(first, script)
    send_whole(first, NOTES[0])
    expect(first.get_by_text("What the others gave is shown when all of you have sent.")).to_be_visible()

    director.reload()
    expect(director.get_by_text("1 of 2 sheets sent")).to_be_visible()
    open_sheet(second)
    for page in (director, second):
        expect(page.get_by_text(NOTES[0])).to_have_count(0)
        expect(page.get_by_text("100")).to_have_count(0)
    send_whole(second, NOTES[1])

    first.reload()
    for page in (first, second):
        expect(page.get_by_text("100 per cent")).to_have_count(2)
        for note in NOTES:
            expect(page.get_by_text(note)).to_be_visible()
        fits(page)
    decide(director, script)


def set_the_exam(page: Page, script: bool) -> None:
    """Refused with every reason at once; then it is set for today."""
    open_at(page, "/exams")
    page.get_by_role("link", name="Set an exam").click()
    named(page, "room").fill("North room")
    press(page, "Set the exam")
    refused(page, script, "choose the day", "the time it begins")
    expect(named(page, "room")).to_have_value("North room")
    named(page, "enrolment").select_option(CANDIDATE)
    named(page, "practical").select_option("practical-basic")
    named(page, "day").fill("2026-11-25")
    named(page, "starts").fill("14:00")
    for place, examiner in enumerate(("examiner-1", "examiner-2")):
        named(page, f"examiner-{place}").select_option(examiner)
    press(page, "Set the exam")
    expect(page.get_by_text("The exam is set.")).to_be_visible()
    fits(page)


def all_but_the_first_block_is_kept(site: Site, exam_id: str) -> None:
    """What both examiners have marked already: the best level everywhere, 100 per cent whatever the weights."""
    with site.store.reading(SCHOOL.id) as work:
        practical = practical_of(work, work.exams.by_id(exam_id))
    cells = [cell for cell in practical.cells() if cell.block != practical.cells()[0].block]
    marks = tuple(Mark(cell.block, cell.criterion, cell.scale.highest) for cell in cells)
    grades = tuple(Grade(block, 2) for block in dict.fromkeys(cell.block for cell in cells))
    for examiner in ("examiner-1", "examiner-2"):
        sheet = Sheet(exam_id, examiner, practical.id, practical.edition, marks=marks, grades=grades)
        keep_sheet(site.store, Asker(SCHOOL, examiner, examiner, NOW), exam_id, sheet)


def open_sheet(page: Page) -> None:
    open_at(page, "/sheets")
    fits(page)
    page.get_by_role("link", name=CANDIDATE).click()
    expect(page.get_by_role("heading", level=1)).to_have_text(CANDIDATE)
    fits(page)


def send_too_early(page: Page, script: bool) -> None:
    """With gaps it is not sent, and every gap is named; it is kept as it stands."""
    levels(page).first.check()
    named(page, "note").fill("begun")
    press(page, "Send")
    refused(page, script, "still open", "global grade")
    expect(levels(page).first).to_be_checked()
    expect(named(page, "note")).to_have_value("begun")
    page.get_by_role("button", name="Keep", exact=True).first.click()
    expect(page.get_by_role("status")).to_contain_text(" of 44 criteria are marked")


def levels(page: Page) -> Locator:
    return page.locator(".block").first.locator('input[name^="marks."][value="4"]')


def send_whole(page: Page, note: str) -> None:
    for choice in levels(page).all():
        choice.check()
    page.locator('input[name^="grades."][value="2"]').first.check()
    named(page, "note").fill(note)
    press(page, "Send")
    expect(page.get_by_role("status")).to_contain_text("Sent.")
    fits(page)


def decide(page: Page, script: bool) -> None:
    page.reload()
    for note in NOTES:
        expect(page.get_by_text(note)).to_be_visible()
    page.get_by_label("pass", exact=True).check()
    press(page, "Decide")
    refused(page, script, "a decision needs its reason")
    expect(page.get_by_label("pass", exact=True)).to_be_checked()
    named(page, "reason").fill(REASON)
    press(page, "Decide")
    expect(page.get_by_role("status")).to_contain_text("Decided: pass.")
    expect(page.get_by_text(REASON)).to_be_visible()
    fits(page)
