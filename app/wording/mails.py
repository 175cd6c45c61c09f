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
