"""The tables that hours are computed from, held against the record they follow from."""

import json
from collections.abc import Iterator, Mapping
from typing import Any

from app.storage.work import Work
from assessments.hours.recorded import version_body
from assessments.records.receipt import Recorded
from curriculum.faults import N_, Fault

WRITES = (
    "session-logged",
    "session-shortened",
    "session-reopened",
    "hours-accepted",
    "hours-registered",
    "hours-corrected",
)
ENDS: Mapping[str, str] = {
    "session-signed": "signed_off",
    "session-sent-back": "sent_back",
    "session-denied": "sent_back",
    "session-disowned": "sent_back",
    "session-withdrawn": "withdrawn",
    "hours-withdrawn": "withdrawn",
}
# What a decision is called, where it is not as the session stands after it.
DECISIONS: Mapping[str, str] = {"session-denied": "denied", "session-disowned": "disowned"}
SESSION_KINDS = (*WRITES, *ENDS)
# What a version's row does not hold.
ELSEWHERE = ("state", "note", "reason")

OTHER_VERSION = N_("Session {session}, version {version}: the ledger does not hold what was recorded.")
UNRECORDED = N_("Session {session}, version {version}: it is in the ledger, and nothing of it was recorded.")
OTHER_STATE = N_("Session {session}: it stands as {found}, and was recorded as {recorded}.")
OTHER_DECISION = N_("Session {session}, version {version}: the host's decision is not the one that was recorded.")

Bodies = list[tuple[str, dict[str, Any]]]


def ledger_faults(work: Work, events: list[Recorded]) -> list[Fault]:
    """Every version, state and decision that the events about sessions do not bear out."""
    bodies: Bodies = []
    for event in events:
        try:
            bodies.append((event.kind, json.loads(event.body)))
        except ValueError:
            continue  # the tree says already that the event was changed
    bodies = [(kind, body) for kind, body in bodies if {"session", "version"} <= body.keys()]
    return [*_versions(work, bodies), *_states(work, bodies), *_decisions(work, bodies)]


def _versions(work: Work, bodies: Bodies) -> Iterator[Fault]:
    written = {(body["session"], body["version"]): body for kind, body in bodies if kind in WRITES}
    for enrolment, evidence, session in work.ledger.every_version():
        place = {"session": session.id, "version": session.version}
        body = written.pop((session.id, session.version), None)
        if body is None:
            yield Fault("unrecorded", UNRECORDED, place)
            continue
        held = version_body(session, enrolment, evidence)
        if any(held[name] != value for name, value in body.items() if name in held and name not in ELSEWHERE):
            yield Fault("other-version", OTHER_VERSION, place)
    for session, version in written:
        yield Fault("other-version", OTHER_VERSION, {"session": session, "version": version})


def _states(work: Work, bodies: Bodies) -> Iterator[Fault]:
    """A session stands as its last event left it."""
    last: dict[str, str] = {}
    for kind, body in bodies:
        last[body["session"]] = ENDS.get(kind) or body.get("state", "")
    found = {id: state for id, (_, state) in work.ledger.states().items()}
    for id in sorted(last.keys() | found.keys()):
        if last.get(id) != found.get(id):
            values = {"session": id, "found": found.get(id, "–"), "recorded": last.get(id, "–")}
            yield Fault("other-state", OTHER_STATE, values)


def _decisions(work: Work, bodies: Bodies) -> Iterator[Fault]:
    decided = [(kind, body) for kind, body in bodies if "receipt" in body]
    recorded = {
        (one["session"], one["version"], one["host"], DECISIONS.get(kind, ENDS[kind]), one["receipt"])
        for kind, one in decided
    }
    found = {(d.session_id, d.version, d.host_id, d.decision, d.receipt) for d in work.hosts.every_decision()}
    for session, version, *_ in sorted(recorded ^ found):
        yield Fault("other-decision", OTHER_DECISION, {"session": session, "version": version})
