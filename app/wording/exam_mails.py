"""What the school's mail says about exams."""

from app.wording.languages import Language
from curriculum.faults import N_

EXAM_SET = N_("Your exam: {practical}, {day}")
SET_FOR_CANDIDATE = N_("Your exam “{practical}” is on {day} at {time}{place}.")
SET_FOR_EXAMINER = N_("You examine {candidate}: “{practical}”, on {day} at {time}{place}.")
PLACE = N_(" ({room})")
MAY_DECLINE = N_("If anything stands between you and the candidate, tell the school before the day.")
ASK = N_("If you need anything changed for the day, tell the school.")
DECIDED = N_("Your exam is decided: {practical}")
DECIDED_WORDS = N_("Your exam “{practical}” of {day} is decided: {outcome}.")
REASON = N_("The reason: {reason}")


def exam_set(
    practical: str, day: str, time: str, room: str, candidate: str, for_candidate: bool, language: Language
) -> tuple[str, str]:
    """Subject and words of the mail to a candidate or an examiner about an exam that is set."""
    place = language(PLACE, room=room) if room else ""
    shown = {"practical": practical, "day": day, "time": time, "place": place}
    sentence = SET_FOR_CANDIDATE if for_candidate else SET_FOR_EXAMINER
    more = {} if for_candidate else {"candidate": candidate}
    words = f"{language(sentence, **shown, **more)}\n\n{language(ASK if for_candidate else MAY_DECLINE)}\n"
    return language(EXAM_SET, practical=practical, day=day), words


def exam_decided(practical: str, day: str, outcome: str, reason: str, language: Language) -> tuple[str, str]:
    """Subject and words of the mail to a candidate about a decision."""
    said = language(DECIDED_WORDS, practical=practical, day=day, outcome=outcome)
    return language(DECIDED, practical=practical), f"{said}\n\n{language(REASON, reason=reason)}\n"
