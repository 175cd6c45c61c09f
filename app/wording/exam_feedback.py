"""Feedback on an exam in words."""

from collections.abc import Mapping

from app.wording.languages import Language
from assessments.practicals.sheets import Noticed
from curriculum.faults import N_

TOGETHER = N_("Your examiners scored alone; what stands here is their sheets taken together.")
AT_THE_BEST = N_("Keep it, and teach it in bodies that you do not know yet.")
NOT_SCORED = N_("Not scored: it was not seen, not reached, or left out with good reason.")
NEEDS_REACH = N_("For the next level: {sentence}")
WEAKEST = N_("Weakest in: {blocks}")
CRITICAL_NEXT = N_("Before you teach this again, show the school how you prevent it.")
WHICH_FAULT = N_("Which fault it was is not on the sheets. These are the ones to look for first, and what mends each:")
IN_ORDER = N_("It comes after {before}.")
FIRST_IN_ORDER = N_("It begins its apparatus.")
PRACTISE = N_("Practise: {drill}")
READ_AGAIN = N_("Read its page again and teach it once from the set-up to getting off.")
WORK_ON: Mapping[Noticed, str] = {
    Noticed.FAULT_MISSED: N_("A fault was missed."),
    Noticed.PROMPTED: N_("It needed a prompt."),
    Noticed.OUT_OF_ORDER: N_("It came out of order."),
    Noticed.LEFT_OUT: N_("It was left out."),
}
PART_WITH_FLOOR = N_("{per_cent} %, floor {floor} %")
PART = N_("{per_cent} %")
CAPPED = N_("Total {total} %; on a further attempt it counts as the cut score of {cut} %")
TOTAL = N_("Total {total} %, cut score {cut} %")


def noticed_text(noticed: tuple[Noticed, ...], language: Language) -> str:
    """What was noticed on one exercise."""
    return " ".join(language(WORK_ON[one]) for one in noticed)
