"""How the walks go: the ways they are walked in, and the steps they share."""

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser.checks import SIDEWAYS, WIDTHS, axe_faults

SignIn = Callable[[str, str, bool], Page]
WAYS = [*((width, True) for width in WIDTHS), ("phone", False)]
EVERY_WAY = pytest.mark.parametrize(("width", "script"), WAYS, ids=[*WIDTHS, "phone-without-script"])


def open_at(page: Page, path: str) -> None:
    page.goto(re.match(r"https?://[^/]+", page.url).group(0) + path)


def named(page: Page, name: str) -> Locator:
    return page.locator(f'[name="{name}"]')


def press(page: Page, words: str) -> None:
    page.get_by_role("button", name=words, exact=True).click()


def fits(page: Page) -> None:
    assert page.evaluate(SIDEWAYS) == [], page.url


def refused(page: Page, script: bool, *words: str) -> None:
    """Every reason stands in the summary, each leads to its field, and the summary has the focus if script may move it."""
    summary = page.locator("#faults")
    for one in words:
        expect(summary).to_contain_text(one)
    for link in summary.get_by_role("link").all():
        expect(page.locator(f'[id="{link.get_attribute("href")[1:]}"]')).to_have_count(1)
    if script:
        expect(summary).to_be_focused()
        assert axe_faults(page) == []
    fits(page)
