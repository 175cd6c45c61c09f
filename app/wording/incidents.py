"""Incidents and near misses in words."""

from collections.abc import Mapping

from curriculum.faults import N_

DEGREES: Mapping[str, str] = {
    "near-miss": N_("Near miss: nobody was hurt, somebody could have been"),
    "incident": N_("Incident: somebody was hurt or felt unwell"),
    "fault-found": N_("Fault found on a machine or in a room, before anything happened"),
}
SHORT_DEGREES: Mapping[str, str] = {
    "near-miss": N_("Near miss"),
    "incident": N_("Incident"),
    "fault-found": N_("Fault found"),
}
DURING: Mapping[str, str] = {
    "exam": N_("an exam"), "lesson": N_("a lesson"), "practice": N_("own practice"), "other": N_("something else"),
}  # fmt: skip
OPEN, CLOSED = (N_("open"), "waiting"), (N_("closed"), "done")
# The usual caution; the law and the rules of the place come first.
FIRST = (
    N_(
        "First see to the person: stop, make the machine safe, call the emergency number where it may be serious, and don't move anybody who may have hurt neck, back or head."
    ),
    N_(
        "Your country's law and the rules of the place on reporting accidents come before this page; it replaces no report to an authority or an insurer, and gives no medical advice."
    ),
    N_("Name no client and no illness here: say “the client”. Health details belong where the place keeps them."),
)
WITHDRAWN = N_(
    "Out of use since a report: {machines}. Hold the exam on another machine, or seat the rest of the day again."
)
REPORTED = (N_("{degree} reported"), N_("{degree} of {day}, {during}. What was said stands under Incidents: {address}"))
OUT = N_("Out of use: {machines}")
