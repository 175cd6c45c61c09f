"""Certificates in words: their state, what was done with them, the mails about it."""

from collections.abc import Mapping

from app.wording.languages import Language
from curriculum.faults import N_

STATES: Mapping[str, tuple[str, str]] = {
    "valid": (N_("valid"), "done"),
    "expired": (N_("expired"), "quiet"),
    "suspended": (N_("suspended"), "waiting"),
    "given-up": (N_("given up by its holder"), "quiet"),
    "revoked": (N_("revoked by the school"), "behind"),
}
STEPS: Mapping[str, str] = {
    "issued": N_("Issued"),
    "extended": N_("Extended"),
    "suspended": N_("Suspended"),
    "resumed": N_("No longer suspended"),
    "notice": N_("Notice of revocation given"),
    "notice-lifted": N_("Notice of revocation lifted"),
    "revoked": N_("Revoked"),
    "given-up": N_("Given up by its holder"),
    "shows-results": N_("Its holder chose to show results"),
    "hides-results": N_("Its holder chose to show no results"),
}
DECISIONS: Mapping[str, str] = {"certify": N_("certify"), "not-yet": N_("not yet")}
# What a certificate is not; the trade's usual caution.
NO_LICENCE = N_(
    "It says that a training was completed. It is no licence to practise: where one is asked for, local rules decide."
)
LASTS = N_("Valid until {day}.")
LASTS_ALWAYS = N_("Without an end.")
HOURS = N_("Hours: {title}")
MAILS: Mapping[str, tuple[str, str]] = {
    "issued": (
        N_("Your certificate {number}"),
        N_("Your certificate is issued: {title}. Anyone can check it at {address}. Under Certificate you find it as a PDF and as a file."),
    ),
    "extended": (N_("Your certificate {number} is extended"), N_("It is valid until {day} now. The file and the PDF are new: {address}")),
    "suspended": (N_("Your certificate {number} is suspended"), N_("Who checks it is told so until the school lifts it. Reason: {words}")),
    "resumed": (N_("Your certificate {number} counts again"), N_("It is no longer suspended. {words}")),
    "notice": (
        N_("The school means to revoke your certificate {number}"),
        N_("Reason: {words} You may appeal until {day}; answer the school before then. Until it is decided, nobody else is told."),
    ),
    "notice-lifted": (N_("Your certificate {number} stands"), N_("The school does not revoke it. {words}")),
    "revoked": (N_("Your certificate {number} is revoked"), N_("Who checks it is told so from now on. Reason: {words}")),
    "given-up": (N_("You gave up your certificate {number}"), N_("Who checks it is told so from now on.")),
}  # fmt: skip


def mail_text(step: str, values: Mapping[str, object], language: Language) -> tuple[str, str]:
    """Subject and words of the mail about a step."""
    subject, words = MAILS[step]
    return language(subject, **values), language(words, **values)
