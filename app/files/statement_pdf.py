"""A host teacher's yearly statement as a tagged PDF (PDF/UA-1); import this late, typst is heavy."""

from collections.abc import Sequence
from datetime import datetime

from app.files.pdf import made_pdf
from app.wording.languages import ENGLISH, Language
from curriculum.faults import N_

WHAT, HOW_MUCH = N_("What"), N_("How much")
CHECK = N_("Whoever has this line can check at the school that its record was not changed since:")


def statement_pdf(  # noqa: PLR0913 - what stands on the page
    title: str,
    school: str,
    paragraphs: Sequence[str],
    figures: Sequence[tuple[str, str]],
    root: str,
    on: datetime,
    made: str,
    language: Language = ENGLISH,
) -> bytes:
    """One page: the statement in words, its figures (label, amount), and the root of the record it was made from.

    `on` is when it is made, with its time zone; the same arguments give the same bytes.
    """
    if on.tzinfo is None:
        raise ValueError("on needs a time zone")
    data = {
        **language.printed(),
        "title": title,
        "school": school,
        "day": made,
        "paragraphs": [one for one in paragraphs if one],
        "figures": [list(pair) for pair in figures],
        "labels": {"what": language(WHAT), "how_much": language(HOW_MUCH)},
        "check": language(CHECK),
        "root": root,
    }
    return made_pdf("statement.typ", data, int(on.timestamp()))
