"""What trainees ask of the school, in words: kinds, states, and the mails about them."""

from collections.abc import Mapping

from curriculum.faults import N_

KINDS: Mapping[str, str] = {
    "extension": N_("More time"),
    "leave": N_("Leave: the clock stands still"),
    "adjustment": N_("An adjustment, for teaching, practice or an exam"),
    "prior-learning": N_("Have earlier training taken into account"),
    "waiver": N_("Be let off a rule"),
    "complaint": N_("A complaint: something was not right"),
    "other": N_("Something else"),
}
SHORT_KINDS: Mapping[str, str] = {
    "extension": N_("Extension"),
    "leave": N_("Leave"),
    "adjustment": N_("Adjustment"),
    "prior-learning": N_("Earlier training"),
    "waiver": N_("Waiver"),
    "complaint": N_("Complaint"),
    "other": N_("Other"),
}
STATES: Mapping[str, tuple[str, str]] = {
    "open": (N_("waits for the school"), "waiting"),
    "granted": (N_("granted"), "done"),
    "in-part": (N_("granted in part"), "done"),
    "refused": (N_("refused"), "behind"),
    "withdrawn": (N_("withdrawn"), "quiet"),
    "appealed": (N_("appeal waits for the school"), "waiting"),
}
STEPS: Mapping[str, str] = {
    "granted": N_("Granted"),
    "in-part": N_("Granted in part"),
    "refused": N_("Refused"),
    "withdrawn": N_("Withdrawn"),
    "appealed": N_("Appealed"),
}
ASKED = (N_("Somebody asks the school: {kind}"), N_("{name} asks: {kind}. It is under Requests; answer by {day}."))
ANSWERED = (N_("The school answered: {kind}"), N_("{answer}. The reason is under Ask the school: {address}"))
