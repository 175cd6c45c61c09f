"""How far a mail has come, in words, and what to do about one that did not arrive."""

from collections.abc import Mapping

from curriculum.faults import N_

STATES: Mapping[str, tuple[str, str]] = {
    "shown": (N_("shown here only"), "quiet"),
    "waiting": (N_("on its way"), "waiting"),
    "held": (N_("held: it is tried again"), "waiting"),
    "sent": (N_("sent {at}"), "done"),
    "refused": (N_("not deliverable"), "behind"),
    "given_up": (N_("given up"), "behind"),
}
REFUSED_ADVICE = N_(
    "Their mail server will not take it, so {name} has not read it. Ask for their address by another way, put it right, "
    "and have it sent again."
)
GIVEN_UP_ADVICE = N_(
    "Nobody took it for five days, so {name} has not read it. Tell them by another way, or try once more."
)
