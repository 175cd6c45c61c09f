"""Score sheets in words: how one stands, what is to do, what became of it after talking."""

from collections.abc import Mapping

from app.wording.languages import Language
from curriculum.faults import N_

# By standing: the group of the list, the state, the kind that supports it, and what is to do.
STANDINGS: Mapping[str, tuple[str, str, str, str]] = {
    "to-score": ("do", N_("to score"), "waiting", N_("Score it, alone.")),
    "begun": ("do", N_("begun, not sent"), "waiting", N_("Finish your sheet and send it.")),
    "talk": (
        "do",
        N_("to talk over"),
        "waiting",
        N_("The sheets are apart: talk, then keep or change yours with a reason."),
    ),
    "coming": ("coming", N_("set"), "quiet", N_("Read what is judged; the sheet is open on the day.")),
    "others": ("sent", N_("sent"), "done", N_("Nothing to do: the others have not sent theirs yet.")),
    "talked": ("sent", N_("sent"), "done", N_("Nothing to do: your colleague still keeps or changes theirs.")),
    "sent": ("sent", N_("sent"), "done", N_("Nothing to do: the school decides.")),
    "decided": ("decided", N_("decided"), "quiet", N_("Nothing to do.")),
}
AFTER_TALKING: Mapping[str, str] = {
    "": N_("Version {number}, {at}."),
    "kept": N_("Version {number}, {at}. Kept after talking: {reason}"),
    "changed": N_("Version {number}, {at}. Changed after talking: {reason}"),
}
FROM_PAPER = N_("Typed in from paper by {by}.")


def still_open(number: int, language: Language) -> str:
    """How many criteria have neither a level nor a reason."""
    return language.ngettext("{number} criterion is still open", "{number} criteria are still open", number)
