"""On what terms a host teacher takes trainees, in their own hand: limits, pause, whom they take; and trainees who ask."""

import secrets
from datetime import datetime

from app.storage.host_terms import ASKED, DECLINED, TAKEN, Standing, Terms
from app.storage.hosts import Host
from app.storage.mail import OutgoingMail
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.use_cases.hours import new_link
from app.use_cases.keeping_hosts import Post, pause_host, resume_host
from app.use_cases.keeping_pins import mail_host
from app.wording.mails import asked_to_come, taken_or_not
from curriculum.faults import N_, ConflictError, Fault, NotAllowedError, NotFoundError, RefusedError

MOST_AT_ONCE = 99


def set_terms(store: Store, asker: Asker, host: Host, observers_most: int | None, *, ask_first: bool) -> None:
    """How many observers at once (None: no limit), and whether trainees are to ask first."""
    if observers_most is not None and not 1 <= observers_most <= MOST_AT_ONCE:
        raise RefusedError([Fault("not-whole", N_("give a number from 1, or leave it open"), field="observers")])
    with store.writing(asker.school.id) as work:
        before = work.host_terms.of(host.id)
        if before and (before.observers_most, before.ask_first) == (observers_most, ask_first):
            return
        since = before.since if before and before.ask_first == ask_first else asker.now
        work.host_terms.put(Terms(host.id, observers_most, ask_first, since))
        body = {"host": host.id, "observers": observers_most or 0, "ask_first": ask_first}
        work.record.append("host-terms-set", host.id, asker.person_id, asker.now, body)
        work.commit()


def pause_own(store: Store, asker: Asker, host: Host, reason: str) -> None:
    """Offer oneself to nobody until further notice."""
    pause_host(store, asker, host.id, reason.strip() or asker.language(N_("their own wish")))


def resume_own(store: Store, asker: Asker, host: Host) -> None:
    """Only from one's own pause: what the school paused, the school resumes."""
    with store.reading(asker.school.id) as work:
        own = paused_by_self(work, host)
    if host.paused_at is not None and not own:
        raise NotAllowedError(N_("The school paused you. Ask it before you come back."))
    resume_host(store, asker, host.id)


def paused_by_self(work: Work, host: Host) -> bool:
    """Whether the pause that stands is the host's own."""
    pauses = [one for one in work.record.of_subject(host.id) if one.kind == "host-paused"]
    return host.paused_at is not None and bool(pauses) and pauses[-1].actor == f"host:{host.id}"


def ask_to_come(store: Store, asker: Asker, host_id: str, post: Post) -> None:
    """A trainee asks to be taken; the host is told once."""
    with store.writing(asker.school.id) as work:
        host = work.hosts.by_id(host_id)
        if host is None or not host.offered_on(asker.today):
            raise NotFoundError
        if work.host_terms.standing(host_id, asker.person_id) is not None:
            raise ConflictError(N_("You asked this host teacher already, or they have answered. Open the page again."))
        work.host_terms.put_standing(Standing(host_id, asker.person_id, ASKED, asker.now))
        _record(work, host_id, asker.person_id, ASKED, asker.person_id, asker.now)
        link = new_link(work, asker, host_id, post.link_days, post.address)
        mail_host(work, asker, host, *asked_to_come(asker.school.name, asker.name, f"{link}/terms", asker.language))
        work.commit()


def take_or_decline(store: Store, asker: Asker, host: Host, person_id: str, *, take: bool) -> None:
    """A trainee who came or asked is taken, or declined from the next day on; they are told by mail."""
    standing = TAKEN if take else DECLINED
    with store.writing(asker.school.id) as work:
        person = work.people.by_id(person_id)
        if person is None or person_id not in known_trainees(work, host):
            raise NotFoundError
        before = work.host_terms.standing(host.id, person_id)
        if before and before.standing == standing:
            return
        work.host_terms.put_standing(Standing(host.id, person_id, standing, asker.now))
        _record(work, host.id, person_id, standing, asker.person_id, asker.now)
        subject, words = taken_or_not(asker.school.name, host.name, take, asker.language)
        mail = OutgoingMail(secrets.token_hex(16), person.email, person.name, subject, words, asker.now)
        work.mail.add(mail)
        work.commit()


def known_trainees(work: Work, host: Host) -> set[str]:
    """Who asked this host, was answered, or put down a session with them."""
    sessions = (*work.ledger.waiting_for(host.id), *work.ledger.signed_by(host.id))
    came = {work.enrolments.by_id(one).person_id for one in {enrolment_id for enrolment_id, _ in sessions}}
    return came | set(work.host_terms.standings_with(host.id))


def _record(work: Work, host_id: str, person_id: str, standing: str, actor: str, now: datetime) -> None:
    body = {"host": host_id, "person": person_id, "standing": standing}
    work.record.append("host-and-trainee", host_id, actor, now, body)
