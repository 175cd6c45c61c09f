"""Two examiners whose network is cut, a browser and a server that are killed: every tap arrives, each once.

`throughline bench score_sheet` cuts 200 times and kills the server at random.
"""

import re
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from random import Random

from playwright.sync_api import Browser, Locator, Page, expect

from app.cli.test import browser as chromium_here
from app.storage.engine import open_engine
from app.storage.work import Store
from app.use_cases.demo import SCHOOL
from tests.browser.conftest import ARGUMENTS, MOST_WAITING
from tests.browser.cutting import EXAM, RECORDS, ROOM, SAFE, WAITING, AtSheet, Cutter, unaccounted
from tests.browser.killed_server import served_in_lives
from tests.browser.site import Site, copied
from tests.browser.test_without_reception import only_here, send, sign_in_as, switch

CUTS = 20


def test_two_examiners_cut_at_random_and_every_tap_is_accounted_for(chromium: Browser, own_site: Site) -> None:
    both = []
    for number, who in enumerate(("examiner", "examiner2")):
        context = chromium.new_context(viewport={"width": 1024, "height": 768}, locale="en-GB")
        context.set_default_timeout(MOST_WAITING)
        both.append(AtSheet(context, own_site.address, who, Cutter(Random(20261126 + number), CUTS // 2)))
    for one in both:
        one.begin()
    while any(one.cutter.due() for one in both):
        for one in both:
            one.some_time()
    for number, one in enumerate(both, 1):
        one.all_sent()
        assert unaccounted(own_site.store, f"examiner-{number}", one) == []
        assert len(one.taps) >= CUTS // 4
        one.context.close()


def test_a_killed_browser_and_a_server_killed_in_mid_send_lose_no_tap(
    chromium: Browser, filled: str, tmp_path: Path
) -> None:
    """As when the battery goes: SIGKILL between two taps, then to the server in the middle of a transaction and before it
    has answered."""
    url, profile = copied(filled, tmp_path), tmp_path / "profile"
    with served_in_lives(url, "before", "after", "") as lives:
        with killable(chromium, profile) as page:
            page.goto(f"{lives.address}/sign-in/{SCHOOL.slug}")
            sign_in_as(page, "examiner")
            expect(page.locator("html")).to_have_attribute("data-kept", re.compile(ROOM))
            page.goto(lives.address + ROOM)
            switch(page, False)
            for number, criterion in enumerate("ABCDE", 1):
                level(page, criterion).click()
                page.evaluate(SAFE, [RECORDS, number])
        with killable(chromium, profile) as page:
            switch(page, False)
            page.goto(lives.address + ROOM)
            for criterion in "ABCDE":
                expect(level(page, criterion)).to_have_attribute("aria-pressed", "true")
            only_here(page, 5)
            page.locator("#undo").click()
            level(page, "F").click()
            page.evaluate(SAFE, [RECORDS, 7])
            switch(page, True)
            page.goto(f"{lives.address}/sign-in/{SCHOOL.slug}")
            sign_in_as(page, "examiner")
            while page.evaluate(WAITING):
                send(page)
        assert lives.killed() == 2
    engine = open_engine(url)
    with Store(engine).reading(SCHOOL.id) as work:
        found = work.sheet_records.of(EXAM, "examiner-1")
    engine.dispose()
    taps = [("mark", one) for one in "ABCDE"] + [("undo", None), ("mark", "F")]
    assert [(one.kind, one.value.get("criterion")) for one in found] == taps
    assert found[5].value["of"] == found[4].id
    assert len({one.device for one in found}) == 1


def level(page: Page, criterion: str) -> Locator:
    return page.locator(f'.panel:visible [data-criterion="{criterion}"] .levels [data-choice="2"]')


@contextmanager
def killable(chromium: Browser, profile: Path) -> Iterator[Page]:
    """A page of a browser that is killed when this is left; its profile outlives it."""
    command = [chromium_here(), "--headless", "--remote-debugging-port=0", f"--user-data-dir={profile}", *ARGUMENTS]
    process = subprocess.Popen(  # noqa: S603 - the browser of the tests
        command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True
    )
    line = next(one for one in process.stderr if "DevTools listening on" in one)
    context = chromium.browser_type.connect_over_cdp(line.split()[-1]).contexts[0]
    context.set_default_timeout(MOST_WAITING)
    yield context.new_page()
    process.kill()
    process.wait()
    process.stderr.close()
