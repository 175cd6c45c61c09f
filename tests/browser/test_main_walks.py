"""What each role comes for, walked through in a browser: on three widths with script, and on a phone without."""

import re

from playwright.sync_api import Page, expect

from tests.browser.doors import VISITOR
from tests.browser.walking import EVERY_WAY, SignIn, fits, named, open_at, press, refused

REASON = "You left at half past six."
MORNING = {"day": "2026-11-24", "start": "06:00", "end": "07:00"}
EARLIER = {"day": "2026-11-23", "start": "05:00", "end": "06:00"}
pytestmark = EVERY_WAY


def log_session(page: Page, times: dict[str, str]) -> None:
    for name, typed in times.items():
        named(page, name).fill(typed)
    named(page, "host").select_option("host-1")
    named(page, "activity-0").select_option("observation")
    named(page, "apparatus-0").select_option("reformer")
    press(page, "Log it")
    expect(page.get_by_role("status")).to_contain_text("Logged")


def test_hours_are_logged_sent_back_corrected_and_signed(sign_in: SignIn, width: str, script: bool) -> None:
    trainee = sign_in("trainee", width, script)
    expect(trainee.get_by_role("heading", level=1)).to_have_text("Today")
    fits(trainee)
    refuse_first(trainee, script)
    log_session(trainee, MORNING)
    log_session(trainee, EARLIER)
    open_at(trainee, "/hours")
    expect(
        trainee.get_by_role("listitem").filter(has_text="06:00–07:00").filter(has_text="Waiting for signature")
    ).to_have_count(1)
    fits(trainee)

    host = sign_in(VISITOR, width, script)
    host.goto(link_in_outbox(sign_in("director", width, script)))
    send_one_back(host, script)
    host.get_by_role("link", name="Back to what waits for you").click()
    press(host, "Sign what is ticked")
    expect(host.get_by_role("heading", level=1)).to_have_text("Signed. Thank you.")
    fits(host)

    correct(trainee)
    host.get_by_role("link", name="Back to what waits for you").click()
    waiting = host.get_by_role("listitem").filter(has=host.get_by_role("checkbox"))
    expect(waiting).to_have_count(1)
    expect(waiting).to_contain_text("06:30")


def refuse_first(page: Page, script: bool) -> None:
    """Everything wrong at once; what was typed is still there."""
    for name, typed in {"day": "2027-01-01", "start": "06:00", "end": "05:00"}.items():
        named(page, name).fill(typed)
    named(page, "host").select_option("")
    named(page, "activity-0").select_option("")
    page.get_by_text("More parts, breaks, a note").click()
    named(page, "note").fill("The first of a <pair>.")
    press(page, "Log it")
    refused(page, script, "after the start", "in the future", "choose what you did", "choose the host teacher")
    for name, typed in {"day": "2027-01-01", "end": "05:00", "note": "The first of a <pair>."}.items():
        expect(named(page, name)).to_have_value(typed)


def link_in_outbox(page: Page) -> str:
    open_at(page, "/outbox")
    expect(page.get_by_role("heading", level=1)).to_have_text("Outbox")
    fits(page)
    return page.locator('a[href*="/h/"]').first.get_attribute("href")


def send_one_back(page: Page, script: bool) -> None:
    """Without a reason it is refused; with one it goes back."""
    expect(page.get_by_role("heading", level=1)).to_have_text("Hours to sign")
    fits(page)
    row = page.get_by_role("listitem").filter(has_text="06:00–07:00")
    row.get_by_text("Something is not right").click()
    row.get_by_role("button", name="Send this one back").click()
    refused(page, script, "say why you send it back")
    row = page.get_by_role("listitem").filter(has_text="06:00–07:00")
    if not row.get_by_role("textbox").is_visible():
        row.get_by_text("Something is not right").click()
    row.get_by_role("textbox").fill(REASON)
    row.get_by_role("button", name="Send this one back").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Sent back")


def correct(page: Page) -> None:
    """The trainee reads why, and corrects it."""
    open_at(page, "/hours")
    page.get_by_role("listitem").filter(has_text="06:00–07:00").filter(has_text="Sent back").get_by_role("link").click()
    expect(page.get_by_text(REASON)).to_be_visible()
    page.get_by_text("Correct it").click()
    named(page, "end").fill("06:30")
    press(page, "Save the correction")
    expect(page.get_by_text("Corrected. It needs a new signature.")).to_be_visible()
    fits(page)


def test_the_director_reads_the_cohort_and_takes_a_readiness_away(sign_in: SignIn, width: str, script: bool) -> None:
    page = sign_in("director", width, script)
    expect(page.get_by_role("heading", level=1)).to_have_text("Cohort")
    fits(page)
    page.get_by_role("link", name="Noor Halvane").first.click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Noor Halvane")
    fits(page)
    page.get_by_role("link", name="Readiness for the certificate").click()
    expect(page.get_by_role("heading", name="Everything the school asks for")).to_be_visible()
    fits(page)
    address = page.get_by_role("link", name="The same as a PDF").get_attribute("href")
    answer = page.request.get(re.match(r"https?://[^/]+", page.url).group(0) + address)
    assert (answer.headers["content-type"], answer.body()[:5]) == ("application/pdf", b"%PDF-")


def test_the_examiner_reads_the_repertoire(sign_in: SignIn, width: str, script: bool) -> None:
    page = sign_in("examiner", width, script)
    open_at(page, "/repertoire")
    page.get_by_label("Find an exercise").fill("roll up")
    press(page, "Find")
    expect(page.get_by_role("heading", level=2)).to_contain_text("roll up")
    fits(page)
    page.get_by_role("link", name=re.compile("^roll up$", re.I)).first.click()
    expect(page.get_by_role("heading", level=1)).to_have_text(re.compile("roll up", re.I))
    fits(page)
    page.get_by_role("link", name="Cautions").click()
    expect(page.locator("#cautions")).to_be_in_viewport()
    page.get_by_role("link", name="Mat in order").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Mat")
    fits(page)
