"""Host teachers in words: their levels, how they stand, and what was done about them."""

from collections.abc import Mapping

from app.wording.languages import Language
from curriculum.faults import N_

LEVELS: Mapping[str, str] = {"comprehensive": N_("Mat and apparatus"), "mat": N_("Mat only")}
STANDINGS: Mapping[str, tuple[str, str]] = {
    "eligible": (N_("eligible"), "done"),
    "coming": (N_("not eligible yet"), "quiet"),
    "paused": (N_("paused"), "waiting"),
    "ended": (N_("no longer eligible"), "quiet"),
}
EVENTS: Mapping[str, str] = {
    "host-added": N_("Put on the register"),
    "host-changed": N_("Changed: {fields}"),
    "host-eligibility-ended": N_("Eligibility ended on {day}"),
    "host-paused": N_("Paused"),
    "host-resumed": N_("Offered to trainees again"),
    "host-link-sent": N_("Link sent"),
    "host-pin-set": N_("The host set a PIN"),
    "host-pin-ended": N_("The PIN ended"),
    "words-erased": N_("Own words erased on request"),
    "host-terms-set": N_("The host set how many observers they take, and whether to be asked first"),
    "host-and-trainee": N_("A trainee asked, or was taken or declined"),
    "host-place": N_("A place in a lesson was asked for, taken, declined or given back"),
    "host-link-renewed": N_("The host had a new link sent"),
}
STANDING_WITH: Mapping[str, str] = {
    "asked": N_("asked on {at}"),
    "taken": N_("taken on {at}"),
    "declined": N_("declined on {at}"),
}
FIELDS: Mapping[str, str] = {
    "email": N_("mail address"),
    "site": N_("site"),
    "level": N_("level"),
    "verified_on": N_("first day of eligibility"),
    "eligible_until": N_("last day of eligibility"),
    "person_id": N_("person of the school"),
}


def at_once_text(number: int, most: int, language: Language) -> str:
    """That more trainees watched at once than the host takes."""
    return language.ngettext(
        "{number} trainee watched at once; you take {most}", "{number} trainees watched at once; you take {most}", number,
        most=language.figure(most),
    )  # fmt: skip
