"""Admission to an exam in words."""

from collections.abc import Mapping

from app.wording.languages import Language
from assessments.practicals.admission import Missing
from curriculum.faults import N_

CHECKS: Mapping[str, str] = {
    "prerequisites": N_("what comes before this practical"),
    "documents": N_("documents valid on the day"),
    "fees": N_("fees paid"),
    "identity": N_("identity seen"),
    "consent": N_("agreed to how the exam is held, and what is kept of it"),
}
LACKING: Mapping[str, str] = {
    "prerequisites": N_("Not done yet: {title}"),
    "documents": N_("No valid document on the day: {title}"),
    "fees": N_("Fees are not paid."),
    "identity": N_("Identity was not seen."),
    "consent": N_("The candidate has not agreed yet."),
}
VERDICTS: Mapping[str, str] = {
    "": N_("nothing yet"),
    "admitted": N_("admitted"),
    "waived": N_("what is missing is waived"),
}
NOT_ADMITTED = N_("The candidate is not admitted yet. The director admits, or waives what is missing with a reason.")


def missing_text(one: Missing, language: Language) -> str:
    """One thing that is missing."""
    return language(LACKING[one.check], title=one.title)
