"""What keeps the record honest by itself: its root told to the directors once a day, and an audit once a night.

A root that lies in other people's mail can't be changed afterwards: whoever rewrites the record would have to rewrite that.
"""

import secrets
from collections.abc import Callable
from dataclasses import dataclass

from app.permissions import DIRECTOR
from app.storage.chores import Done
from app.storage.mail import OutgoingMail
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.wording.mails import audit_failed, root_of_the_day

ROOT, AUDIT = "daily root", "nightly audit"


@dataclass(frozen=True, slots=True)
class Root:
    """The record's root: how many events it is of, and their hash in hexadecimal."""

    events: int
    hash: str


FindRoot = Callable[[Work], Root]
# What an audit finds wrong, a line each; nothing where all holds.
Audit = Callable[[Work], tuple[str, ...]]


def daily_root(store: Store, asker: Asker, find: FindRoot) -> bool:
    """Tell every director the root of today, once, and note it; says whether it was told now."""
    with store.writing(asker.school.id) as work:
        if work.chores.done(ROOT, asker.today) is not None:
            return False
        root = find(work)
        subject, words = root_of_the_day(asker.school.name, asker.today, root.events, root.hash, asker.language)
        _to_directors(work, asker, subject, words)
        work.chores.add_done(Done(ROOT, asker.today, f"{root.events} {root.hash}", asker.now))
        work.commit()
    return True


def nightly_audit(store: Store, asker: Asker, audit: Audit) -> tuple[str, ...]:
    """Audit the record once a day, quiet or not: what is changed behind its back need not add to it.

    Directors are told at once of what is wrong; gives that.
    """
    with store.reading(asker.school.id) as work:
        if work.chores.done(AUDIT, asker.today) is not None:
            return ()
        events, found = work.record.size(), audit(work)
    with store.writing(asker.school.id) as work:
        if work.chores.done(AUDIT, asker.today) is not None:
            return ()
        if found:
            _to_directors(work, asker, *audit_failed(asker.school.name, found, asker.language))
        work.chores.add_done(Done(AUDIT, asker.today, f"{events} events, {len(found)} wrong", asker.now))
        work.commit()
    return found


def _to_directors(work: Work, asker: Asker, subject: str, words: str) -> None:
    for person in work.people.with_role(DIRECTOR):
        if person.left_at is None:
            mail = OutgoingMail(secrets.token_hex(16), person.email, person.name, subject, words, asker.now)
            work.mail.add(mail)
