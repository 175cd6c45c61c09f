"""The five of the day with the network switched off and on again: nothing is lost, nothing is taken twice."""

import re
from collections import Counter
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, Route, expect

from app.use_cases.demo import PASSWORD, SCHOOL
from tests.browser.checks import WIDTHS, Console, axe_faults
from tests.browser.conftest import MOST_WAITING
from tests.browser.site import Site

PERSON = "trainee-1"
ANSWER = ("Known", "Blank", "Could teach it", "Only with a prompt", "Known")
KEPT = """async () => {
  const found = [];
  for (const name of await caches.keys())
    for (const one of await (await caches.open(name)).keys()) found.push(new URL(one.url).pathname);
  return found;
}"""


@pytest.fixture
def phone(chromium: Browser, own_site: Site) -> Iterator[Page]:
    """The trainee's phone with the study page open and kept; it may complain of no reception, and of nothing else."""
    size = dict(zip(("width", "height"), WIDTHS["phone"], strict=True))
    with chromium.new_context(viewport=size, locale="en-GB") as context:
        context.set_default_timeout(MOST_WAITING)
        page = context.new_page()
        console = Console(page)
        page.goto(f"{own_site.address}/sign-in/{SCHOOL.slug}")
        sign_in_as(page, "trainee")
        page.goto(f"{own_site.address}/study")
        wait_kept(page)
        yield page
        assert [one for one in console.taken() if "net::ERR_" not in one] == []


def wait_kept(page: Page) -> None:
    expect(page.locator("html")).to_have_attribute("data-kept", "/study")


def shown(page: Page) -> str:
    """The id of the question that is asked."""
    articles = page.locator(".recall:visible")
    expect(articles).to_have_count(1)
    return articles.get_attribute("data-question")


def press(page: Page, words: str) -> None:
    page.locator(".recall:visible").get_by_role("button", name=words, exact=True).click()


def answer(page: Page, number: int, start: int = 0) -> list[tuple[str, str]]:
    """(question, words) of the answers given; the next question or the end stands there after each."""
    given = []
    for words in ANSWER[start : start + number]:
        question = shown(page)
        press(page, words)
        expect(page.locator(f'.recall[data-question="{question}"]')).to_be_hidden()
        given.append((question, words))
    return given


def only_here(page: Page, number: int) -> None:
    expect(page.locator("#outbox")).to_contain_text(f"Waiting on this device: {number}. Sent as soon as")


def all_sent(page: Page) -> None:
    expect(page.locator("#outbox")).to_be_hidden()


def send(page: Page) -> None:
    """What the page does by itself some seconds later."""
    page.evaluate("import('/static/outbox.js').then((outbox) => outbox.send())")


def switch(page: Page, on: bool) -> None:
    page.context.set_offline(not on)


def taken(site: Site) -> Counter[tuple[str, str]]:
    """How often each (question, answer) stands with the school."""
    values = {"Blank": "blank", "Only with a prompt": "prompted", "Known": "known", "Could teach it": "teach"}
    words = {value: one for one, value in values.items()}
    with site.store.reading(SCHOOL.id) as work:
        number = work.recalls.next_number(PERSON) - 1
        found = [one for question in work.recalls.memories(PERSON) for one in work.recalls.answers(PERSON, question)]
    assert len(found) <= number
    return Counter((one.question, words[one.answer]) for one in found)


def test_the_five_are_answered_without_reception_and_sent_once_it_is_back(phone: Page, own_site: Site) -> None:
    switch(phone, False)
    given = answer(phone, 5)
    expect(phone.get_by_role("heading", name="That was the five.")).to_be_visible()
    only_here(phone, 5)
    assert taken(own_site) == Counter()
    assert axe_faults(phone) == []
    switch(phone, True)
    all_sent(phone)
    assert taken(own_site) == Counter(given)


def test_a_reload_and_a_closed_tab_without_reception_lose_nothing(phone: Page, own_site: Site) -> None:
    switch(phone, False)
    given = answer(phone, 2)
    phone.reload()
    only_here(phone, 2)
    expect(phone.get_by_text("No reception: this page is as it was at")).to_be_visible()
    given += answer(phone, 1, start=2)
    address, context = phone.url, phone.context
    phone.close()
    again = context.new_page()
    again.goto(address)
    only_here(again, 3)
    assert shown(again) not in {question for question, _ in given}
    switch(again, True)
    all_sent(again)
    assert taken(own_site) == Counter(given)


def test_answers_that_arrive_but_whose_receipt_is_lost_are_taken_once(phone: Page, own_site: Site) -> None:
    """The server takes each answer twice; the device hears of it only the second time."""
    lost: set[str] = set()

    def lose_first(route: Route) -> None:
        id = re.search(r"\bid=([\w-]+)", route.request.post_data).group(1)
        if id in lost:
            route.continue_()
            return
        lost.add(id)
        route.fetch()
        route.abort("connectionreset")

    phone.route("**/study", lambda route: lose_first(route) if route.request.method == "POST" else route.fallback())
    given = answer(phone, 2)
    expect(phone.locator("#outbox")).to_contain_text("Waiting on this device")
    send(phone)
    send(phone)
    all_sent(phone)
    assert len(lost) == 2
    assert taken(own_site) == Counter(given)


def test_an_answer_is_taken_back_without_reception(phone: Page, own_site: Site) -> None:
    switch(phone, False)
    ((question, _),) = answer(phone, 1)
    phone.get_by_role("button", name="Take the last answer back").click()
    expect(phone.locator(".recall:visible")).to_have_attribute("data-question", question)
    (again,) = answer(phone, 1, start=1)
    switch(phone, True)
    all_sent(phone)
    assert taken(own_site) == Counter([again])


def test_two_tabs_send_each_answer_once(phone: Page, own_site: Site) -> None:
    switch(phone, False)
    given = answer(phone, 3)
    other = phone.context.new_page()
    other.goto(phone.url)
    only_here(other, 3)
    switch(phone, True)
    all_sent(phone)
    all_sent(other)
    assert taken(own_site) == Counter(given)


def test_signing_out_forgets_the_kept_pages_and_keeps_what_was_not_sent(phone: Page, own_site: Site) -> None:
    """What was not sent waits for its own person, and nobody else sees it."""
    assert "/study" in phone.evaluate(KEPT)
    phone.route("**/offline/self", lambda route: route.abort())
    given = answer(phone, 1)
    only_here(phone, 1)
    phone.get_by_role("button", name="Sign out").click()
    expect(phone.get_by_role("button", name="Sign in")).to_be_visible()
    assert phone.evaluate(KEPT) == []
    phone.unroute("**/offline/self")
    sign_in_as(phone, "director")
    expect(phone.get_by_role("heading", level=1)).to_be_visible()
    expect(phone.locator("#outbox")).to_be_hidden()
    assert taken(own_site) == Counter()
    phone.get_by_role("button", name="Sign out").click()
    sign_in_as(phone, "trainee")
    expect(phone.get_by_role("heading", level=1)).to_have_text("Today")
    all_sent(phone)
    assert taken(own_site) == Counter(given)


def sign_in_as(page: Page, role: str) -> None:
    page.get_by_label("Email").fill(f"{role}@halden-row.example")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url(lambda url: "/sign-in" not in url)


def test_what_is_not_taken_says_why_and_stays_until_thrown_away(phone: Page, own_site: Site) -> None:
    switch(phone, False)
    phone.evaluate(
        "import('/static/outbox.js').then((outbox) => outbox.put('/study', {id: 'x', question: 'next:gone', answer: 'known'}, 'Gone'))"
    )
    switch(phone, True)
    row = phone.locator("#outbox").get_by_role("listitem")
    expect(row).to_contain_text("Gone: your edition does not have this question")
    phone.reload()
    expect(row).to_contain_text("Gone")
    assert axe_faults(phone) == []
    row.get_by_role("button", name="Throw it away").click()
    all_sent(phone)
    assert taken(own_site) == Counter()


def test_without_script_five_are_answered_and_one_is_taken_back(sign_in, own_site: Site) -> None:  # noqa: ANN001
    page = sign_in("trainee", "phone", False)
    page.goto(re.match(r"https?://[^/]+", page.url).group(0) + "/study")
    given = []
    for words in ANSWER:
        given.append((shown(page), words))
        page.get_by_text("Show the answer").locator("visible=true").click()
        press(page, words)
    expect(page.get_by_role("heading", name="That was the five.")).to_be_visible()
    assert taken(own_site) == Counter(given)
    page.get_by_role("button", name="Take the last answer back").click()
    assert shown(page) == given[-1][0]
    assert taken(own_site) == Counter(given[:-1])
