"""The checks themselves: a page with every fault in it, and each is found."""

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.checks import COLOURS, Console, axe_faults, frame_faults, room_faults
from tests.browser.doors import doors, unknown_places

BAD = """<!doctype html><html><head><meta name="viewport" content="width=device-width"></head><body>
<p style="color:#ddd;background:#fff">too pale</p><img src="data:,"><input>
<div id="long" class="long">averylongword</div><script>never()</script></body></html>"""
POLICY = {"content-security-policy": "default-src 'none'; img-src data:"}


@pytest.fixture
def bad(chromium: Browser) -> Page:
    context = chromium.new_context()
    page = context.new_page()
    page.route("**/*", lambda route: route.fulfill(body=BAD, content_type="text/html", headers=POLICY))
    yield page
    context.close()


def test_what_is_wrong_is_found(bad: Page) -> None:
    console = Console(bad)
    with bad.expect_console_message(lambda one: "policy: style" in one.text), \
            bad.expect_console_message(lambda one: "policy: script" in one.text):  # fmt: skip
        bad.goto("http://bad.example/")
    said = "\n".join(console.taken())
    assert "policy: style-src" in said
    assert "policy: script-src" in said
    bad.evaluate("document.querySelector('p').style.cssText = 'color: #ddd; background: #fff'")
    found = "\n".join(axe_faults(bad))
    for rule in ("color-contrast", "image-alt", "label", "html-has-lang", "document-title", "page-has-heading-one"):
        assert f"{rule}: " in found
    assert [one[:15] for one in axe_faults(bad, COLOURS)] == ["color-contrast:"]
    assert len(frame_faults(bad)) == 3
    assert list(room_faults(bad)) == []
    bad.evaluate("document.getElementById('long').style.width = '330px'")
    assert [one for one in room_faults(bad) if one.startswith("320 px: 3")]


def test_an_address_whose_place_has_no_value_says_where_to_give_it() -> None:
    (said,) = unknown_places([*doors("director", "/trainees/{enrolment_id}/lockers/{locker_id}")])
    assert (
        said
        == "/trainees/{enrolment_id}/lockers/{locker_id}: give {locker_id} a value from the demo in VALUES, tests/browser/doors.py"
    )
