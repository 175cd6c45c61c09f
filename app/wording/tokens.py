"""What a token opens, in words."""

from collections.abc import Mapping

from curriculum.faults import N_

SCOPES: Mapping[str, str] = {
    "person:read": N_("who I am"),
    "hours:read": N_("read hours and standings"),
    "hours:write": N_("log and correct my hours"),
    "hosts:read": N_("read which hosts can be named"),
    "cohort:read": N_("read the cohort"),
}
DAYS = N_("{days} days")
UNTIL = N_("works until {day}")
ENDED = N_("ended on {day}")
USED = N_("last used on {day}")
NEVER = N_("not used yet")
