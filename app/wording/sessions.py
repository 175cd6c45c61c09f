"""Sessions in words: what was done, where, how, and where the session stands. School settings may rename them."""

from collections.abc import Iterable

from app.wording.languages import Language
from assessments.hours.session import Part
from curriculum.faults import N_

ACTIVITIES = {
    "observation": N_("Observed a teacher"),
    "self_practice": N_("Own practice"),
    "assisting": N_("Assisted"),
    "practice_teaching": N_("Practice teaching"),
    "supervised_teaching": N_("Supervised teaching"),
    "workshop": N_("Workshop or lecture"),
}
APPARATUS = {
    "mat": N_("Mat"),
    "reformer": N_("Reformer"),
    "trapeze_table": N_("Trapeze table"),
    "chair": N_("Chair"),
    "ladder_barrel": N_("Ladder barrel"),
    "spine_corrector": N_("Spine corrector"),
}
LEVELS = {"beginner": N_("Beginner"), "intermediate": N_("Intermediate"), "advanced": N_("Advanced")}
MODES = {
    "live": N_("In the room"),
    "live_remote": N_("Live, from afar"),
    "recorded": N_("Recorded"),
}
SETTINGS = {"private": N_("One-to-one"), "group": N_("Group")}
STAGES = {"beginner": N_("Beginner"), "experienced": N_("Experienced")}
STATES = {
    "not_sent": (N_("Not sent"), "quiet"),
    "waiting": (N_("Waiting for signature"), "waiting"),
    "signed_off": (N_("Signed off"), "done"),
    "sent_back": (N_("Sent back"), "behind"),
    "withdrawn": (N_("Withdrawn"), "quiet"),
    "attested": (N_("Attested"), "done"),
    "registered": (N_("Registered"), "done"),
    "accepted": (N_("Accepted by the school"), "done"),
}
FIELDS = {
    "apparatus": N_("Apparatus"),
    "level": N_("Level"),
    "mode": N_("How"),
    "client": N_("Client code"),
    "client_stage": N_("Client is"),
    "site": N_("Where"),
    "setting": N_("Lesson"),
}
DECISIONS = {
    "signed_off": N_("Signed off"),
    "sent_back": N_("Sent back"),
    "denied": N_("Not taught by this host"),
    "disowned": N_("Signature taken back: not by this host"),
}


def in_words(value: str, words: dict[str, str], language: Language) -> str:
    """A field's value for people; a value of the school's own is shown as it is, without its underscores."""
    return language(words[value]) if value in words else value.replace("_", " ").capitalize()


def part_text(part: Part, language: Language) -> str:
    """What was done, and on which apparatus."""
    activity = in_words(part.activity, ACTIVITIES, language)
    if not part.apparatus:
        return activity
    return language(
        N_("{activity}: {apparatus}"), activity=activity, apparatus=in_words(part.apparatus, APPARATUS, language)
    )


def parts_text(parts: Iterable[Part], language: Language) -> str:
    """All that was done in a session."""
    return " · ".join(part_text(part, language) for part in parts)
