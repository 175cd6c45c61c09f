"""A host teacher says that a signature made on the spot was not theirs: it is taken back, and their PIN ends."""

from dataclasses import replace

from app.storage.hosts import Host, HostDecision
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.use_cases.deciding_as_host import Kind, keep_decision, keep_version
from app.use_cases.telling_worries import tell_directors, too_long
from assessments.hours.session import Session
from curriculum.faults import N_, ConflictError, NotFoundError, RefusedError

DISOWNED = Kind("send_back", "disowned", "session-disowned")


def spot_signature(work: Work, host: Host, receipt: str) -> HostDecision:
    """The signature of this host, made with their PIN, that a receipt is of; `NotFoundError` where there is none."""
    found = work.hosts.by_receipt(receipt)
    if found is None or found.host_id != host.id:
        raise NotFoundError
    events = [one.content() for one in work.record.of_subject(found.session_id) if one.kind == "session-signed"]
    if not any(one["receipt"] == receipt and one.get("by") == "pin" for one in events):
        raise NotFoundError
    return found


def still_stands(work: Work, decision: HostDecision) -> Session | None:
    """The session as it was signed, unless it was changed or taken back since."""
    known = work.ledger.now(decision.session_id)
    return known if (known.version, known.state) == (decision.version, "signed_off") else None


def disown(store: Store, asker: Asker, host: Host, receipt: str, words: str, address: str) -> None:
    """Take the signature back: a further version that is sent back; the first stays on record. Directors are told."""
    faults = too_long(words, "not-me-words")
    if faults:
        raise RefusedError(faults)
    with store.writing(asker.school.id) as work:
        known = still_stands(work, spot_signature(work, host, receipt))
        if known is None:
            raise ConflictError(
                N_("This signature does not stand any more. If something is wrong still, tell the school.")
            )
        again = replace(known, version=known.version + 1, state="waiting")
        keep_version(work, host, again, "session-reopened", asker.now)
        keep_decision(work, host, again, DISOWNED, words, asker.now)
        if work.spot_codes.end_pin(host.id):
            work.record.append("host-pin-ended", host.id, f"host:{host.id}", asker.now, {"host": host.id})
        tell_directors(work, asker, address)
        work.commit()
