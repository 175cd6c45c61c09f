"""Who may do what: one table, read at every door. What is not here, nobody may do."""

DIRECTOR, TRAINEE, EXAMINER = "director", "trainee", "examiner"
ROLES = (DIRECTOR, TRAINEE, EXAMINER)
# Somebody invited to examine in one exam, without a password: what is here is all they may.
OUTSIDER = "outsider"

ANYONE = "anyone"
LINK_HOLDER = "holder of a private link"

ACTS: dict[str, frozenset[str]] = {
    "read the repertoire": frozenset(ROLES),
    "plan sessions": frozenset(ROLES),
    "study": frozenset({TRAINEE}),
    "spot faults": frozenset({TRAINEE, EXAMINER}),
    "work offline": frozenset((*ROLES, OUTSIDER)),
    "sign out": frozenset((*ROLES, OUTSIDER)),
    "log own hours": frozenset({TRAINEE}),
    "note own sessions": frozenset({TRAINEE}),
    "see own standing": frozenset({TRAINEE}),
    "see own coverage": frozenset({TRAINEE}),
    "see any coverage": frozenset({DIRECTOR}),
    "see the cohort": frozenset({DIRECTOR}),
    "see any standing": frozenset({DIRECTOR}),
    "accept hours": frozenset({DIRECTOR}),
    "ask about the log": frozenset({DIRECTOR}),
    "record documents": frozenset({DIRECTOR}),
    "erase words": frozenset({DIRECTOR}),
    "grant time": frozenset({DIRECTOR}),
    "read the outbox": frozenset({DIRECTOR}),
    "send mail again": frozenset({DIRECTOR}),
    "keep hosts": frozenset({DIRECTOR}),
    "read worries": frozenset({DIRECTOR}),
    "issue safety notices": frozenset({DIRECTOR}),
    "read safety notices": frozenset((*ROLES, OUTSIDER)),
    "read requirement sets": frozenset({DIRECTOR}),
    "write editions": frozenset({DIRECTOR}),
    "publish editions": frozenset({DIRECTOR}),
    "move trainees": frozenset({DIRECTOR}),
    "set exams": frozenset({DIRECTOR}),
    "decide exams": frozenset({DIRECTOR}),
    "appeal": frozenset({TRAINEE}),
    "report incidents": frozenset(ROLES),
    "answer incidents": frozenset({DIRECTOR}),
    "answer appeals": frozenset({DIRECTOR, EXAMINER}),
    "ask the school": frozenset({TRAINEE}),
    "answer requests": frozenset({DIRECTOR}),
    "certify": frozenset({DIRECTOR}),
    "hold a certificate": frozenset({TRAINEE}),
    "see own practicals": frozenset({TRAINEE}),
    "judge pass marks": frozenset({DIRECTOR, EXAMINER}),
    "read statistics": frozenset({DIRECTOR}),
    "read fault spotting of the group": frozenset({DIRECTOR}),
    "read own file": frozenset(ROLES),
    "keep own tokens": frozenset(ROLES),
    "read own statistics": frozenset({EXAMINER}),
    "check rooms": frozenset({DIRECTOR, EXAMINER, OUTSIDER}),
    "type in paper sheets": frozenset({DIRECTOR, EXAMINER, OUTSIDER}),
    "score own exams": frozenset({EXAMINER, OUTSIDER}),
    "calibrate": frozenset({EXAMINER}),
}


# What a token can be given: each scope opens these acts to a program, as far as its person may do them.
SCOPES: dict[str, frozenset[str]] = {
    "person:read": frozenset({"keep own tokens"}),
    "hours:read": frozenset({"see own standing", "see any standing"}),
    "hours:write": frozenset({"log own hours"}),
    "hosts:read": frozenset({"log own hours", "keep hosts"}),
    "cohort:read": frozenset({"see the cohort"}),
}


def may(roles: frozenset[str], act: str) -> bool:
    """Whether somebody with these roles may do this act."""
    return act == ANYONE or bool(roles & ACTS[act])


def scopes_for(roles: frozenset[str]) -> frozenset[str]:
    """The scopes that open anything to somebody with these roles."""
    return frozenset(scope for scope, acts in SCOPES.items() if any(may(roles, act) for act in acts))
