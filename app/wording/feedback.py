"""Feedback on taught lessons in words."""

from curriculum.competencies.feedback import Level
from curriculum.faults import N_

LEVELS: dict[Level, str] = {
    "with-help": N_("With help throughout"),
    "with-a-word": N_("With a word now and then"),
    "alone": N_("Alone"),
}
WHOLE = N_("The whole lesson")
ERASED = N_("These words were erased on request.")
