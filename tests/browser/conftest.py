"""A Chromium of this machine, the demo school served, and people who are signed in."""

from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect, sync_playwright

from app.cli.test import browser as chromium_here
from app.cli.test import must_have
from app.use_cases.demo import PASSWORD, SCHOOL
from tests.browser.checks import WIDTHS, Console
from tests.browser.doors import VISITOR
from tests.browser.site import Site, copied, fill, served, with_work_waiting
from tests.browser.walking import SignIn

collect_ignore_glob = [] if chromium_here() or "chromium" in must_have() else ["test_*.py"]
ARGUMENTS = ["--no-sandbox", "--disable-dev-shm-usage", "--disable-background-networking"]
# Long enough for a busy machine: nothing waits this long where all is well.
MOST_WAITING = 60_000
expect.set_options(timeout=MOST_WAITING)


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """One browser for all tests of a worker."""
    path = chromium_here()
    assert path, "Chromium: not found, but THROUGHLINE_MUST_HAVE names it."
    with sync_playwright() as play:
        started = play.chromium.launch(executable_path=path, args=ARGUMENTS)
        yield started
        started.close()


@pytest.fixture(scope="session")
def filled(tmp_path_factory: pytest.TempPathFactory) -> str:
    """The URL of the demo school's file, filled once and copied for whoever changes it."""
    url = f"sqlite:///{tmp_path_factory.mktemp('school') / 'school.db'}"
    fill(url)
    return url


@pytest.fixture(scope="session")
def site(filled: str, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    """The school that is only looked at."""
    with served(copied(filled, tmp_path_factory.mktemp("looked-at"))) as site:
        yield with_work_waiting(site)


@pytest.fixture
def own_site(filled: str, tmp_path: Path) -> Iterator[Site]:
    """A school of this test's own, to change."""
    with served(copied(filled, tmp_path)) as site:
        yield site


@pytest.fixture(scope="session")
def page_of(chromium: Browser, site: Site) -> Iterator[Callable[[str], tuple[Page, Console]]]:
    """One page a role, signed in once a worker, for the school that is only looked at."""
    pages: dict[str, tuple[Page, Console]] = {}

    def of(role: str) -> tuple[Page, Console]:
        if role not in pages:
            page = _opened(chromium.new_context(locale="en-GB"))
            console = Console(page)
            if role != VISITOR:
                _sign_in(page, site, role)
            pages[role] = page, console
        return pages[role]

    yield of
    for page, _ in pages.values():
        page.context.close()


@pytest.fixture
def sign_in(chromium: Browser, own_site: Site) -> Iterator[SignIn]:
    """Opens the test's own school at a width, with script or without, as somebody who is signed in or as nobody."""
    with ExitStack() as open_contexts:
        consoles: list[Console] = []

        def opened(role: str, width: str, script: bool) -> Page:
            context = chromium.new_context(
                viewport=dict(zip(("width", "height"), WIDTHS[width], strict=True)),
                java_script_enabled=script,
                locale="en-GB",
            )
            open_contexts.callback(context.close)
            page = _opened(context)
            consoles.append(Console(page))
            if role != VISITOR:
                _sign_in(page, own_site, role)
            return page

        yield opened
        assert [one for console in consoles for one in console.taken()] == []


def _opened(context: BrowserContext) -> Page:
    context.set_default_timeout(MOST_WAITING)
    return context.new_page()


def _sign_in(page: Page, site: Site, role: str) -> None:
    page.goto(f"{site.address}/sign-in/{SCHOOL.slug}")
    page.get_by_label("Email").fill(f"{role}@halden-row.example")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url(lambda url: "/sign-in" not in url)
