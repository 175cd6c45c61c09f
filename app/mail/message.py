"""A message as it goes over the wire (RFC 5322, MIME): text and HTML of the same words."""

from dataclasses import dataclass
from datetime import datetime
from email.errors import HeaderParseError
from email.headerregistry import Address
from email.message import EmailMessage
from email.policy import SMTP

from app.mail.html import html_page
from curriculum.faults import ThroughlineError

# RFC 2606 and RFC 6761: nobody can ever have mail there; an invented school writes only to these.
NOBODYS = ("example", "test", "invalid", "localhost", "example.com", "example.net", "example.org")


class UnwritableMailError(ThroughlineError):
    """No message can be made for this address."""


@dataclass(frozen=True, slots=True)
class Letter:
    """What a message is made of. `id` is the same however often it is sent; `language` is a BCP 47 tag."""

    id: str
    to_address: str
    to_name: str
    from_address: str
    from_name: str
    subject: str
    words: str
    made_at: datetime
    language: str = "en"
    direction: str = "ltr"


def message(letter: Letter) -> EmailMessage:
    """The message; raises `UnwritableMailError` if the address can't be read.

    The Message-ID is made from the letter's own id, so a mail that is sent twice is the same mail to whoever gets it.
    It says that a program wrote it (RFC 3834), so that no absence note answers.
    """
    made = EmailMessage(policy=SMTP)
    made["Subject"] = _line(letter.subject)
    made["From"] = _address(letter.from_name, letter.from_address)
    made["To"] = _address(letter.to_name, letter.to_address)
    made["Date"] = letter.made_at
    made["Message-ID"] = f"<{letter.id}@{letter.from_address.rpartition('@')[2]}>"
    made["Auto-Submitted"] = "auto-generated"
    made["Content-Language"] = letter.language
    made.set_content(letter.words)
    made.add_alternative(html_page(letter.words, letter.subject, letter.language, letter.direction), subtype="html")
    return made


def nobody_lives_at(address: str) -> bool:
    """Whether the address is in a domain that is only for examples and tests."""
    domain = address.rpartition("@")[2].lower().rstrip(".")
    return any(domain == one or domain.endswith(f".{one}") for one in NOBODYS)


def _address(name: str, address: str) -> Address:
    local, at, domain = address.strip().rpartition("@")
    try:
        if not (local and at and domain):
            raise UnwritableMailError
        return Address(_line(name), local.strip('"'), domain)
    except (ValueError, IndexError, HeaderParseError) as error:
        raise UnwritableMailError from error


def _line(text: str) -> str:
    """One line: a line end in a header would begin another header."""
    return " ".join(text.split())
