"""Host teachers in words: their levels, how they stand, and what was done about them."""

from collections.abc import Mapping

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
    "host-link-renewed": N_("The host had a new link sent"),
}
FIELDS: Mapping[str, str] = {
    "email": N_("mail address"),
    "site": N_("site"),
    "level": N_("level"),
    "verified_on": N_("first day of eligibility"),
    "eligible_until": N_("last day of eligibility"),
    "person_id": N_("person of the school"),
}
