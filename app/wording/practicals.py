"""Practicals in words: how an outcome came about, and the words of state."""

from collections.abc import Mapping
from fractions import Fraction

from app.wording.languages import ENGLISH, Language
from assessments.practicals.deciding import Outcome
from assessments.practicals.result import Recommendation, Result, Step
from assessments.practicals.sheets import LeftOut, Manner, Noticed, SheetState
from curriculum.faults import N_

STEPS: Mapping[tuple[str, str], str] = {
    ("sheets", "met"): N_("All {wanted} sheets are in."),
    ("sheets", "open"): N_("{sent} of {wanted} sheets are in."),
    ("second-marked", "note"): N_("{by} has marked this exam as a further examiner; all sheets are averaged."),
    ("no-critical", "met"): N_("No critical fault."),
    ("critical-confirmed", "missed"): N_("Critical fault “{fault}”, seen by {by}: not a pass, whatever the score."),
    ("critical-seen-by-one", "open"): N_("Critical fault “{fault}” was seen by {by} alone: a further examiner marks."),
    ("critical-not-confirmed", "note"): N_("Critical fault “{fault}”, seen by {by}, was not confirmed."),
    ("stepped-in", "note"): N_("{by} stepped in at {at}: {why}. The exam went on."),
    ("stopped", "note"): N_("{by} stepped in at {at}: {why}. The exam did not go on."),
    ("left-out", "note"): N_("{share} % was left out and weighs nothing; up to {most} % may be."),
    ("left-out", "missed"): N_("{share} % was left out, more than {most} %: the exam is not completed."),
    ("part-floor", "met"): N_("{title}: {per_cent} %, at or above its floor of {floor} %."),
    ("part-floor", "missed"): N_("{title}: {per_cent} %, below its floor of {floor} %."),
    ("criterion-floor", "met"): N_("{title}: {per_cent} %, at or above its floor of {floor} %."),
    ("criterion-floor", "missed"): N_("{title}: {per_cent} %, below its floor of {floor} %."),
    ("group-floor", "met"): N_("{title}, taken together: {per_cent} %, at or above the floor of {floor} %."),
    ("group-floor", "missed"): N_("{title}, taken together: {per_cent} %, below the floor of {floor} %."),
    ("floor-unseen", "note"): N_("{title}: nothing was seen, so its floor of {floor} % is held against nothing."),
    ("total", "met"): N_("Total {total} %, cut score {cut} %."),
    ("total", "missed"): N_("Total {total} %, below the cut score of {cut} %."),
    ("too-close", "open"): N_("Total {total} %, within {band} of the cut score of {cut} %: too close to call."),
    ("total-inside-band", "met"): N_("Total {total} % after further marking, within {band} above the cut of {cut} %."),
    ("total-inside-band", "missed"): N_(
        "Total {total} % after further marking, within {band} below the cut of {cut} %."
    ),
    ("capped", "note"): N_("A further attempt: the total of {total} % counts as {cut} %."),
    ("together", "met"): N_("The examiners are {gap} marks apart; up to {most} is close enough."),
    ("apart", "open"): N_("The examiners are {gap} marks apart, or far apart on one criterion: they talk first."),
    ("still-apart", "open"): N_("After talking the examiners are still {gap} marks apart: a further examiner marks."),
    ("apart-second-marked", "note"): N_("The first examiners were {gap} marks apart; a further examiner has marked."),
}

RECOMMENDATIONS: Mapping[Recommendation, str] = {
    Recommendation.WAITING: N_("waiting for sheets"),
    Recommendation.TALK: N_("the examiners talk"),
    Recommendation.SECOND_MARKING: N_("second marking"),
    Recommendation.NOT_COMPLETED: N_("not completed"),
    Recommendation.FAIL: N_("fail"),
    Recommendation.REFER: N_("refer"),
    Recommendation.PASS: N_("pass"),
}
OUTCOMES: Mapping[Outcome, str] = {
    Outcome.PASS: N_("pass"),
    Outcome.REFER: N_("refer"),
    Outcome.FAIL: N_("fail"),
    Outcome.VOID: N_("void"),
    Outcome.NOT_COMPLETED: N_("not completed"),
}
VOID_CAUSES: Mapping[str, str] = {
    "broken-machine": N_("a machine broke"),
    "illness": N_("illness"),
    "leaked-list": N_("the exercise list had become known"),
    "lost-record": N_("the record was lost"),
    "no-client": N_("no client came"),
    "set-in-error": N_("the exam was set in error"),
}
SHEET_STATES: Mapping[SheetState, str] = {
    SheetState.ON_DEVICE: N_("on this device"),
    SheetState.SENT: N_("sent"),
    SheetState.REPLACED: N_("replaced"),
    SheetState.VOID: N_("void"),
}
LEFT_OUT: Mapping[LeftOut, str] = {
    LeftOut.NOT_SEEN: N_("not seen"),
    LeftOut.NOT_REACHED: N_("not reached"),
    LeftOut.DECLINED: N_("declined with good reason"),
}
MANNERS: Mapping[Manner, str] = {
    Manner.DONE: N_("done"),
    Manner.NOT_DONE: N_("not done"),
    Manner.AFTER_PROMPT: N_("only after a prompt"),
}
NOTICED: Mapping[Noticed, str] = {
    Noticed.FAULT_MISSED: N_("fault missed"),
    Noticed.FAULT_MENDED: N_("fault seen and mended"),
    Noticed.PROMPTED: N_("prompted"),
    Noticed.OUT_OF_ORDER: N_("out of order"),
    Noticed.LEFT_OUT: N_("left out"),
    Noticed.SWAPPED: N_("swapped"),
    Noticed.DECLINED: N_("declined with good reason"),
}
PART_KINDS: Mapping[str, str] = {
    "one-to-one": N_("taught one-to-one"),
    "group": N_("small-group class"),
    "performance": N_("own performance"),
    "drawn": N_("drawn exercises"),
    "sight-read": N_("exercises seen at the start"),
    "oral": N_("oral"),
    "written": N_("written programme"),
}
CUT_METHODS: Mapping[str, str] = {
    "fixed": N_("a fixed mark"),
    "angoff": N_("judges' estimates for a just-passing candidate"),
    "borderline-group": N_("the marks of candidates graded borderline"),
    "borderline-regression": N_("regression of marks on global grades, read at borderline"),
    "contrasting-groups": N_("where passing and failing grades are equally likely"),
    "hofstee": N_("what judges could accept, met with how many fail"),
    "beuk": N_("the judges' mark and the share they expect to pass, weighed against each other"),
}


def step_sentence(step: Step, names: Mapping[str, str] | None = None, language: Language = ENGLISH) -> str:
    """One step as a sentence; `names` turns examiners' ids and critical faults' codes into words."""
    names = names or {}
    shown = {key: _shown(key, value, names, language) for key, value in step.values.items()}
    return language(STEPS[step.code, step.state], **shown)


def how_it_came_about(
    result: Result, names: Mapping[str, str] | None = None, language: Language = ENGLISH
) -> list[str]:
    """Every step of a result in order."""
    return [step_sentence(step, names, language) for step in result.steps]


def marks(value: Fraction, language: Language = ENGLISH) -> str:
    """A mark with at most one decimal, rounded down: never shown as reaching what it does not."""
    tenths = int(value * 10 // 1)
    return language.figure(tenths // 10 if tenths % 10 == 0 else tenths / 10)


def band_sentence(half: float, measured: bool, language: Language = ENGLISH) -> str:
    """How far "too close to call" reaches, and what says so."""
    return language(SEASONS_BAND if measured else RULES_BAND, half=language.figure(round(half, 1)))


SEASONS_BAND = N_("“Too close to call” reaches {half} marks either side of the cut: the season's own error.")
RULES_BAND = N_("“Too close to call” reaches {half} marks either side of the cut, as the practical's rules say.")


def elapsed(seconds: int) -> str:
    """Time since the start as minutes and seconds: `12:05`."""
    return f"{seconds // 60}:{seconds % 60:02d}"


def _shown(key: str, value: object, names: Mapping[str, str], language: Language) -> object:
    if key == "at":
        return elapsed(value)
    if key == "band":
        return language.figure(round(float(value), 1))
    if isinstance(value, Fraction):
        return marks(value, language)
    if isinstance(value, tuple):
        return language.listed([names.get(one, one) if isinstance(one, str) else ": ".join(one) for one in value])
    return names.get(value, value) if isinstance(value, str) and key in ("by", "fault") else value
