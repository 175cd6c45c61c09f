"""The recording of an exam in words."""

from collections.abc import Mapping

from app.wording.languages import Language
from curriculum.faults import N_

STATES: Mapping[str, tuple[str, str]] = {
    "none": (N_("nothing is kept"), "quiet"),
    "declined": (N_("the candidate did not agree"), "quiet"),
    "kept": (N_("kept"), "done"),
    "due": (N_("to be deleted now"), "behind"),
    "deleted": (N_("deleted"), "quiet"),
}
WITHOUT: Mapping[str, str] = {
    "third-examiner": N_("Without a recording a third examiner sits in the room."),
    "fresh-exam": N_("Without a recording a fresh exam, which uses no attempt, takes the place of a second marking."),
}
WHO_SEES = N_(
    "The director and a further examiner can open it, and whoever answers an appeal; each opening is on record. Nobody else."
)
KEPT_DAYS = N_("It is deleted {days} days after the decision, later only while an appeal is open.")
UNTIL = N_("To be deleted on {day}.")
DUE_SUBJECT = N_("Recordings to be deleted")
DUE_WORDS = N_(
    "The time for an appeal is over: {number} recordings of exams have to be deleted from the school's store.\n\n"
    "Delete each there, then note it on its page."
)


def due_mail(number: int, language: Language) -> tuple[str, str]:
    """Subject and words of the mail to directors."""
    return language(DUE_SUBJECT), language(DUE_WORDS, number=language.figure(number))
