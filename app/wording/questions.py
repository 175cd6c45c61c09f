"""What is asked about a log, in words: a question, never an accusation."""

from assessments.hours.oddities import Kind
from curriculum.faults import N_

ASKED: dict[Kind, str] = {
    "two-places": N_("{name} has two sessions at the same time. Which of them was it, or when was the other?"),
    "travel": N_("{name} has hardly any time between two sites. When did the one end and the other begin?"),
    "full-day": N_("{name} is to sign for more than ten hours of one day. Was it such a long day?"),
    "host-elsewhere": N_("{name} is to sign for two sites at the same time. At which of them was it?"),
    "copied-notes": N_("{name} has the same note on several days. Is it a habit of writing, or were notes copied?"),
    "long-after": N_("{name} put this down more than four weeks after the fact. What was it written from?"),
    "in-one-go": N_("{name} put many days down at once. What was it written from?"),
}
