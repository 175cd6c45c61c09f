"""Every control of the main pages by the Tab key alone, each with a focus one can see (WCAG 2.2, 2.1.1 and 2.4.7)."""

import pytest

from tests.browser.checks import UNFOLD, wide
from tests.browser.doors import VISITOR, Door, doors

MAIN = (
    (VISITOR, "/sign-in/{slug}"),
    (VISITOR, "/h/{link}"),
    ("trainee", "/today"),
    ("trainee", "/hours/sessions/{session_id}"),
    ("trainee", "/readiness"),
    ("trainee", "/plans/{plan_id}"),
    ("director", "/cohort"),
    ("director", "/exams/new"),
    ("director", "/exams/{exam_id}"),
    ("examiner", "/repertoire"),
    ("examiner", "/sheets"),
    ("examiner", "/sheets/{exam_id}"),
)
# A button that only takes the Enter key, hidden from everybody, is no stop; a ring may be drawn around the label that holds the control.
# Of a group of radio buttons one is a stop; the arrow keys reach the others.
NUMBER = """() => {
  const groups = new Set();
  return [...document.querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex="0"]')]
    .filter(one => !one.disabled && !(one.tabIndex < 0 && one.ariaHidden) && one.type !== 'hidden' && one.checkVisibility({visibilityProperty: true}))
    .filter(one => one.type !== 'radio' || (!groups.has(one.name) && groups.add(one.name)))
    .map((one, number) => { one.dataset.stop = number; return one.outerHTML.slice(0, 100); });
}"""
HERE = """() => {
  const one = document.activeElement, rings = [one, one.closest('label')].filter(Boolean).map(some => getComputedStyle(some));
  const box = one.getBoundingClientRect();
  const group = one.type === 'radio' ? document.querySelector(`input[name="${one.name}"][data-stop]`) : one;
  return {
    stop: group.dataset.stop,
    shown: rings.some(ring => ring.outlineStyle !== 'none' && parseFloat(ring.outlineWidth) >= 2) && box.bottom > 0 && box.right > 0
      && box.top < innerHeight && box.left < innerWidth,
    what: one.outerHTML.slice(0, 100),
  };
}"""


@pytest.mark.parametrize("door", [next(doors(*main)) for main in MAIN], ids=str)
def test_tab_reaches_everything_and_shows_where_it_is(page_of, site, door: Door) -> None:  # noqa: ANN001
    page, _ = page_of(door.role)
    wide(page, "desktop")
    page.goto(door.address(site))
    page.evaluate(UNFOLD)
    controls = page.evaluate(NUMBER)
    reached, unseen = set(), []
    for _ in range(4 * len(controls) + 4):  # a date or a time has several stops of its own
        page.keyboard.press("Tab")
        here = page.evaluate(HERE)
        if here["stop"] is None:
            break
        reached.add(int(here["stop"]))
        if not here["shown"]:
            unseen.append(here["what"])
    assert [words for number, words in enumerate(controls) if number not in reached] == []
    assert unseen == []
    assert len(controls) > 3
