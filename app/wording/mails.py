"""What the school's mail says."""

from datetime import date

from app.wording.dates import day_text
from app.wording.languages import Language
from curriculum.faults import N_

HOURS_TO_SIGN = N_("Hours to sign for {school}")
ASKED_TO_SIGN = N_("{trainee} was in your lesson and asks you to sign the hours.")
SIGN_HERE = N_("Read and sign here (no account needed):")
SHOWS_ALL = N_("The link is yours alone. It shows every session that waits for you.")
LINK_AGAIN = N_("Your link to sign hours for {school}")
STILL_WAIT = N_("Hours still wait for your signature: {school}")
ROOT_OF = N_("Root of the record of {school}, {day}")
ROOT_WORDS = N_("The record of {school} has {events} events. Its root is:")
KEEP_IT = N_("Keep this mail: with it anybody can check later that nothing of the record up to here was changed.")
AUDIT_FAILED = N_("The record of {school} does not hold")
AUDIT_WORDS = N_(
    "The nightly audit of the record found what should not be. Change nothing, keep a copy, and look into it:"
)
HOST_TOLD = N_("A host teacher of {school} told the school something")
HOST_TOLD_WORDS = N_("It is for directors alone, so it does not stand in this mail. Sign in and read it here:")
PIN_SET = N_("Your PIN for {school} is set")
PIN_SET_WORDS = N_("With it you can sign on the spot, from a code on a trainee's screen. The school can't read it.")
PIN_NOT_ME = N_("If it was not you who set it, end it here at once, and tell the school:")
PIN_ENDED = N_("Your PIN for {school} was tried too often")
PIN_ENDED_WORDS = N_("Somebody gave a wrong PIN many times, so it is over. Nothing was signed. Set a new one here:")
ON_THE_SPOT = N_("You signed on the spot for {school}")
ON_THE_SPOT_WORDS = N_("With your PIN you signed hours of {trainee}: {when}. Receipt: {receipt}.")
NOT_ME = N_("If that was not you, take it back here at once:")
ASKS_TO_COME = N_("A trainee of {school} asks to come to you")
ASKS_WORDS = N_("{trainee} would like to come to your lessons. Take or decline them here (no account needed):")
TAKEN = N_("{host} takes you: {school}")
TAKEN_WORDS = N_("{host} takes you as a trainee. Agree the day with them before you come.")
NOT_TAKEN = N_("{host} can't take you: {school}")
NOT_TAKEN_WORDS = N_("{host} can't take you at the moment. Choose another host teacher, or ask the school.")
SENT_AGAIN = N_("{school} sends you your link to sign the hours of its trainees.")


def hours_to_sign(school: str, trainee: str, link: str, days: int, language: Language) -> tuple[str, str]:
    """Subject and words of the mail that asks a host to sign; `link` works for so many days."""
    works = language.ngettext("It works for {number} day.", "It works for {number} days.", days)
    asked = language(ASKED_TO_SIGN, trainee=trainee)
    words = f"{asked}\n\n{language(SIGN_HERE)}\n{link}\n\n{language(SHOWS_ALL)} {works}\n"
    return language(HOURS_TO_SIGN, school=school), words


def link_again(school: str, link: str, days: int, language: Language) -> tuple[str, str]:
    """Subject and words of the mail by which the school sends a host a new link."""
    works = language.ngettext("It works for {number} day.", "It works for {number} days.", days)
    sent = language(SENT_AGAIN, school=school)
    words = f"{sent}\n\n{language(SIGN_HERE)}\n{link}\n\n{language(SHOWS_ALL)} {works}\n"
    return language(LINK_AGAIN, school=school), words


def hours_still_wait(  # noqa: PLR0913 - what the mail says
    school: str, number: int, oldest: date, link: str, days: int, language: Language
) -> tuple[str, str]:
    """Subject and words of the mail that reminds a host of `number` sessions, the first sent on the day `oldest`."""
    works = language.ngettext("It works for {number} day.", "It works for {number} days.", days)
    waits = language.ngettext(
        "{number} session of trainees of {school} waits for your signature, since {day}.",
        "{number} sessions of trainees of {school} wait for your signature, the first since {day}.",
        number,
        school=school,
        day=day_text(oldest, language.locale),
    )
    words = f"{waits}\n\n{language(SIGN_HERE)}\n{link}\n\n{language(SHOWS_ALL)} {works}\n"
    return language(STILL_WAIT, school=school), words


def root_of_the_day(school: str, day: date, events: int, root: str, language: Language) -> tuple[str, str]:
    """Subject and words of the mail that tells a director the root of the record (in hexadecimal) on a day."""
    said = language(ROOT_WORDS, school=school, events=language.figure(events))
    subject = language(ROOT_OF, school=school, day=day_text(day, language.locale))
    return subject, f"{said}\n\n{root}\n\n{language(KEEP_IT)}\n"


def audit_failed(school: str, found: tuple[str, ...], language: Language) -> tuple[str, str]:
    """Subject and words of the mail that tells a director what an audit found wrong, a line each."""
    lines = "\n".join(found)
    return language(AUDIT_FAILED, school=school), f"{language(AUDIT_WORDS)}\n\n{lines}\n"


def host_told(school: str, link: str, language: Language) -> tuple[str, str]:
    """Subject and words of the mail that tells a director that a host told something; `link` is where it stands."""
    return language(HOST_TOLD, school=school), f"{language(HOST_TOLD_WORDS)}\n{link}\n"


def pin_set(school: str, link: str, language: Language) -> tuple[str, str]:
    """Subject and words of the mail that tells a host that their PIN was set; `link` is where it can be ended."""
    return language(PIN_SET, school=school), f"{language(PIN_SET_WORDS)}\n\n{language(PIN_NOT_ME)}\n{link}\n"


def pin_ended(school: str, link: str, language: Language) -> tuple[str, str]:
    """Subject and words of the mail that tells a host that their PIN is over; `link` is where a new one is set."""
    return language(PIN_ENDED, school=school), f"{language(PIN_ENDED_WORDS)}\n{link}\n"


def signed_on_the_spot(  # noqa: PLR0913 - what the mail says
    school: str, trainee: str, when: str, receipt: str, link: str, language: Language
) -> tuple[str, str]:
    """Subject and words of the mail that tells a host what was signed with their PIN; `link` is their private link."""
    said = language(ON_THE_SPOT_WORDS, trainee=trainee, when=when, receipt=receipt)
    undo = f"{language(NOT_ME)}\n{link}/receipts/{receipt}/not-me"
    words = f"{said}\n\n{undo}\n\n{language(SHOWS_ALL)} {language(SIGN_HERE)}\n{link}\n"
    return language(ON_THE_SPOT, school=school), words


def asked_to_come(school: str, trainee: str, link: str, language: Language) -> tuple[str, str]:
    """Subject and words of the mail that tells a host that a trainee asks to be taken; `link` is where they answer."""
    return language(ASKS_TO_COME, school=school), f"{language(ASKS_WORDS, trainee=trainee)}\n{link}\n"


def taken_or_not(school: str, host: str, taken: bool, language: Language) -> tuple[str, str]:  # noqa: FBT001
    """Subject and words of the mail that tells a trainee whether a host takes them."""
    subject, words = (TAKEN, TAKEN_WORDS) if taken else (NOT_TAKEN, NOT_TAKEN_WORDS)
    return language(subject, host=host, school=school), language(words, host=host) + "\n"
