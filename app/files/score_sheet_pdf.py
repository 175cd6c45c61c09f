"""Score sheets on paper as a tagged PDF (PDF/UA-1); import this late, typst is heavy."""

from collections.abc import Sequence
from datetime import datetime

from app.files.pdf import made_pdf
from app.wording.languages import ENGLISH, Language
from curriculum.faults import N_

LABELS = {
    "sheet": N_("Score sheet on paper"),
    "examiner": N_("Examiner"),
    "alone": N_("Score alone. Ring one level for each criterion; where there is none, write why: not seen, not reached, declined with a good reason."),
    "type_in": N_("Type it in under “Paper sheets”, with this code:"),
    "criterion": N_("Criterion"),
    "level": N_("Level, or why none"),
    "grade": N_("Global grade, before any sum"),
    "exercise": N_("Exercise"),
    "noticed": N_("Tick only what is noteworthy"),
    "critical": N_("Critical faults: tick only what you saw yourself"),
    "when": N_("Minutes since the start"),
    "seen": N_("What you saw"),
    "stepped": N_("Stepping in for safety"),
    "why": N_("Why, and whether the exam went on"),
    "note": N_("Note"),
    "signed": N_("Signed, day and time"),
    "adjusted": N_("Adjusted for this candidate:"),
    "keep": N_("The paper is kept with the exam's papers."),
    "fault": N_("Fault"),
}  # fmt: skip
TITLE = N_("Score sheets on paper: {candidate}, {practical}")


def score_sheet_pdf(
    sheets: Sequence[dict[str, object]], school: str, on: datetime, language: Language = ENGLISH
) -> bytes:
    """A sheet after the other, each from its own page; the same arguments give the same bytes.

    `sheets` are plain values as `printed_sheets` makes them; `on` is when it is made, with its time zone.
    """
    if on.tzinfo is None:
        raise ValueError("on needs a time zone")
    first = sheets[0]
    data = {
        **language.printed(),
        "title": language(TITLE, candidate=first["candidate"], practical=first["practical"]),
        "school": school,
        "labels": {key: language(text) for key, text in LABELS.items()},
        "sheets": list(sheets),
    }
    return made_pdf("score_sheet.typ", data, int(on.timestamp()))
