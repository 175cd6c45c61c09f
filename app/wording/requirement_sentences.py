"""Sentences of a requirement set that come in several shapes, by what they are about."""

from collections.abc import Mapping

from curriculum.faults import N_

PROOFS: Mapping[str, str] = {
    "signed_off": N_("signed by the host"),
    "attested": N_("attested by the trainee"),
    "registered": N_("registered by the school"),
    "accepted": N_("accepted by the school on evidence"),
}
# (per what, whether only some time is meant): "value" stands for any field.
CAPS: Mapping[tuple[str, bool], str] = {
    ("", False): N_("At most {amount} may count here."),
    ("", True): N_("At most {amount} may count of time with {what}."),
    ("day", False): N_("At most {amount} may count here on one day."),
    ("day", True): N_("At most {amount} may count on one day of time with {what}."),
    ("week", False): N_("At most {amount} may count here in one calendar week."),
    ("week", True): N_("At most {amount} may count in one calendar week of time with {what}."),
    ("session", False): N_("At most {amount} may count here from one session."),
    ("session", True): N_("At most {amount} may count from one session of time with {what}."),
    ("value", False): N_("At most {amount} may count here with one and the same {field}."),
    ("value", True): N_("At most {amount} may count with one and the same {field} of time with {what}."),
}
OVERALL: Mapping[tuple[str, bool], str] = {
    ("", False): N_("Over everything together, at most {amount} may count."),
    ("", True): N_("Over everything together, at most {amount} may count of time with {what}."),
    ("day", False): N_("Over everything together, at most {amount} may count on one day."),
    ("day", True): N_("Over everything together, at most {amount} may count on one day of time with {what}."),
    ("week", False): N_("Over everything together, at most {amount} may count in one calendar week."),
    ("week", True): N_(
        "Over everything together, at most {amount} may count in one calendar week of time with {what}."
    ),
    ("session", False): N_("Over everything together, at most {amount} may count from one session."),
    ("session", True): N_("Over everything together, at most {amount} may count from one session of time with {what}."),
    ("value", False): N_("Over everything together, at most {amount} may count with one and the same {field}."),
    ("value", True): N_(
        "Over everything together, at most {amount} may count with one and the same {field} of time with {what}."
    ),
}
VARIETY: Mapping[tuple[bool, bool], str] = {
    (False, False): N_("The credit is spread over at least {number}."),
    (False, True): N_("The credit of time with {what} is spread over at least {number}."),
    (True, False): N_("The credit is spread over at least {number}, each with {each} or more."),
    (True, True): N_("The credit of time with {what} is spread over at least {number}, each with {each} or more."),
}
TOTALS: Mapping[tuple[bool, bool], str] = {
    (False, False): N_("Over everything together, at least {time} are needed."),
    (False, True): N_("Over everything together, at least {time} are needed of time with {what}."),
    (True, False): N_("In {names} together, at least {time} are needed."),
    (True, True): N_("In {names} together, at least {time} are needed of time with {what}."),
}
LOGGED: Mapping[tuple[bool, bool], str] = {
    (False, False): N_("{time} that can count are done"),
    (False, True): N_("{time} that can count are done with {what}"),
    (True, False): N_("{time} that can count are done in {category}"),
    (True, True): N_("{time} that can count are done in {category} with {what}"),
}
FACTS: Mapping[str, str] = {
    "practical": N_("the practical {name} is passed"),
    "document": N_("the document {name} is handed in and valid"),
    "module": N_("the module {name} is completed"),
}
