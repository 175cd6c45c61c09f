"""Examiners at their sheets whose network is cut at random, and every tap that they saw taken, in its order."""

import re
from collections import Counter
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from random import Random

from playwright.sync_api import BrowserContext, Error, Page, Route, expect

from app.storage.work import Store
from app.use_cases.demo import SCHOOL
from assessments.practicals.sheet_records import SheetRecord, standing_records
from tests.browser.test_without_reception import send, sign_in_as, switch

EXAM = "exam-to-score"
ROOM, RECORDS = f"/sheets/{EXAM}/room", f"/sheets/{EXAM}/records"
SAFE = """async ([path, number]) => {
  const { kept } = await import('/static/outbox.js');
  for (const end = performance.now() + 60000; performance.now() < end; await new Promise((go) => setTimeout(go, 4)))
    if ((await kept(path)).length >= number) return;
  throw new Error(`${number} taps are not safe after a minute`);
}"""
WAITING = "async () => (await (await import('/static/outbox.js')).entries()).length"
NOTICED = ("fault-missed", "fault-mended", "prompted")
Tapped = tuple[str, str]


class Cutter:
    """Cuts so many times: before the school hears, after it has taken, and for as long as some taps take."""

    def __init__(self, chance: Random, most: int):
        self.chance, self.most, self.cuts = chance, most, Counter()

    def due(self) -> bool:
        return self.cuts.total() < self.most

    def __call__(self, route: Route) -> None:
        if route.request.method != "POST" or not self.due() or self.chance.random() < 0.15:
            return route.continue_()
        heard = self.chance.random() < 0.5
        self.cuts["heard" if heard else "unheard"] += 1
        # The server may die just then.
        with suppress(Error):
            if heard:
                route.fetch()
        return route.abort("connectionreset")


@dataclass
class AtSheet:
    """One examiner's browser; `taps` is what they saw taken, in order."""

    context: BrowserContext
    address: str
    who: str
    cutter: Cutter
    page: Page = None
    taps: list[Tapped] = field(default_factory=list)

    def begin(self) -> None:
        self.page = self.context.new_page()
        self.page.goto(f"{self.address}/sign-in/{SCHOOL.slug}")
        sign_in_as(self.page, self.who)
        expect(self.page.locator("html")).to_have_attribute("data-kept", re.compile(ROOM))
        self.context.route(f"**{RECORDS}", self.cutter)
        self.enter()

    def enter(self) -> None:
        self.page.goto(self.address + ROOM)
        expect(self.page.locator("#room")).to_be_visible()

    def some_time(self) -> None:
        """A tap or some without reception, now and then in a new page; then what goes by itself goes."""
        chance = self.cutter.chance
        if chance.random() < 1 / 12:
            self.page.close()
            self.page = self.context.new_page()
            self.enter()
        if self.cutter.due() and chance.random() < 0.2:
            self.cutter.cuts["off"] += 1
            switch(self.page, False)
            for _ in range(chance.randint(1, 3)):
                self.tap()
            switch(self.page, True)
        else:
            self.tap()
        send(self.page)

    def tap(self) -> None:
        """A level, something noticed, or the undo of what stands last; safe when this returns."""
        chance, panel = self.cutter.chance, self.page.locator(".panel:visible")
        undo = self.page.locator("#undo")
        kind = chance.choice(("mark", "mark", "tap", "undo"))
        if kind == "undo" and undo.is_enabled():
            undo.click()
            self.taps.append(("undo", ""))
        elif kind == "tap":
            noticed = chance.choice(NOTICED)
            panel.locator(f'[data-noticed="{noticed}"]').click()
            self.taps.append(("tap", noticed))
        else:
            criterion, choice = chance.choice("ABCDEFG"), chance.choice("1234")
            button = panel.locator(f'[data-criterion="{criterion}"] .levels [data-choice="{choice}"]')
            if button.get_attribute("aria-pressed") == "true":
                return
            button.click()
            self.taps.append(("mark", f"{criterion}{choice}"))
        self.page.evaluate(SAFE, [RECORDS, len(self.taps)])

    def all_sent(self) -> None:
        while self.page.evaluate(WAITING):
            send(self.page)

    def shown(self) -> int:
        return self.page.locator('.panel:visible .levels [data-choice][aria-pressed="true"]').count()


def unaccounted(store: Store, examiner_id: str, at: AtSheet) -> list[str]:
    """What the school holds of an examiner's sheet against what they saw taken, and what their device shows of it."""
    with store.reading(SCHOOL.id) as work:
        found: Sequence[SheetRecord] = work.sheet_records.of(EXAM, examiner_id)
    held = [(one.kind, _what(one)) for one in found]
    marks = sum(place.startswith("mark/") for place in standing_records(found))
    return [
        *([f"{len(held)} held, {len(at.taps)} taken"] if len(held) != len(at.taps) else []),
        *(f"{tapped} became {one}" for tapped, one in zip(at.taps, held, strict=False) if tapped != one),
        *(["two of one count"] if len({one.count for one in found}) != len(found) else []),
        *([f"{marks} marks stand, {at.shown()} are shown"] if marks != at.shown() else []),
    ]


def _what(one: SheetRecord) -> str:
    if one.kind == "mark":
        return one.value["criterion"] + one.value["choice"]
    return one.value.get("noticed", "")
