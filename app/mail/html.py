"""What a mail says as HTML: plain paragraphs and links, no style, nothing that is fetched or that tells on the reader."""

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined, Template

from app.mail.links import LINK

TEMPLATES = Path(__file__).resolve().parent.parent / "templates"


@dataclass(frozen=True, slots=True)
class Piece:
    """A run of text within a line; `href` where it is a link."""

    text: str
    href: str = ""


Line = tuple[Piece, ...]


def paragraphs(words: str) -> tuple[tuple[Line, ...], ...]:
    """The words in paragraphs of lines. A line that is only an address is the link of the line before it, which ends in a colon.

    The address stays in sight too: it is what somebody can copy, and check before following it.
    """
    blocks = ("\n".join(line.rstrip() for line in words.splitlines())).split("\n\n")
    return tuple(_block(block.strip().splitlines()) for block in blocks if block.strip())


def html_page(words: str, subject: str, language: str, direction: str) -> str:
    """The whole message; `language` is a BCP 47 tag, `direction` ltr or rtl."""
    return _template().render(paragraphs=paragraphs(words), subject=subject, language=language, direction=direction)


@cache
def _template() -> Template:
    made = Environment(loader=FileSystemLoader(TEMPLATES), autoescape=True, undefined=StrictUndefined)
    return made.get_template("mail/mail.html")


def _block(lines: list[str]) -> tuple[Line, ...]:
    made: list[Line] = []
    for place, line in enumerate(lines):
        following = lines[place + 1] if place + 1 < len(lines) else ""
        if line.endswith(":") and LINK.fullmatch(following):
            made.append((Piece(line.removesuffix(":").rstrip(), following),))
        else:
            made.append(_pieces(line))
    return tuple(made)


def _pieces(line: str) -> Line:
    pieces, place = [], 0
    for found in LINK.finditer(line):
        address = found[0].rstrip(".,;:!?)")
        pieces += [Piece(line[place : found.start()]), Piece(address, address)]
        place = found.start() + len(address)
    return tuple(piece for piece in (*pieces, Piece(line[place:])) if piece.text)
