"""Judges' rounds in words: mails, how a pass mark came about, how judges moved."""

from app.wording.faults import fault_text
from app.wording.languages import ENGLISH, Language
from assessments.measurement.angoff_rounds import RoundChange
from assessments.measurement.statistic import Statistic
from curriculum.faults import N_

SUBJECT = N_("Judging the pass mark of {title}")
ASKED = N_(
    "You are asked to judge the pass mark of {title}. Picture a candidate who only just passes, and say block by block "
    "what mark that candidate would get. Answer alone; the answers are shown when all have answered."
)
HOW = N_("{judges} judges pictured a candidate who just passes, block by block, in {rounds}. {reason}")
ROUNDS = {1: N_("one round"), 2: N_("two rounds with a talk between them")}
CUT = N_("The judges' pass mark is {cut} % (likely range {low} to {high}).")
HELD = N_("There is no pass mark of the panel yet: {why}.")
RAISED = N_("Since the first round the judges raised the pass mark by {by}.")
LOWERED = N_("Since the first round the judges lowered the pass mark by {by}.")
CLOSER = N_("They came closer together: the spread of their own marks fell from {before} to {after}.")
WIDER = N_("They did not come closer together: the spread of their own marks was {before} and is {after}.")
STATES = {
    (1, True): N_("first round open"),
    (1, False): N_("first round over: talk, then judge again"),
    (2, True): N_("second round open"),
    (2, False): N_("second round over"),
}
DECIDED = N_("decided")
A_JUDGE, YOU = N_("Another judge"), N_("You")
WHOLE = N_("The whole practical")
SPREAD = N_("from {low} to {high}, on average {mean}")
# What a judge could accept (`assessments.season.compromise.BOUNDS`): the question, and what it is counted in.
BOUNDS = {
    "lowest": (N_("Lowest pass mark you could accept"), "%"),
    "highest": (N_("Highest pass mark you could accept"), "%"),
    "fewest": (N_("Fewest candidates that may fail"), N_("of 100")),
    "most": (N_("Most candidates that may fail"), N_("of 100")),
    "passing": (N_("Candidates you expect to pass"), N_("of 100")),
}
FAR = N_("far from the other judges' pass marks")
AT_ODDS = N_("sees which blocks are hard quite unlike the others")


def asked_to_judge(title: str, language: Language) -> tuple[str, str]:
    """Subject and words of the mail to a judge."""
    return language(SUBJECT, title=title), language(ASKED, title=title)


def how_text(judges: int, rounds: int, reason: str, language: Language = ENGLISH) -> str:
    """How a pass mark came about, as the practical's edition says it."""
    return language(HOW, judges=judges, rounds=language(ROUNDS[rounds]), reason=reason)


def panel_texts(cut: Statistic, change: RoundChange | None, language: Language) -> list[str]:
    """What a round comes to, and how the judges moved since the first."""
    if cut.estimate is None:
        return [language(HELD, why=fault_text(cut.withheld, language))]
    values = {name: language.decimal(getattr(cut, name), 1) for name in ("low", "high")}
    lines = [language(CUT, cut=language.decimal(cut.estimate, 1), **values)]
    if change is not None:
        by = language.decimal(abs(change.change.estimate), 1)
        lines.append(language(RAISED if change.change.estimate > 0 else LOWERED, by=by))
        spread = {"before": language.decimal(change.sd_before, 1), "after": language.decimal(change.sd_after, 1)}
        lines.append(language(CLOSER if change.sd_after < change.sd_before else WIDER, **spread))
    return lines
