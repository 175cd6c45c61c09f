"""Hours in words: durations, and the reasons minutes are set aside."""

from app.wording.languages import ENGLISH, Language
from assessments.hours.standing import RuleStanding
from curriculum.faults import N_

REASONS = {
    "not_sent": N_("not sent for signature yet"),
    "waiting": N_("waiting for the host's signature"),
    "sent_back": N_("sent back by the host"),
    "withdrawn": N_("withdrawn"),
    "proof_not_accepted": N_("this category does not accept that kind of proof"),
    "no_category": N_("no category of the set takes such an entry"),
    "before_enrolment": N_("dated before enrolment"),
    "after_window": N_("dated after the end of the time allowed"),
    "lapsed": N_("too old: the hours have lapsed"),
    "after_as_of": N_("dated after the day of assessment"),
    "before_gate": N_("dated before the category was opened"),
    "rounded_down": N_("rounded down by the rule of the category"),
    "weighted": N_("such entries count only in part"),
    "day_cap": N_("more than one day may count"),
    "week_cap": N_("more than one week may count"),
    "session_cap": N_("more than one session may count"),
    "value_cap": N_("more than may count with one and the same host, client or other value"),
    "share_cap": N_("more than the share that this kind of time may have"),
    "part_cap": N_("more than this kind of time may count in the category"),
    "category_full": N_("the category is full"),
    "overall_cap": N_("more than this kind of time may count overall"),
    "other_rules": N_("the rules taken together leave no room for it"),
}
COURSES = {
    "complete": (N_("Complete in hours"), "done"),
    "over": (N_("Time is over"), "behind"),
    "behind": (N_("Behind plan"), "behind"),
    "on-course": (N_("On course"), "quiet"),
}


def hours(minutes: int, language: Language = ENGLISH) -> str:
    """Minutes as hours and minutes: `12 h 30 min`."""
    whole, rest = divmod(abs(minutes), 60)
    if whole and rest:
        shown = language(N_("{hours} h {minutes} min"), hours=language.figure(whole), minutes=rest)
    elif rest:
        shown = language(N_("{minutes} min"), minutes=rest)
    else:
        shown = language(N_("{hours} h"), hours=language.figure(whole))
    return f"−{shown}" if minutes < 0 else shown


def figure(rule: RuleStanding, value: int, language: Language = ENGLISH) -> str:
    """What a rule asks for or holds: a time, or a count of different values."""
    return hours(value, language) if rule.kind in ("of_which", "total") else language.figure(value)


def aside_text(minutes: int, reason: str, language: Language = ENGLISH) -> str:
    """How much is set aside, and why."""
    return language(N_("{time}: {why}"), time=hours(minutes, language), why=language(REASONS[reason]))
