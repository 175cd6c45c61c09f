"""The register of host teachers: added, changed, ended, paused, and their link sent again; all of it on record."""

import secrets
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date

from app.storage.hosts import Host
from app.storage.mail import OutgoingMail
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.use_cases.hours import new_link
from app.wording.mails import link_again
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError

CHANGED_MEANWHILE = N_("This host teacher was changed meanwhile. Open the page again to see how they stand.")


@dataclass(frozen=True, slots=True)
class ChangeHost:
    """A host as they should stand from now on, and why; `known` is how many events of theirs the asker had seen."""

    host: Host
    reason: str
    known: int


@dataclass(frozen=True, slots=True)
class Post:
    """How a link reaches a host: how many days it works, and the address it begins with."""

    link_days: int
    address: str


def add_host(store: Store, asker: Asker, host: Host) -> Host:
    """Put a host on the register; `host.id` was made by the form, so that sending it twice adds one."""
    with store.writing(asker.school.id) as work:
        known = work.hosts.by_id(host.id)
        if known == host:
            return known
        if known is not None:
            raise ConflictError(N_("This host teacher is on the register already. Open the list to see them."))
        faults = _faults(work, host)
        if faults:
            raise RefusedError(faults)
        work.hosts.add(host)
        body = {"host": host.id, "level": host.level, "person": host.person_id or ""} | _days(host)
        _record(work, asker, "host-added", host.id, body, {"name": host.name, "email": host.email, "site": host.site})
        work.commit()
    return host


def change_host(store: Store, asker: Asker, request: ChangeHost, post: Post) -> tuple[str, ...]:
    """Change a host with a reason; gives the names of the fields that changed.

    With a new mail address every earlier link ends, and what waits is sent to the new one.
    """
    with store.writing(asker.school.id) as work:
        before, after = _found(work, request.host.id), request.host
        changed = tuple(name for name in before.__dataclass_fields__ if getattr(before, name) != getattr(after, name))
        if not changed:
            return ()
        if len(work.record.of_subject(after.id)) != request.known:
            raise ConflictError(CHANGED_MEANWHILE)
        faults = _faults(work, after) + _reason_faults(request.reason, "reason")
        if faults:
            raise RefusedError(faults)
        work.hosts.put(after)
        body = {"host": after.id, "fields": list(changed), "level": after.level, "person": after.person_id or ""}
        words = {"reason": request.reason.strip(), "email": after.email, "site": after.site}
        _record(work, asker, "host-changed", after.id, body | _days(after), words)
        if "email" in changed:
            work.hosts.end_links(after.id, asker.now)
            if after.id in work.ledger.waiting_by_host():
                _send(work, asker, after, secrets.token_hex(16), post)
        work.commit()
    return changed


def end_eligibility(store: Store, asker: Asker, host_id: str, last_day: date | None, reason: str) -> None:
    """The last day for which a host may sign; what was signed stands, and what waits can still be signed."""
    with store.writing(asker.school.id) as work:
        host = _found(work, host_id)
        faults = _reason_faults(reason, "end-reason")
        if last_day is None:
            faults.append(Fault("no-day", N_("choose the last day"), field="last"))
        elif last_day < host.verified_on:
            faults.append(_backwards("last"))
        if faults:
            raise RefusedError(faults)
        if host.eligible_until == last_day:
            return
        work.hosts.put(replace(host, eligible_until=last_day))
        body = {"host": host_id, "last": last_day.isoformat()}
        _record(work, asker, "host-eligibility-ended", host_id, body, {"reason": reason.strip()})
        work.commit()


def pause_host(store: Store, asker: Asker, host_id: str, reason: str) -> None:
    """Offer a host to no trainee until further notice; they still sign what waits."""
    with store.writing(asker.school.id) as work:
        host = _found(work, host_id)
        faults = _reason_faults(reason, "pause-reason")
        if faults:
            raise RefusedError(faults)
        if host.paused_at is not None:
            return
        work.hosts.put(replace(host, paused_at=asker.now))
        _record(work, asker, "host-paused", host_id, {"host": host_id}, {"reason": reason.strip()})
        work.commit()


def resume_host(store: Store, asker: Asker, host_id: str) -> None:
    """Offer a paused host to trainees again."""
    with store.writing(asker.school.id) as work:
        host = _found(work, host_id)
        if host.paused_at is None:
            return
        work.hosts.put(replace(host, paused_at=None))
        _record(work, asker, "host-resumed", host_id, {"host": host_id}, {})
        work.commit()


def send_link(store: Store, asker: Asker, host_id: str, request_id: str, post: Post) -> None:
    """Send a host a new link; `request_id` was made by the form, so that sending it twice sends one mail."""
    with store.writing(asker.school.id) as work:
        host = _found(work, host_id)
        sent = {one.content().get("request") for one in work.record.of_subject(host_id)}
        if request_id in sent:
            return
        _send(work, asker, host, request_id, post)
        work.commit()


def _send(work: Work, asker: Asker, host: Host, request_id: str, post: Post) -> None:
    link = new_link(work, asker, host.id, post.link_days, post.address)
    subject, words = link_again(asker.school.name, link, post.link_days, asker.language)
    work.mail.add(OutgoingMail(secrets.token_hex(16), host.email, host.name, subject, words, asker.now))
    _record(work, asker, "host-link-sent", host.id, {"host": host.id, "request": request_id}, {})


def _faults(work: Work, host: Host) -> list[Fault]:
    """What the register itself refuses, whoever asks."""
    faults = []
    others = [one for one in work.hosts.all() if one.id != host.id]
    same = next((one for one in others if one.email.casefold() == host.email.casefold()), None)
    if same is not None:
        sentence = N_("{host} has this mail address; every host needs their own")
        faults.append(Fault("same-mail", sentence, {"host": same.name}, "email"))
    if host.eligible_until and host.eligible_until < host.verified_on:
        faults.append(_backwards("eligible_until"))
    if host.person_id and host.person_id not in work.people.names():
        faults.append(Fault("no-person", N_("choose a person of the school, or nobody"), field="person"))
    same = next((one for one in others if host.person_id and one.person_id == host.person_id), None)
    if same is not None:
        sentence = N_("{host} is this person on the register already")
        faults.append(Fault("same-person", sentence, {"host": same.name}, "person"))
    return faults


def _backwards(field: str) -> Fault:
    return Fault("backwards", N_("the eligibility would end before it begins"), field=field)


def _reason_faults(reason: str, field: str) -> list[Fault]:
    return [] if reason.strip() else [Fault("no-reason", N_("say why"), field=field)]


def _found(work: Work, host_id: str) -> Host:
    host = work.hosts.by_id(host_id)
    if host is None:
        raise NotFoundError
    return host


def _days(host: Host) -> dict[str, str]:
    last = host.eligible_until.isoformat() if host.eligible_until else ""
    return {"verified_on": host.verified_on.isoformat(), "eligible_until": last}


def _record(  # noqa: PLR0913 - what an event says
    work: Work, asker: Asker, kind: str, host_id: str, body: Mapping[str, object], words: Mapping[str, str]
) -> None:
    """An event; personal words are kept beside it, so that they can be erased, and the event holds their hash."""
    kept = {}
    for name, text in words.items():
        id = secrets.token_hex(16)
        kept[name] = work.record.keep_words(id, host_id, text, secrets.token_bytes(16))
        kept[f"{name}_id"] = id
    work.record.append(kind, host_id, asker.person_id, asker.now, dict(body) | kept)
