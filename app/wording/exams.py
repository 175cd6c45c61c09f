"""Exams in words: how one stands, what stands between people, what was waived."""

from collections.abc import Mapping

from app.wording.languages import Language
from app.wording.practicals import OUTCOMES
from assessments.practicals.deciding import Outcome
from curriculum.faults import N_

STATES: Mapping[str, tuple[str, str]] = {
    "coming": (N_("set"), "quiet"),
    "seat-open": (N_("a place on the panel is open"), "behind"),
    "today": (N_("today"), "waiting"),
    "waiting": (N_("{sent} of {wanted} sheets sent"), "waiting"),
    "talk": (N_("examiners are apart and talk"), "waiting"),
    "second-marking": (N_("needs a second marking"), "waiting"),
    "set-aside": (N_("set aside, to decide"), "waiting"),
    "to-decide": (N_("to decide"), "waiting"),
}
TIES: Mapping[tuple[str, bool], str] = {
    ("taught", False): N_("{person} teaches {candidate}."),
    ("taught", True): N_("{person} taught {candidate}, last on {day}."),
    ("hosted", False): N_("{person} hosts {candidate}."),
    ("hosted", True): N_("{person} hosted {candidate}, last on {day}."),
    ("examined", True): N_("{person} examines {candidate}: {day}."),
    ("related", False): N_("{person} is related to {candidate}."),
    ("related", True): N_("{person} is related to {candidate}."),
}
TIE_KINDS: Mapping[str, str] = {
    "taught": N_("teaches or taught the candidate"),
    "related": N_("is related to the candidate"),
}
WAIVED: Mapping[str, str] = {
    "taught": N_("{person} examines although they taught the candidate. {by} allowed it on {at}: {reason}"),
    "hosted": N_("{person} examines although they hosted the candidate. {by} allowed it on {at}: {reason}"),
    "related": N_("{person} examines although they are related to the candidate. {by} allowed it on {at}: {reason}"),
    "uncalibrated": N_("{person} examines without a calibration that holds. {by} allowed it on {at}: {reason}"),
    "invited": N_("{person} is invited from outside the school. {by} decided it on {at}: {reason}"),
    "decides": N_("{person} decides although something stands between them and the candidate ({at}): {reason}"),
}

LACKS = N_("{name} (no calibration that holds on this day)")
WAIVES: Mapping[str, str] = {
    "tied-taught": N_("{person} taught this candidate."),
    "tied-hosted": N_("{person} hosted this candidate."),
    "tied-related": N_("{person} is related to this candidate."),
    "uncalibrated": N_("{person} has no calibration that holds."),
}


def exam_state(code: str, values: Mapping[str, object], language: Language) -> tuple[str, str]:
    """The words for how an exam stands, and the kind of state that supports them."""
    if code == "decided":
        outcome = Outcome(values["outcome"])
        kind = {Outcome.PASS: "done", Outcome.FAIL: "behind"}.get(outcome, "quiet")
        return language(OUTCOMES[outcome]), kind
    sentence, kind = STATES[code]
    return language(sentence, **values), kind
