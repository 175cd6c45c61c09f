"""The record of one training as a tagged PDF (PDF/UA-1); import this late, typst is heavy."""

from collections.abc import Sequence
from datetime import datetime

from app.files.pdf import made_pdf
from app.files.statement_pdf import CHECK
from app.wording.languages import ENGLISH, Language
from curriculum.faults import N_

WHAT, HOW = N_("What"), N_("How it stands")


def transcript_pdf(  # noqa: PLR0913 - what stands on the page
    name: str,
    programme: str,
    school: str,
    says: str,
    sections: Sequence[tuple[str, Sequence[tuple[str, str]]]],
    root: str,
    on: datetime,
    made: str,
    language: Language = ENGLISH,
) -> bytes:
    """Every section with its rows (what, how it stands), and the root of the record it was made from.

    `on` is when it is made, with its time zone; the same arguments give the same bytes.
    """
    if on.tzinfo is None:
        raise ValueError("on needs a time zone")
    data = {
        **language.printed(),
        "title": name,
        "programme": programme,
        "school": school,
        "day": made,
        "says": says,
        "sections": [{"heading": heading, "rows": [list(row) for row in rows]} for heading, rows in sections],
        "labels": {"what": language(WHAT), "how": language(HOW)},
        "check": language(CHECK),
        "root": root,
    }
    return made_pdf("transcript.typ", data, int(on.timestamp()))
