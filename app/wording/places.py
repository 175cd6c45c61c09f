"""Places in lessons in words: how they stand, whether there is one, and the mails that go with them."""

from collections.abc import Mapping

from app.wording.languages import Language
from curriculum.faults import N_

STANDINGS: Mapping[str, tuple[str, str]] = {
    "asked": (N_("asked, not answered yet"), "waiting"),
    "taken": (N_("you have the place"), "done"),
    "declined": (N_("declined"), "behind"),
    "given_back": (N_("given back"), "quiet"),
}
FOR_HOST: Mapping[str, tuple[str, str]] = {
    "asked": (N_("asks"), "waiting"),
    "taken": (N_("has the place"), "done"),
    "declined": (N_("declined"), "quiet"),
    "given_back": (N_("given back by the trainee"), "quiet"),
}
ASKS = N_("A trainee of {school} asks for a place on {day}")
ASKS_WORDS = N_(
    "{trainee} asks for a place in your lesson: {when}, {what}. Take or decline it here (no account needed):"
)
TAKEN = N_("You have the place with {host} on {day}")
TAKEN_WORDS = N_("{host} takes you: {when}, {what}. If you can't come, give the place back under Find a lesson.")
NOT_TAKEN = N_("No place with {host} on {day}")
NOT_TAKEN_WORDS = N_("{host} can't take you then: {when}, {what}. Choose another day or another host teacher.")
GIVEN_BACK = N_("A place on {day} is free again: {school}")
GIVEN_BACK_WORDS = N_("{trainee} can't come: {when}, {what}. Nothing more is to do. Your places stand here:")


def free_text(most: int, taken: int, language: Language) -> str:
    """How many of a host's places for observers are free."""
    return language.ngettext(
        "{free} of {number} observer's place free", "{free} of {number} observer's places free", most,
        free=language.figure(max(0, most - taken)),
    )  # fmt: skip


def asks_for_place(  # noqa: PLR0913 - what the mail says
    school: str, trainee: str, day: str, when: str, what: str, link: str, language: Language
) -> tuple[str, str]:
    """Subject and words of the mail that tells a host that a place is asked for; `link` is where they answer."""
    words = language(ASKS_WORDS, trainee=trainee, when=when, what=what)
    return language(ASKS, school=school, day=day), f"{words}\n{link}\n"


def place_answered(  # noqa: PLR0913 - what the mail says
    host: str, day: str, when: str, what: str, language: Language, *, take: bool
) -> tuple[str, str]:
    """Subject and words of the mail that tells a trainee whether they have the place."""
    subject, words = (TAKEN, TAKEN_WORDS) if take else (NOT_TAKEN, NOT_TAKEN_WORDS)
    return language(subject, host=host, day=day), language(words, host=host, when=when, what=what) + "\n"


def place_given_back(  # noqa: PLR0913 - what the mail says
    school: str, trainee: str, day: str, when: str, what: str, link: str, language: Language
) -> tuple[str, str]:
    """Subject and words of the mail that tells a host that a place they gave is free again."""
    words = language(GIVEN_BACK_WORDS, trainee=trainee, when=when, what=what)
    return language(GIVEN_BACK, school=school, day=day), f"{words}\n{link}\n"
