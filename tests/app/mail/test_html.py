"""What a mail says as HTML, and which links are private."""

from html.parser import HTMLParser

from app.mail.html import html_page, paragraphs
from app.mail.links import veiled

LINK = "https://hours.school.internal/h/halden.3q2-8hYfT0_2kLmNpQrStUvWxYz0123456789abcde"
WORDS = f"Ida Marlowe asks you to <sign>.\n\nRead and sign here:\n{LINK}\n\nThe link is yours alone.\n"


class Tags(HTMLParser):
    def __init__(self, page: str) -> None:
        super().__init__()
        self.seen, self.text = [], ""
        self.feed(page)

    def handle_starttag(self, tag, attrs):  # noqa: ANN001, ANN201
        self.seen.append((tag, dict(attrs)))

    def handle_data(self, data):  # noqa: ANN001, ANN201
        self.text += data


def test_nothing_is_fetched_and_nothing_counts_the_reader():
    """Tracking needs something that is loaded: an image, a style, a frame, a script."""
    seen = Tags(html_page(WORDS, "Hours to sign", "en", "ltr")).seen
    assert {tag for tag, _ in seen} == {"html", "head", "meta", "title", "body", "p", "a", "br"}
    assert not [attributes for _, attributes in seen if {"src", "style", "background", "srcset"} & set(attributes)]


def test_the_words_are_all_there_and_escaped_and_the_link_says_where_it_leads():
    page = Tags(html_page(WORDS, "Hours to sign", "en", "ltr"))
    assert all(line.rstrip(":") in page.text for line in WORDS.splitlines())
    links = [attributes["href"] for tag, attributes in page.seen if tag == "a"]
    assert links == [LINK, LINK]
    assert paragraphs(WORDS)[1][0][0].text == "Read and sign here"


def test_the_language_and_its_direction_are_said():
    attributes = dict(Tags(html_page(WORDS, "Hours to sign", "ar", "rtl")).seen)["html"]
    assert attributes == {"lang": "ar", "dir": "rtl"}


def test_a_link_in_a_sentence_ends_before_the_full_stop():
    pieces = paragraphs("See https://school.internal/today.")[0][0]
    assert [(one.text, one.href) for one in pieces] == [
        ("See ", ""),
        ("https://school.internal/today", "https://school.internal/today"),
        (".", ""),
    ]


def test_the_secret_of_a_link_is_left_out_and_nothing_else():
    hidden = veiled(WORDS)
    assert hidden == WORDS.replace(LINK, "https://hours.school.internal/h/…")
    plain = "https://school.internal/today and a root 9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08"
    assert veiled(plain) == plain
