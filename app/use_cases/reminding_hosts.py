"""Remind host teachers of hours that have waited for days: one mail a host, each stage of a session once."""

import secrets
from collections import defaultdict
from collections.abc import Iterable
from datetime import datetime

from app.clock import day_in
from app.storage.chores import WaitingSession
from app.storage.hosts import Host
from app.storage.mail import OutgoingMail
from app.storage.work import School, Store, Work
from app.use_cases.asker import Asker
from app.use_cases.hours import new_link
from app.use_cases.keeping_hosts import Post
from app.wording.languages import Language
from app.wording.mails import hours_still_wait

STAGES = (3, 10)


def remind_hosts(store: Store, school: School, now: datetime, post: Post, language: Language) -> int:
    """Write what is due by now, and note it in the same transaction; gives how many mails that is.

    Days are the school's calendar days. After days without a worker the last stage that is due is told of, once. Nobody is
    reminded who is paused; what becomes due meanwhile is told of when they are offered to trainees again.
    """
    asker = Asker(school, "", school.name, now, language)
    with store.writing(school.id) as work:
        hosts = {host.id: host for host in work.hosts.all() if host.paused_at is None}
        written = 0
        for host_id, waiting in _by_host(work.chores.waiting()).items():
            due = [(one, stage) for one in waiting for stage in _stages_due(one, school, now)]
            if host_id in hosts and due:
                _remind(work, asker, hosts[host_id], waiting, due, post)
                written += 1
        if written:
            work.commit()
    return written


def _by_host(waiting: Iterable[WaitingSession]) -> dict[str, list[WaitingSession]]:
    found = defaultdict(list)
    for one in waiting:
        found[one.host_id].append(one)
    return found


def _stages_due(one: WaitingSession, school: School, now: datetime) -> list[int]:
    """The stages that are reached and not told of; an earlier one does not come after a later one."""
    days = (day_in(now, school.time_zone) - day_in(one.since, school.time_zone)).days
    reached = [stage for stage in STAGES if stage <= days]
    return (
        [] if not reached or reached[-1] in one.reminded else [stage for stage in reached if stage not in one.reminded]
    )


def _remind(  # noqa: PLR0913 - who is reminded, of what
    work: Work,
    asker: Asker,
    host: Host,
    waiting: list[WaitingSession],
    due: list[tuple[WaitingSession, int]],
    post: Post,
) -> None:
    link = new_link(work, asker, host.id, post.link_days, post.address)
    oldest = day_in(waiting[0].since, asker.school.time_zone)
    subject, words = hours_still_wait(asker.school.name, len(waiting), oldest, link, post.link_days, asker.language)
    work.mail.add(OutgoingMail(secrets.token_hex(16), host.email, host.name, subject, words, asker.now))
    for one, stage in due:
        work.chores.add_reminder(one, stage, asker.now)
