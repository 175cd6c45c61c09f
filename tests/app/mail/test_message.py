"""A message as it goes over the wire: RFC 5322 headers, text and HTML of the same words, no header from what was typed."""

from dataclasses import replace
from datetime import UTC, datetime
from email import message_from_bytes
from email.policy import default

import pytest

from app.mail.message import Letter, UnwritableMailError, message, nobody_lives_at

LETTER = Letter(
    "ab12.halden", "ada@studio.internal", "Ada Øverland", "hours@school.internal", "Halden Row", "Hours to sign",
    "Grüße,\n\nsign here.\n", datetime(2026, 11, 25, 15, 0, tzinfo=UTC),
)  # fmt: skip


def sent(letter):
    return message_from_bytes(message(letter).as_bytes(), policy=default)


def test_the_text_comes_first_and_the_html_says_the_same():
    """RFC 2046, 5.1.4: the alternatives in order of growing faithfulness."""
    made = sent(LETTER)
    assert made.get_content_type() == "multipart/alternative"
    text, html = made.iter_parts()
    assert (text.get_content_type(), html.get_content_type()) == ("text/plain", "text/html")
    assert text.get_content().replace("\r\n", "\n") == LETTER.words
    assert "<p>Grüße,</p>" in html.get_content()


def test_the_headers_say_who_when_and_that_a_program_wrote_it():
    made = sent(LETTER)
    assert made["to"].addresses[0].display_name == "Ada Øverland"
    assert made["from"].addresses[0].addr_spec == "hours@school.internal"
    assert made["date"].datetime == LETTER.made_at
    assert made["auto-submitted"] == "auto-generated"


def test_the_same_letter_has_the_same_message_id_whenever_it_is_sent():
    assert {sent(LETTER)["message-id"] for _ in range(2)} == {"<ab12.halden@school.internal>"}
    assert sent(replace(LETTER, id="ab13.halden"))["message-id"] != sent(LETTER)["message-id"]


def test_a_line_end_begins_no_header():
    made = sent(replace(LETTER, subject="Hours\r\nBcc: all@school.internal", to_name="Ada\nX: y"))
    assert made["bcc"] is None
    assert made["x"] is None
    assert made["subject"] == "Hours Bcc: all@school.internal"


@pytest.mark.parametrize("address", ["", "ada", "@studio.internal", "ada@", "ada@x\r\nBcc: b@c.internal"])
def test_what_is_no_address_is_refused(address):
    with pytest.raises(UnwritableMailError):
        message(replace(LETTER, to_address=address))


@pytest.mark.parametrize(
    ("address", "nobody"),
    [
        ("ida@halden-row.example", True), ("ida@example.org", True), ("ida@a.test", True), ("IDA@X.INVALID.", True),
        ("ida@halden-row.internal", False), ("ida@anexample", False), ("ida@myexample.com", False),
    ],
)  # fmt: skip
def test_domains_for_examples_are_known(address, nobody):
    """RFC 2606, sections 2 and 3."""
    assert nobody_lives_at(address) is nobody
