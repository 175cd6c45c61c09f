"""What keeps the record honest by itself: its root told to the directors once a day, and an audit once a night.

A root that lies in other people's mail can't be changed afterwards: whoever rewrites the record would have to rewrite that.
"""

import secrets

from app.files.receipts import read_held, write_root
from app.permissions import DIRECTOR
from app.queries.proof import audit, current_root
from app.storage.chores import Done
from app.storage.mail import OutgoingMail
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.wording.faults import fault_text
from app.wording.mails import audit_failed, root_of_the_day
from curriculum.faults import NotFoundError

ROOT, AUDIT = "daily root", "nightly audit"


def daily_root(store: Store, asker: Asker) -> bool:
    """Tell every director the root of today, once, and note it; says whether it was told now."""
    with store.writing(asker.school.id) as work:
        if work.chores.done(ROOT, asker.today) is not None:
            return False
        root = current_root(work)
        subject, words = root_of_the_day(asker.school.name, asker.today, root.size, write_root(root), asker.language)
        mail_directors(work, asker, subject, words)
        work.chores.add_done(Done(ROOT, asker.today, write_root(root), asker.now))
        work.commit()
    return True


def nightly_audit(store: Store, asker: Asker) -> tuple[str, ...]:
    """Audit the record once a day, quiet or not: what is changed behind its back need not add to it.

    It is also held against the root last told. Directors are told at once of what is wrong; gives that.
    """
    with store.reading(asker.school.id) as work:
        if work.chores.done(AUDIT, asker.today) is not None:
            return ()
        told, found = work.chores.last_done(ROOT), audit(work)
    faults = found.faults + (found.against(read_held(told.said)) if told else ())
    wrong = tuple(fault_text(fault, asker.language) for fault in faults)
    with store.writing(asker.school.id) as work:
        if work.chores.done(AUDIT, asker.today) is not None:
            return ()
        if wrong:
            mail_directors(work, asker, *audit_failed(asker.school.name, wrong, asker.language))
        work.chores.add_done(Done(AUDIT, asker.today, f"{found.size} events, {len(wrong)} wrong", asker.now))
        work.commit()
    return wrong


def erase_words(store: Store, asker: Asker, person_id: str) -> int:
    """Erase what a person or a host wrote in their own words, on request; gives how many texts. Every proof stays whole."""
    with store.writing(asker.school.id) as work:
        if work.people.by_id(person_id) is None and work.hosts.by_id(person_id) is None:
            raise NotFoundError
        erased = work.record.erase_words(person_id)
        if erased:
            work.record.append("words-erased", person_id, asker.person_id, asker.now, {"texts": erased})
            work.commit()
    return erased


def mail_directors(work: Work, asker: Asker, subject: str, words: str) -> None:
    """A mail to every director who has not left."""
    for person in work.people.with_role(DIRECTOR):
        if person.left_at is None:
            mail = OutgoingMail(secrets.token_hex(16), person.email, person.name, subject, words, asker.now)
            work.mail.add(mail)
