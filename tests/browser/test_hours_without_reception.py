"""Hours on a phone whose network comes and goes: logged, corrected, warned of, and each taken by the school exactly once."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from random import Random

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Route, expect

from app.use_cases.demo import SCHOOL
from app.use_cases.hours import LogHours, log_hours
from assessments.hours.session import Part, Session
from tests.browser.checks import WIDTHS, Console, axe_faults
from tests.browser.conftest import MOST_WAITING
from tests.browser.site import LINK_DAYS, NOW, TRAINEE, Site
from tests.browser.test_without_reception import KEPT, only_here, send, sign_in_as, switch
from tests.browser.walking import fits, named, press

ENROLMENT = "enrolment-1"
FIRST = date(2026, 11, 20)
CUTS = 200
WHERE = (*["asking"] * 4, *["answering"] * 5, "nowhere")
MORNING = {"day": "2026-11-24", "start": "06:00", "end": "07:00"}
PUT = """([fields]) => import('/static/outbox.js').then(
  (outbox) => outbox.put('/hours/sessions', fields, fields.id, { together: true, page: '/today' }))"""
# Begun, and not waited for.
BEGIN = "() => { import('/static/outbox.js').then((outbox) => outbox.send()) }"
NO_ROOM = "() => { IDBObjectStore.prototype.put = function () { this.transaction.abort() } }"
SEEMS_ON = "Object.defineProperty(Navigator.prototype, 'onLine', { get: () => true })"
ALMOST_FULL = "navigator.storage.getDirectory = async () => { throw new DOMException('', 'QuotaExceededError') }"


@pytest.fixture
def context(chromium: Browser, own_site: Site) -> Iterator[BrowserContext]:
    """A phone of a trainee who is signed in, at the school's own time of day."""
    size = dict(zip(("width", "height"), WIDTHS["phone"], strict=True))
    with chromium.new_context(viewport=size, locale="en-GB", timezone_id=SCHOOL.time_zone) as opened:
        opened.set_default_timeout(MOST_WAITING)
        opened.clock.set_fixed_time(NOW)
        yield opened


@pytest.fixture
def phone(context: BrowserContext, own_site: Site) -> Iterator[Page]:
    """Today, open and kept; it may complain of no reception and of nothing else."""
    page = context.new_page()
    console = Console(page)
    page.goto(f"{own_site.address}/sign-in/{SCHOOL.slug}")
    sign_in_as(page, "trainee")
    wait_kept(page)
    yield page
    assert [one for one in console.taken() if "net::ERR_" not in one] == []


def wait_kept(page: Page) -> None:
    expect(page.locator("html")).to_have_attribute("data-kept", "/today /hours")


def nothing_waits(page: Page) -> None:
    expect(page.locator("#outbox")).not_to_contain_text("Waiting on this device")


def outbox(page: Page, words: str) -> None:
    expect(page.locator("#outbox")).to_contain_text(words)


def sessions(site: Site) -> dict[str, object]:
    with site.store.reading(SCHOOL.id) as work:
        return {one.id: one for one in work.ledger.of_enrolment(ENROLMENT)}


def fill(page: Page, **typed: str) -> None:
    for name, text in typed.items():
        named(page, name).fill(text)


def numbered(number: int) -> dict[str, str]:
    """The form of one of many sessions, four a day."""
    day, place = FIRST - timedelta(days=number // 4), 2 + number % 4
    return {
        "id": f"00000000-0000-4000-8000-{number:012}", "version": "0", "day": day.isoformat(), "host": "host-1",
        "start": f"{place:02}:00", "end": f"{place + 1:02}:00", "activity-0": "observation", "apparatus-0": "reformer",
    }  # fmt: skip


def test_two_hundred_random_cuts_and_every_session_arrives_once(
    phone: Page, context: BrowserContext, own_site: Site
) -> None:
    """Cut before the school hears, or after it has taken them and before the phone hears; the page killed in between."""
    chance, cuts, before, page, number = Random(20261125), Counter(), set(sessions(own_site)), phone, 0

    def cut(route: Route) -> None:
        where = chance.choice(WHERE) if cuts.total() < CUTS else "nowhere"
        if where == "answering":
            route.fetch()
        if where == "nowhere":
            route.continue_()
        else:
            cuts[where] += 1
            route.abort("connectionreset")

    # A page that is not kept, so that nothing is fetched anew after each time that all was sent.
    page.goto(f"{own_site.address}/plans")
    context.route("**/hours/sessions", cut)
    while cuts.total() < CUTS:
        if chance.random() < 0.4:
            page.evaluate(PUT, [numbered(number)])
            number += 1
        if chance.random() < 1 / 30:
            page.evaluate(BEGIN)
            page.close()
            page = context.new_page()
            page.goto(f"{own_site.address}/plans")
        send(page)
    send(page)
    nothing_waits(page)
    arrived = sessions(own_site)
    assert set(arrived) - before == {numbered(one)["id"] for one in range(number)}
    assert min(cuts["asking"], cuts["answering"]) > 50 <= number
    with own_site.store.reading(SCHOOL.id) as work:
        for one in range(number):
            (event,) = work.record.of_subject(numbered(one)["id"])
            assert event.content()["version"] == arrived[event.subject].version == 1


def test_fifty_that_waited_go_in_one_request(phone: Page, own_site: Site) -> None:
    before, requests = set(sessions(own_site)), []
    phone.on("request", lambda one: requests.append(one.url) if one.method == "POST" else None)
    switch(phone, False)
    for number in range(50):
        phone.evaluate(PUT, [numbered(number)])
    only_here(phone, 50)
    requests.clear()
    switch(phone, True)
    outbox(phone, "Arrived:")
    nothing_waits(phone)
    assert requests == [f"{own_site.address}/hours/sessions"]
    assert set(sessions(own_site)) - before == {numbered(number)["id"] for number in range(50)}


def test_a_kept_page_opened_twice_logs_two_sessions_though_the_phone_believes_in_its_network(
    phone: Page, context: BrowserContext, own_site: Site
) -> None:
    before = set(sessions(own_site))
    context.add_init_script(SEEMS_ON)
    switch(phone, False)
    for start, end in (("05:00", "06:00"), ("06:00", "07:00")):
        phone.reload()
        expect(phone.get_by_text("No reception: this page is as it was at")).to_be_visible()
        fill(phone, day="2026-11-24", start=start, end=end)
        press(phone, "Log it")
        expect(phone.locator("#logged")).to_contain_text("Safe on this device.")
    only_here(phone, 2)
    switch(phone, True)
    nothing_waits(phone)
    assert len(set(sessions(own_site)) - before) == 2


def test_a_session_like_the_last_is_two_taps_without_reception_and_arrives_when_it_is_back(
    phone: Page, own_site: Site
) -> None:
    before = sessions(own_site)
    switch(phone, False)
    phone.locator(".lengths").get_by_role("button").first.click()
    press(phone, "Log it")
    expect(phone.locator("#logged")).to_have_text(
        "Safe on this device. It goes to the school as soon as there is reception."
    )
    only_here(phone, 1)
    press(phone, "Log it")
    expect(phone.locator("#logged")).to_have_text("This one is logged. Change something to log another.")
    assert axe_faults(phone) == []
    fits(phone)
    switch(phone, True)
    outbox(phone, "Arrived:")
    nothing_waits(phone)
    after = sessions(own_site)
    (id,) = set(after) - set(before)
    logged = after[id]
    last = max((one for one in before.values() if one.timed), key=lambda one: (one.day, one.start))
    assert (logged.day, logged.end, logged.host, logged.state) == (NOW.date(), 16 * 60, last.host, "waiting")
    expect(phone.get_by_role("link", name="Note what you saw")).to_have_attribute("href", f"/hours/sessions/{id}/notes")
    expect(phone.locator("#last")).to_contain_text("16:00")


def test_what_waits_is_corrected_before_it_goes_and_after_a_reload_without_reception(
    phone: Page, own_site: Site
) -> None:
    before = set(sessions(own_site))
    switch(phone, False)
    fill(phone, **MORNING)
    press(phone, "Log it")
    only_here(phone, 1)
    phone.reload()
    only_here(phone, 1)
    phone.get_by_text("What it is").click()
    phone.locator("#outbox").get_by_role("link", name="Correct it").click()
    expect(named(phone, "end")).to_have_value("07:00")
    fill(phone, end="06:40")
    press(phone, "Log it")
    outbox(phone, "06:00–06:40")
    only_here(phone, 1)
    switch(phone, True)
    outbox(phone, "Arrived:")
    arrived = sessions(own_site)
    assert [(arrived[id].end, arrived[id].version) for id in set(arrived) - before] == [(400, 1)]


def test_a_correction_that_met_another_is_shown_and_its_person_decides(phone: Page, own_site: Site) -> None:
    own = Session("own", date(2026, 11, 25), 360, 420, (Part(60, "observation", "mat"),), host="host-1")
    log_hours(own_site.store, TRAINEE, LogHours(ENROLMENT, own), LINK_DAYS, own_site.address)
    phone.reload()
    wait_kept(phone)
    switch(phone, False)
    phone.get_by_role("button", name="Correct it: 06:00–07:00").click()
    if not named(phone, "site").is_visible():
        phone.get_by_text("More parts, breaks, a note").click()
    fill(phone, site="Attic")
    press(phone, "Save the correction")
    only_here(phone, 1)
    other = LogHours(ENROLMENT, replace(own, site="Cellar"), expected_version=1)
    log_hours(own_site.store, TRAINEE, other, LINK_DAYS, own_site.address)
    switch(phone, True)
    outbox(phone, "The school has this under the same number:")
    assert axe_faults(phone) == []
    assert stands(own_site) == ("Cellar", 2)
    press(phone, "Send mine as a correction")
    outbox(phone, "Arrived:")
    assert stands(own_site) == ("Attic", 3)


def stands(site: Site) -> tuple[str, int]:
    found = sessions(site)["own"]
    return found.site, found.version


def test_a_session_that_would_earn_nothing_is_warned_of_without_reception(phone: Page) -> None:
    switch(phone, False)
    named(phone, "activity-0").select_option("workshop")
    expect(phone.locator("#earns-nothing")).to_contain_text("Such a session would earn nothing now:")
    expect(phone.get_by_role("button", name="Log it all the same")).to_be_visible()
    named(phone, "activity-0").select_option("observation")
    expect(phone.locator("#earns-nothing")).to_be_hidden()
    named(phone, "host").select_option("")
    press(phone, "Log it")
    expect(phone.locator("#faults")).to_contain_text("choose the host teacher who will sign")


def test_little_room_is_told_before_and_no_room_leaves_the_form_as_typed(
    phone: Page, context: BrowserContext, own_site: Site
) -> None:
    context.add_init_script(ALMOST_FULL)
    phone.reload()
    outbox(phone, "This device is almost full. Free some room")
    phone.evaluate(NO_ROOM)
    fill(phone, **MORNING)
    press(phone, "Log it")
    expect(phone.locator("#logged")).to_contain_text("There is no room on this device to keep it.")
    expect(named(phone, "start")).to_have_value("06:00")


def test_another_person_on_the_same_device_never_sees_what_was_kept(phone: Page, own_site: Site) -> None:
    phone.goto(f"{own_site.address}/sign-in/{SCHOOL.slug}")
    sign_in_as(phone, "director")
    expect(phone.get_by_role("heading", level=1)).to_have_text("Cohort")
    switch(phone, False)
    shown = phone.evaluate("fetch('/today').then((answer) => answer.status, () => 'no reception')")
    assert shown == "no reception"
    switch(phone, True)
    assert "/today" in phone.evaluate(KEPT), "it waits for its own person"


def test_the_phone_may_put_it_among_its_apps_and_it_opens_there_without_reception(phone: Page, own_site: Site) -> None:
    """Asked of Chromium, which says what is missing (W3C Web Application Manifest)."""
    inside = phone.context.new_cdp_session(phone)
    found = inside.send("Page.getAppManifest")
    assert (found["errors"], found["url"]) == ([], f"{own_site.address}/app.webmanifest")
    missing = {one["errorId"] for one in inside.send("Page.getInstallabilityErrors")["installabilityErrors"]}
    assert missing <= {"in-incognito"}, "a test's browser keeps nothing, and only that is in the way"
    switch(phone, False)
    phone.goto(f"{own_site.address}/")
    expect(phone.get_by_role("heading", level=1)).to_have_text("Today")
    expect(phone.get_by_text("No reception: this page is as it was at")).to_be_visible()
