"""A language made for tests: every letter of a message is widened, so that a letter left narrow was never translated.

Its locale is Greek, so that days, times and numbers written by the locale hold no Latin letter either.
"""

import json
import re
from collections.abc import Iterable, Iterator
from functools import lru_cache
from html.parser import HTMLParser
from pathlib import Path
from tempfile import TemporaryDirectory

import yaml
from babel.messages import Catalog
from babel.messages.pofile import write_po
from sqlalchemy import MetaData, select

from app.files.catalogue import extracted
from app.files.repertoire import edition_from_documents
from app.queries.springs import machines_of
from app.storage.work import Store
from app.wording.languages import DOMAIN, Languages

LOCALE = "el"
PLACES = re.compile(r"(\{[^{}]*\}|%\(\w+\)[sd]|%%)")
WIDE = {ord(letter): ord(letter) + 0xFEE0 for letter in "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"}
MADE_HERE = re.compile("[⟦⟧\uff21-\uff5a]+")
LATIN = re.compile(r"[A-Za-z\u00c0-\u024f]")
WORD = re.compile(r"\w+")
CODE = re.compile(r"[a-z0-9][a-z0-9_\-]*")
SPOKEN = ("aria-label", "title", "placeholder", "alt")
# What nobody reads as words: script, style, and hashes shown as code.
SILENT = ("script", "style", "code")
# Tables of what the application itself has written: they excuse nothing.
WRITTEN_HERE = ("outgoing_mail", "season_picture")
PRODUCT = "Throughline"


def disguised(message: str) -> str:
    """A message with its letters widened and its places kept, in brackets."""
    parts = PLACES.split(message)
    return f"⟦{''.join(part if PLACES.fullmatch(part) else part.translate(WIDE) for part in parts)}⟧"


@lru_cache(maxsize=1)
def disguise() -> Languages:
    """Languages with the one made for tests, and no other; made once a process."""
    made = Catalog(locale=LOCALE, domain=DOMAIN, fuzzy=False)
    for message in extracted():
        if not message.id:
            continue
        if isinstance(message.id, tuple):
            made.add(message.id, tuple(disguised(message.id[place]) for place in (0, 1)))
        else:
            made.add(message.id, disguised(message.id))
    with TemporaryDirectory() as folder:
        path = Path(folder) / LOCALE / "LC_MESSAGES" / f"{DOMAIN}.po"
        path.parent.mkdir(parents=True)
        with path.open("wb") as file:
            write_po(file, made)
        languages = Languages(Path(folder))
        assert languages.of(LOCALE).locale == LOCALE
    return languages


class Seen(HTMLParser):
    """The texts that a page shows or has read out, and its forms with what they would send."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.texts: list[str] = []
        self.links: list[str] = []
        self.forms: list[tuple[str, dict[str, list[str]]]] = []
        self._open: list[str] = []
        self._form: dict[str, list[str]] | None = None
        self._select = self._area = ""
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        self._open.append(tag)
        self.texts += [given[name] for name in SPOKEN if given.get(name)]
        if tag == "a":
            self.links.append(given.get("href", "").partition("#")[0])
        if tag == "form" and given.get("method") == "post":
            self._form = {}
            self.forms.append((given["action"], self._form))
        if self._form is not None:
            self._field(tag, given)

    def _field(self, tag: str, given: dict[str, str]) -> None:
        name, kind = given.get("name", ""), given.get("type", "text")
        if tag == "input" and name and (kind not in ("checkbox", "radio") or "checked" in given):
            self._form.setdefault(name, []).append(given.get("value", ""))
        elif tag == "select":
            self._select = name
        elif tag == "textarea":
            self._area = name
            self._form.setdefault(name, [""])
        elif tag == "option" and "selected" in given:
            self._form.setdefault(self._select, []).append(given.get("value", ""))
        elif tag == "button" and name:
            self._form.setdefault(name, [given.get("value", "")])

    def handle_endtag(self, tag: str) -> None:
        while self._open and self._open.pop() != tag:
            pass
        if tag == "form":
            self._form = None

    def handle_data(self, data: str) -> None:
        where = self._open[-1] if self._open else ""
        if where == "textarea" and self._form is not None:
            self._form[self._area] = [data.removeprefix("\n")]
        elif where not in SILENT and data.strip():
            self.texts.append(data)


class Known:
    """Words that people typed or that a school's own files hold; codes in small letters only if they are `names`."""

    def __init__(self, texts: Iterable[str], names: Iterable[str] = ()) -> None:
        kept = [*(text for text in texts if text and not CODE.fullmatch(text)), *names]
        self.phrases = {tuple(WORD.findall(text.casefold())) for text in kept}
        self.phrases.discard(())
        self.longest = max(map(len, self.phrases))
        self.starts = {phrase[0] for phrase in self.phrases}

    def unknown(self, piece: str) -> str:
        """What is left of a piece without whole known phrases; empty if no letter is."""
        words, left, at = WORD.findall(piece.casefold()), [], 0
        if self._covers(words):
            return ""
        while at < len(words):
            most = range(min(self.longest, len(words) - at), 0, -1) if words[at] in self.starts else ()
            length = next((some for some in most if tuple(words[at : at + some]) in self.phrases), 0)
            if not length:
                left.append(words[at])
            at += length or 1
        rest = " ".join(left)
        return rest if LATIN.search(rest) else ""

    def _covers(self, words: list[str]) -> bool:
        """Whether some row of whole known phrases is just these words, though the longest first may miss it."""
        reached = {0}
        for at in range(len(words)):
            if at in reached and words[at] in self.starts:
                lengths = range(1, min(self.longest, len(words) - at) + 1)
                reached |= {at + length for length in lengths if tuple(words[at : at + length]) in self.phrases}
        return len(words) in reached

    def leaks(self, text: str) -> list[str]:
        """Parts of a text that no catalogue gave and nobody typed."""
        pieces = (piece for piece in MADE_HERE.split(text) if LATIN.search(piece))
        return [piece.strip() for piece in pieces if self.unknown(piece)]


def typed_texts(store: Store) -> Iterator[str]:
    """Every text that a database holds, and every value of the YAML files among them."""
    tables = MetaData()
    tables.reflect(store.engine)
    with store.engine.connect() as connection:
        for table in (one for one in tables.sorted_tables if one.name not in WRITTEN_HERE):
            for row in connection.execute(select(table)):
                for value in row:
                    yield from _texts_within(value)
                if {"name", "number"} <= set(row._fields):
                    yield f"{row.name} {row.number}"


def edition_names(store: Store, school_id: str) -> list[str]:
    """What the school calls its editions."""
    with store.reading(school_id) as work:
        return [one.name for one in work.editions.all()]


def machine_words(store: Store, school_id: str) -> list[str]:
    """What the school calls its machines, their springs and gears."""
    with store.reading(school_id) as work:
        machines = machines_of(work)
    springs = [spring.label for machine in machines for spring in machine.springs]
    return [*(machine.name for machine in machines), *springs, *(gear for one in machines for gear, _ in one.gears)]


def movement_words(store: Store, school_id: str) -> list[str]:
    """The words that the edition of the repertoire counts movements and repetitions by: in, out, breaths."""
    with store.reading(school_id) as work:
        edition = edition_from_documents(work.editions.newest("repertoire").documents)
    positions = [position for exercise in edition.exercises for position in exercise.positions]
    bouts = [bout for position in positions if position.tempo for bout in position.tempo.bouts]
    phases = [cue.phase for exercise in edition.exercises for cue in exercise.cues]
    return [
        *(phase.movement for bout in bouts for phase in bout.phases),
        *(position.repetitions.unit for position in positions),
        *phases,
    ]


def _texts_within(value: object) -> Iterator[str]:
    if isinstance(value, bytes):
        yield from _texts_of_json(value.decode(errors="ignore"))
    elif isinstance(value, dict):
        for inner in value.values():
            yield from _texts_within(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from _texts_within(inner)
    elif isinstance(value, str):
        yield value
        if value.startswith(("{", "[")):
            yield from _texts_of_json(value)


def _texts_of_json(written: str) -> Iterator[str]:
    """The values of a JSON document, and of the YAML files in it, which its keys name."""
    try:
        found = json.loads(written)
    except ValueError:
        return
    yield from _texts_within(found)
    for name, text in found.items() if isinstance(found, dict) else ():
        if name.endswith(".yaml"):
            yield name
            yield from _texts_within(_yaml(text))


@lru_cache(maxsize=64)
def _yaml(text: str) -> object:
    return yaml.load(text, Loader=yaml.BaseLoader)
