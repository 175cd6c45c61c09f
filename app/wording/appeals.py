"""Appeals and complaints about exams in words."""

from collections.abc import Mapping

from curriculum.faults import N_

KINDS: Mapping[str, str] = {
    "appeal": N_("Appeal: the decision was wrong"),
    "complaint": N_("Complaint: something was not right"),
}
SHORT_KINDS: Mapping[str, str] = {"appeal": N_("Appeal"), "complaint": N_("Complaint")}
GROUNDS: Mapping[str, str] = {
    "procedure": N_("the exam was not held as its rules say"),
    "bias": N_("somebody was not impartial"),
    "error": N_("something was recorded or added up wrongly"),
    "circumstance": N_("something could not be told before the exam and bears on it"),
}
VERDICTS: Mapping[str, str] = {"upheld": N_("upheld"), "not-upheld": N_("not upheld")}
STATES: Mapping[str, tuple[str, str]] = {
    "filed": (N_("waits for somebody to decide"), "waiting"),
    "assigned": (N_("being looked into"), "waiting"),
    "late": (N_("overdue since {day}"), "behind"),
    "decided": (N_("ended"), "done"),
    "withdrawn": (N_("withdrawn"), "quiet"),
}
MAY: Mapping[str, str] = {
    "raise": N_("raise the outcome"), "keep": N_("keep it"), "lower": N_("lower it"),
}  # fmt: skip
RULES = N_(
    "Until {until}. It is decided by {answer} days after you send it, by somebody who neither examined nor decided. It may {may}, as the practical's rules say; that is the end of it."
)
STAYS = N_("The outcome stays: {outcome}")
BECOMES = N_("The outcome is now: {outcome}")
FILED = (N_("{kind} about an exam"), N_("There is something to read and to assign by {day}: {address}"))
ASSIGNED = (N_("An exam's {kind} is yours to decide"), N_("Read it, and decide by {day} with your reason: {address}"))
ENDED = (N_("Your {kind} is decided"), N_("{outcome}. The reason stands on the exam's page: {address}"))
