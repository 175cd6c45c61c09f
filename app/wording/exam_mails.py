"""What the school's mail says about exams."""

from app.wording.languages import Language
from curriculum.faults import N_

EXAM_SET = N_("Your exam: {practical}, {day}")
SET_FOR_CANDIDATE = N_("Your exam “{practical}” is on {day} at {time}{place}.")
SET_FOR_EXAMINER = N_("You examine {candidate}: “{practical}”, on {day} at {time}{place}.")
PLACE = N_(" ({room})")
MAY_DECLINE = N_(
    "If anything stands between you and the candidate, or you can't come, decline under “My exams” and say why."
)
ASK = N_("If you need anything changed for the day, tell the school.")
MOVED = N_("The exam has moved: {practical}, {day}")
MOVED_WORDS = N_("The exam of {candidate}, “{practical}”, is now on {day} at {time}{place}.")
DECLINED = N_("A place on a panel is open: {candidate}, {day}")
DECLINED_WORDS = N_("{name} declined to examine {candidate} on {day}: {reason}")
DECLINED_NEXT = N_("Open the exam and seat somebody else.")
INVITED = N_("{school} asks you to examine: {day}")
INVITED_WORDS = N_("You are invited to examine {candidate}: “{practical}”, on {day} at {time}{place}.")
INVITED_LINK = N_("Your own link, without an account; it opens this exam and nothing else, until {until}:")
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


def seat_declined(name: str, candidate: str, day: str, reason: str, language: Language) -> tuple[str, str]:
    """Subject and words of the mail to directors about an examiner who declined."""
    said = language(DECLINED_WORDS, name=name, candidate=candidate, day=day, reason=reason)
    return language(DECLINED, candidate=candidate, day=day), f"{said}\n\n{language(DECLINED_NEXT)}\n"


def invited(  # noqa: PLR0913 - what the mail says
    school: str,
    practical: str,
    day: str,
    time: str,
    room: str,
    candidate: str,
    link: str,
    until: str,
    language: Language,
) -> tuple[str, str]:
    """Subject and words of the mail to an examiner invited from outside."""
    place = language(PLACE, room=room) if room else ""
    said = language(INVITED_WORDS, candidate=candidate, practical=practical, day=day, time=time, place=place)
    how = language(INVITED_LINK, until=until)
    return language(INVITED, school=school, day=day), f"{said}\n\n{how}\n{link}\n\n{language(MAY_DECLINE)}\n"


def exam_moved(practical: str, candidate: str, day: str, time: str, room: str, language: Language) -> tuple[str, str]:
    """Subject and words of the mail to everybody of an exam that begins at another time or in another room."""
    place = language(PLACE, room=room) if room else ""
    said = language(MOVED_WORDS, candidate=candidate, practical=practical, day=day, time=time, place=place)
    return language(MOVED, practical=practical, day=day), f"{said}\n"
