"""The score sheet on a tablet: everything in reach, one tap one record, and each record with the school exactly once.

The sizes are those of common tablets in CSS pixels (common practice); 44 px is WCAG 2.2's enhanced target size (2.5.5).
"""

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from app.files.sheets import read_sheet
from app.queries.exam_facts import practical_of
from app.use_cases.demo import SCHOOL
from assessments.practicals.sheet_records import SheetRecord
from tests.browser.checks import Console, axe_faults
from tests.browser.conftest import MOST_WAITING
from tests.browser.cutting import EXAM, RECORDS, ROOM, SAFE
from tests.browser.site import NOW, Site
from tests.browser.test_without_reception import KEPT, only_here, sign_in_as, switch

# The day's pages beside it: the list, and another exam of the day.
ALWAYS = "/sheets /sheets/exam-1/room"
UPRIGHT, LYING = (768, 1024), (1024, 768)
CASES = Path(__file__).parents[1] / "assessments" / "practicals" / "sheet_records.json"
FOLDED = """(cases) => import('/static/sheet-records.js').then((sheet) => cases.map(({ records }) => ({
  standing: Object.fromEntries([...sheet.standing(records)].map(([place, one]) => [place, one.id])),
  last: sheet.lastDone(records)?.id ?? '', next: sheet.nextCount(records) })))"""
# Buttons that are shown and that a finger would not hit, or that are smaller than a thumb.
OUT_OF_REACH = """() => [...document.querySelectorAll('main button, main summary')]
  .filter((one) => one.checkVisibility() && !one.closest('.up > div'))
  .filter((one) => {
    const box = one.getBoundingClientRect(), hit = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
    return !hit || !(hit === one || one.contains(hit)) || box.width < 44 || box.height < (one.closest('#outbox') ? 24 : one.dataset.exercise ? 36 : 44);
  }).map((one) => one.textContent)"""
PLACES = """() => [...document.querySelectorAll('#undo, .tabs button, .panel:not(.after) button, #stepped, #critical summary')]
  .map((one) => { const box = one.getBoundingClientRect(); return [box.y, box.height]; })"""
HELD = """async (path) => {
  const outbox = await import('/static/outbox.js');
  return (await outbox.kept(path)).length;
}"""
USED = "navigator.storage.estimate().then(({ usage }) => usage)"
LOOK = "document.dispatchEvent(new Event('outbox-open'))"
HOLDS = "import('/static/reserve.js').then((reserve) => reserve.hold())"
NO_ROOM = "() => { IDBObjectStore.prototype.put = function () { this.transaction.abort() } }"


@pytest.fixture
def context(chromium: Browser, own_site: Site) -> Iterator[BrowserContext]:
    size = dict(zip(("width", "height"), LYING, strict=True))
    with chromium.new_context(viewport=size, locale="en-GB", timezone_id=SCHOOL.time_zone) as opened:
        opened.set_default_timeout(MOST_WAITING)
        opened.clock.set_fixed_time(NOW)
        yield opened


@pytest.fixture
def tablet(context: BrowserContext, own_site: Site) -> Iterator[Page]:
    """An examiner's tablet on which the day's exams were opened and kept; it may complain of no reception only."""
    page = context.new_page()
    console = Console(page)
    page.goto(f"{own_site.address}/sign-in/{SCHOOL.slug}")
    sign_in_as(page, "examiner")
    expect(page.locator("html")).to_have_attribute("data-kept", f"{ALWAYS} {ROOM}")
    yield page
    assert [one for one in console.taken() if "net::ERR_" not in one] == []


def enter(page: Page, site: Site) -> None:
    page.goto(site.address + ROOM)
    expect(page.locator("#room")).to_be_visible()


def records(site: Site, examiner: str = "examiner-1") -> list[SheetRecord]:
    with site.store.reading(SCHOOL.id) as work:
        return work.sheet_records.of(EXAM, examiner)


def draft(site: Site):  # noqa: ANN201
    with site.store.reading(SCHOOL.id) as work:
        return read_sheet(work.exams.draft(EXAM, "examiner-1"))


def block(page: Page):  # noqa: ANN201
    return page.locator(".panel:visible")


def level(page: Page, criterion: str, choice: str):  # noqa: ANN201
    return block(page).locator(f'[data-criterion="{criterion}"] .levels [data-choice="{choice}"]')


def waits(page: Page, number: int) -> None:
    if number:
        only_here(page, number)
    else:
        expect(page.locator("#outbox")).not_to_contain_text("Waiting on this device")


def test_script_and_school_make_the_same_of_the_same_records(tablet: Page) -> None:
    cases = json.loads(CASES.read_text(encoding="utf-8"))
    found = tablet.evaluate(FOLDED, cases)
    assert found == [{name: case[name] for name in ("standing", "last", "next")} for case in cases]


def test_everything_is_in_reach_without_scrolling_and_survives_without_reception(
    tablet: Page, context: BrowserContext, own_site: Site
) -> None:
    enter(tablet, own_site)
    places = tablet.evaluate(PLACES)
    switch(tablet, False)
    tablet.get_by_role("button", name="Start", exact=True).click()
    level(tablet, "A", "3").click()
    level(tablet, "A", "4").click()
    block(tablet).get_by_role("button", name="prompted").click()
    tablet.get_by_role("button", name="I stepped in").click()
    tablet.get_by_text("Critical fault", exact=True).click()
    tablet.locator("[data-code]").first.click()
    tablet.get_by_role("button", name="Undo").click()
    expect(tablet.locator("#said")).to_have_text("Taken back: Critical fault")
    waits(tablet, 7)
    assert tablet.evaluate(PLACES) == places, "nothing moves under a finger when reception goes or something waits"
    for width, height in (UPRIGHT, LYING):
        tablet.set_viewport_size({"width": width, "height": height})
        for tab in range(tablet.locator(".tabs button").count() - 1):
            tablet.locator(".tabs button").nth(tab).click()
            assert tablet.evaluate(OUT_OF_REACH) == [], (width, tab)
        assert tablet.evaluate("document.documentElement.scrollHeight") == height
    tablet.locator(".tabs button").first.click()
    assert axe_faults(tablet) == []
    tablet.close()
    again = context.new_page()
    enter(again, own_site)
    expect(level(again, "A", "4")).to_have_attribute("aria-pressed", "true")
    waits(again, 7)
    switch(again, True)
    waits(again, 0)
    sheet = draft(own_site)
    assert [(one.block, one.criterion, one.level) for one in sheet.marks] == [(sheet.marks[0].block, "A", 4)]
    assert [one.at for one in (*sheet.taps, *sheet.stepped_in)] == [0, 0]
    assert sheet.critical == ()
    assert len(records(own_site)) == 7


def test_the_keyboard_does_what_a_thumb_does(tablet: Page, own_site: Site) -> None:
    enter(tablet, own_site)
    level(tablet, "A", "1").focus()
    tablet.keyboard.press("3")
    expect(level(tablet, "A", "3")).to_be_focused()
    tablet.keyboard.press("ArrowDown")
    tablet.keyboard.press("ArrowRight")
    tablet.keyboard.press("Enter")
    expect(level(tablet, "B", "4")).to_have_attribute("aria-pressed", "true")
    tablet.keyboard.press("Control+z")
    expect(level(tablet, "B", "4")).to_have_attribute("aria-pressed", "false")
    expect(level(tablet, "A", "3")).to_have_attribute("aria-pressed", "true")


def test_a_whole_sheet_is_handed_over_without_reception_and_nothing_of_it_is_left(tablet: Page, own_site: Site) -> None:
    with own_site.store.reading(SCHOOL.id) as work:
        cells = len(practical_of(work, work.exams.by_id(EXAM)).cells())
    enter(tablet, own_site)
    switch(tablet, False)
    tablet.get_by_role("button", name="Words, send").click()
    expect(tablet.get_by_role("button", name="Send", exact=True)).to_be_disabled()
    # As fast as a hand never is.
    tablet.evaluate("""() => {
      for (const row of document.querySelectorAll('.judged')) row.querySelectorAll('.levels button')[2].click();
    }""")
    tablet.get_by_role("button", name="I stepped in").click()
    expect(tablet.locator("#gaps")).to_contain_text("Stepped in: say why, and when")
    row = tablet.locator(".said-of")
    row.get_by_label("Minutes since the start").fill("12:30")
    row.get_by_label("Why").fill("The strap was loose.")
    row.get_by_label("Why").blur()
    tablet.get_by_role("button", name="Send", exact=True).click()
    expect(tablet.locator("#gaps")).to_contain_text("Handed over.")
    switch(tablet, True)
    tablet.wait_for_url(f"**/sheets/{EXAM}")
    expect(tablet.locator("main")).to_contain_text("The strap was loose.")
    with own_site.store.reading(SCHOOL.id) as work:
        (sent,) = (read_sheet(one.content) for one in work.exams.sheets(EXAM))
    assert (len(sent.marks), [one.at for one in sent.stepped_in]) == (cells, [750])
    tablet.goto(f"{own_site.address}/sheets")
    expect(tablet.locator("html")).to_have_attribute("data-kept", ALWAYS)
    assert ROOM not in tablet.evaluate(KEPT)
    assert tablet.evaluate(HELD, RECORDS) == 0


def test_a_full_device_is_told_of_while_taps_still_find_room_and_none_without_room_is_shown_as_taken(
    tablet: Page, context: BrowserContext, own_site: Site
) -> None:
    """The quota is the browser's own, set to what is used already: room is left only where it was held free."""
    enter(tablet, own_site)
    switch(tablet, False)
    assert tablet.evaluate(HOLDS)
    quota = {"origin": own_site.address, "quotaSize": tablet.evaluate(USED)}
    context.new_cdp_session(tablet).send("Storage.overrideQuotaForOrigin", quota)
    for number, criterion in enumerate("ABCDEFG", 1):
        level(tablet, criterion, "3").click()
        tablet.evaluate(SAFE, [RECORDS, number])
    tablet.evaluate(LOOK)
    expect(tablet.locator("#outbox")).to_contain_text("This device is almost full.")
    assert tablet.evaluate(OUT_OF_REACH) == []
    tablet.evaluate(NO_ROOM)
    level(tablet, "A", "4").click()
    expect(tablet.locator("#said")).to_contain_text("There is no room on this device to keep it.")
    expect(level(tablet, "A", "3")).to_have_attribute("aria-pressed", "true")
    expect(level(tablet, "A", "4")).to_have_attribute("aria-pressed", "false")
    assert records(own_site) == []


def test_a_shared_tablet_is_locked_and_another_examiner_finds_nothing(
    tablet: Page, context: BrowserContext, own_site: Site
) -> None:
    enter(tablet, own_site)
    switch(tablet, False)
    level(tablet, "A", "3").click()
    expect(level(tablet, "A", "3")).to_have_attribute("aria-pressed", "true")
    tablet.locator(".room-head .lock-now").click()
    tablet.get_by_label("Code").fill("2468")
    tablet.get_by_role("button", name="Lock", exact=True).click()
    expect(tablet.get_by_role("heading", level=1)).to_have_text("Locked")
    assert axe_faults(tablet) == []
    for place in (ROOM, "/sheets"):
        other = context.new_page()
        other.goto(own_site.address + place)
        expect(other.get_by_label("Code")).to_be_visible()
        expect(other.locator("main")).to_be_hidden()
        other.close()
    tablet.get_by_label("Code").fill("1111")
    tablet.keyboard.press("Enter")
    expect(tablet.locator("#lock-said")).to_have_text("That is not the code. Tries left: 4.")
    tablet.get_by_label("Code").fill("2468")
    tablet.keyboard.press("Enter")
    expect(level(tablet, "A", "3")).to_have_attribute("aria-pressed", "true")
    tablet.locator(".room-head .lock-now").click()
    switch(tablet, True)
    expect(tablet.get_by_label("Code")).to_be_visible()
    tablet.get_by_role("button", name="Sign out").click()
    tablet.goto(f"{own_site.address}/sign-in/{SCHOOL.slug}")
    sign_in_as(tablet, "examiner2")
    enter(tablet, own_site)
    expect(level(tablet, "A", "3")).to_have_attribute("aria-pressed", "false")
    waits(tablet, 0)
    assert tablet.evaluate(HELD, RECORDS) == 0
    assert records(own_site, "examiner-2") == []
