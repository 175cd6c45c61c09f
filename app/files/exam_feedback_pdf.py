"""Feedback on an exam as a tagged PDF (PDF/UA-1); import this late, typst is heavy."""

from collections.abc import Mapping
from datetime import datetime

from app.files.pdf import made_pdf
from app.wording import exam_feedback as words
from app.wording.languages import ENGLISH, Language
from curriculum.faults import N_

LABELS = {
    "sums": N_("What it came to"),
    "criteria": N_("Criterion by criterion"),
    "work_on": N_("What to work on, exercise by exercise"),
    "critical": N_("Critical faults"),
    "next_step": N_("Next step"),
    "sees": N_("To look for"),
    "mends": N_("What mends it"),
    "what": N_("What"),
    "how_much": N_("How much"),
    "declined": N_("Declined with good reason, which is right"),
    "mended": N_("Faults seen and mended in"),
    "together": words.TOGETHER,
    "critical_next": words.CRITICAL_NEXT,
    "which": words.WHICH_FAULT,
}
TITLE = N_("{practical}: {candidate}")


def exam_feedback_pdf(
    head: Mapping[str, str], feedback: Mapping[str, object], school: str, on: datetime, language: Language = ENGLISH
) -> bytes:
    """The feedback of one exam; the same arguments give the same bytes.

    `head` holds `practical`, `candidate`, `when`, `outcome` and `reason` in words, `feedback` the plain values of an
    `ExamFeedback`. `on` is when it is made, with its time zone; it becomes the file's date.
    """
    if on.tzinfo is None:
        raise ValueError("on needs a time zone")
    data = {
        **language.printed(),
        "title": language(TITLE, practical=head["practical"], candidate=head["candidate"]),
        "school": school,
        "head": dict(head),
        "labels": {key: language(text) for key, text in LABELS.items()},
        "feedback": dict(feedback),
    }
    return made_pdf("exam_feedback.typ", data, int(on.timestamp()))
