"""Springs in words: the closest set on another machine."""

from app.wording.languages import ENGLISH, Language
from curriculum.faults import N_
from curriculum.sessions.spring_match import SpringMatch

CLOSE = N_("{machine}: {springs} differs by {worst} % at most, at {travel} m")
CLOSE_IN_GEAR = N_("{machine}: {springs}, gear {gear} differs by {worst} % at most, at {travel} m")
APART = N_(
    "{machine}: nothing within 15 %; the closest is {springs}, which differs by {worst} % at most, at {travel} m"
)
APART_IN_GEAR = N_(
    "{machine}: nothing within 15 %; the closest is {springs}, gear {gear}, which differs by {worst} % at most, "
    "at {travel} m"
)


def match_sentence(found: SpringMatch, target: str, language: Language = ENGLISH) -> str:
    """The closest set on the machine `target`, and its greatest difference over the travel."""
    worst, travel = language.figure(round(100 * found.worst_difference, 1)), language.figure(found.worst_at)
    close, apart = (CLOSE_IN_GEAR, APART_IN_GEAR) if found.gear else (CLOSE, APART)
    shown = {"springs": " + ".join(found.labels), "gear": found.gear, "worst": worst, "travel": travel}
    return language(close if found.close else apart, machine=target, **shown)
