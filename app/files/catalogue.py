"""The text catalogue: every sentence of the sources, as a template and one file a language (gettext's PO files)."""

import re
import tomllib
from dataclasses import replace
from io import BytesIO
from pathlib import Path

from babel.messages import Catalog, Message
from babel.messages.extract import extract_from_dir
from babel.messages.pofile import read_po, write_po

from app.settings import ROOT
from app.wording.languages import DOMAIN, LOCALES
from curriculum.faults import N_, Fault

PACKAGES = ("app", "assessments", "curriculum")
TEMPLATE = LOCALES / f"{DOMAIN}.pot"
PLACE = re.compile(r"\{\w+[^{}]*\}|%\(\w+\)[sd]")
FLEETING = re.compile(
    r'^"(POT-Creation-Date|PO-Revision-Date|Last-Translator|Language-Team|Generated-By|Report-Msgid-Bugs-To): .*\n',
    re.M,
)
HEADER = "# Texts of Throughline for people. Made from the sources by `throughline wording extract`.\n#"


def extracted() -> Catalog:
    """Every marked text of the sources; where to look stands in `pyproject.toml` under `tool.babel`."""
    mappings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["babel"]["mappings"]
    methods = [(one["pattern"], one["method"]) for one in mappings]
    options = {one["pattern"]: {key: str(value) for key, value in one.items()} for one in mappings}
    catalogue = Catalog(fuzzy=False)
    for package in PACKAGES:
        found = extract_from_dir(ROOT / package, methods, options, comment_tags=("Translators:",))
        for name, _, message, comments, context in sorted(found, key=lambda one: (one[0], one[1])):
            catalogue.add(
                message, None, [(f"{package}/{Path(name).as_posix()}", 0)], auto_comments=comments, context=context
            )
    return catalogue


def as_text(catalogue: Catalog) -> str:
    """A catalogue as its file holds it: sorted by text, without line numbers and dates, which change for nothing."""
    catalogue.project, catalogue.version, catalogue.header_comment = "Throughline", "1", HEADER
    made = BytesIO()
    write_po(made, catalogue, width=120, sort_output=True, include_lineno=False, ignore_obsolete=True)
    return FLEETING.sub("", made.getvalue().decode("utf-8"))


def fresh_texts() -> dict[Path, str]:
    """What the template and every language's file should hold today, by path; translations are kept."""
    template = extracted()
    texts = {TEMPLATE: as_text(template)}
    for path in sorted(LOCALES.glob(f"*/LC_MESSAGES/{DOMAIN}.po")):
        with path.open("rb") as file:
            kept = read_po(file, locale=path.parent.parent.name, domain=DOMAIN, abort_invalid=True)
        kept.update(template, no_fuzzy_matching=True)
        texts[path] = as_text(kept)
    return texts


def refresh() -> list[Path]:
    """Write what changed; gives the paths written."""
    changed = outdated()
    for path, text in changed.items():
        path.write_text(text, encoding="utf-8")
    return list(changed)


def outdated() -> dict[Path, str]:
    """Files that are not what the sources say, with what they should hold."""
    return {path: text for path, text in fresh_texts().items() if not path.exists() or path.read_text("utf-8") != text}


def translation_faults() -> list[Fault]:
    """Translations whose places are not those of their text, each with its file and line."""
    faults = []
    for path in sorted(LOCALES.glob(f"*/LC_MESSAGES/{DOMAIN}.po")):
        with path.open("rb") as file:
            kept = read_po(file, locale=path.parent.parent.name, domain=DOMAIN, abort_invalid=True)
        source = str(path.relative_to(ROOT))
        faults += [replace(fault, source=source) for message in kept for fault in _message_faults(message)]
    return faults


def _message_faults(message: Message) -> list[Fault]:
    ids = message.id if isinstance(message.id, tuple) else (message.id,)
    said = message.string if isinstance(message.string, tuple) else (message.string,)
    wanted = {place for one in ids for place in PLACE.findall(one)}
    sentence = N_("“{text}” has other places than “{source}”; allowed: {places}")
    return [
        Fault(
            "places",
            sentence,
            {"text": one, "source": ids[0], "places": ", ".join(sorted(wanted))},
            line=message.lineno,
        )
        for one in said
        if message.id and one and not set(PLACE.findall(one)) <= wanted
    ]
