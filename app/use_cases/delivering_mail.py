"""Bring mail on its way: each sent at least once, shown once, and nothing lost whenever the process ends.

A mail is a row written in the transaction of what it tells of. To send it, one worker takes it for a while (`HOLD`), speaks
to the server outside any transaction, and then writes down what became of it. If the process is killed in between, the row
is due again when that while is over: the mail may then go out a second time, with the same Message-ID, which mail programs
show as one.
"""

import logging
from collections import Counter
from dataclasses import replace
from datetime import datetime, timedelta

from app.clock import Clock
from app.mail.links import veiled
from app.mail.message import Letter, UnwritableMailError, message, nobody_lives_at
from app.mail.post import NoPostError, Outcome, Post, Send
from app.storage.mail import GIVEN_UP, REFUSED, SENT, WAITING, OutgoingMail
from app.storage.work import School, Store
from app.use_cases.asker import Asker
from app.wording.languages import Language
from curriculum.faults import N_, ConflictError, NotFoundError

LOG = logging.getLogger("throughline")
MOST_AT_ONCE = 50
HOLD = timedelta(minutes=10)
# RFC 5321, 4.5.4.1: not too often, and for 4 to 5 days at least; soon twice, since most trouble is short.
PAUSES = tuple(timedelta(minutes=minutes) for minutes in (1, 5, 30, 60, 120, 240))
LONGEST = timedelta(days=5)
NOBODYS = N_("Nothing was sent: this address is in a domain that is only for examples.")
UNREADABLE = N_("Nothing was sent: this is not a mail address.")
TOO_OLD = N_("Nothing was sent: it had waited for more than five days.")


def deliver_mail(store: Store, school: School, sender: str, post: Post, now: Clock, language: Language) -> Counter[str]:
    """Try every mail that is due; gives how many were taken, refused, held or given up."""
    with store.reading(school.id) as work:
        due = work.mail.due(now(), MOST_AT_ONCE)
    results: Counter[str] = Counter()
    writable = [mail for mail in due if _is_to_be_sent(store, school.id, mail, now, results)]
    if not writable:
        return results
    try:
        with post() as send:
            for mail in writable:
                results[_deliver(store, school, mail, sender, send, now, language)] += 1
    except NoPostError as trouble:
        LOG.warning("mail of %s is held: the mail server said: %s", school.slug, trouble)
        results["held"] += sum(_hold_untouched(store, school.id, mail, str(trouble), now()) for mail in writable)
    return results


def try_again(store: Store, asker: Asker, mail_id: str) -> None:
    """Put a mail that was refused or given up on its way once more, as the same mail."""
    with store.writing(asker.school.id) as work:
        mail = work.mail.by_id(mail_id)
        if mail is None:
            raise NotFoundError
        if mail.state not in (REFUSED, GIVEN_UP):
            raise ConflictError(N_("This mail is on its way, or was sent already."))
        work.mail.put(replace(mail, state=WAITING, tries=0, next_at=asker.now, trouble=""))
        work.commit()


def _is_to_be_sent(store: Store, school_id: str, mail: OutgoingMail, now: Clock, results: Counter[str]) -> bool:
    """Whether there is anything to tell the server; if not, that is written down."""
    if nobody_lives_at(mail.to_address):
        state, trouble = REFUSED, NOBODYS
    elif mail.tries == 0 and mail.next_at is None and now() - mail.made_at > LONGEST:
        state, trouble = GIVEN_UP, TOO_OLD
    else:
        return True
    if _taken(store, school_id, mail, now):
        _mark(store, school_id, mail.id, state=state, next_at=None, trouble=trouble)
        results[state] += 1
    return False


def _deliver(
    store: Store, school: School, mail: OutgoingMail, sender: str, send: Send, now: Clock, language: Language
) -> str:
    """Take one mail, send it, and write down what became of it; gives that in a word."""
    if not _taken(store, school.id, mail, now):
        return "taken by another worker"
    try:
        outcome = send(message(_letter(school, mail, sender, language)))
    except UnwritableMailError:
        outcome = Outcome("refused", UNREADABLE)
    except NoPostError as trouble:
        _hold(store, school.id, mail, str(trouble), now())
        raise
    if outcome.kind == "taken":
        # Whoever reads the database later must not find a link that opens a page.
        _mark(store, school.id, mail.id, state=SENT, next_at=None, sent_at=now(), trouble="", words=veiled(mail.words))
    elif outcome.kind == "refused":
        _mark(store, school.id, mail.id, state=REFUSED, next_at=None, trouble=outcome.said)
    else:
        _hold(store, school.id, mail, outcome.said, now())
    LOG.info("mail %s: %s", mail.id, outcome.kind)
    return outcome.kind


def _letter(school: School, mail: OutgoingMail, sender: str, language: Language) -> Letter:
    printed = language.printed()
    tag = "-".join(part for part in (printed["lang"], printed["region"]) if part)
    direction = "rtl" if printed["rtl"] else "ltr"
    return Letter(
        f"{mail.id}.{school.id}", mail.to_address, mail.to_name, sender, school.name, mail.subject, mail.words,
        mail.made_at, tag, direction,
    )  # fmt: skip


def _taken(store: Store, school_id: str, mail: OutgoingMail, now: Clock) -> bool:
    """Take a mail for a while, unless another worker did meanwhile."""
    with store.writing(school_id) as work:
        found = work.mail.by_id(mail.id)
        if found != mail:
            return False
        work.mail.put(replace(found, tries=found.tries + 1, next_at=now() + HOLD))
        work.commit()
    return True


def _hold_untouched(store: Store, school_id: str, mail: OutgoingMail, trouble: str, moment: datetime) -> bool:
    """The server is not there: what nobody has taken since it was read waits too."""
    with store.writing(school_id) as work:
        if work.mail.by_id(mail.id) != mail:
            return False
        work.mail.put(_held(replace(mail, tries=mail.tries + 1), trouble, moment))
        work.commit()
    return True


def _hold(store: Store, school_id: str, mail: OutgoingMail, trouble: str, moment: datetime) -> None:
    with store.writing(school_id) as work:
        work.mail.put(_held(work.mail.by_id(mail.id), trouble, moment))
        work.commit()


def _held(mail: OutgoingMail, trouble: str, moment: datetime) -> OutgoingMail:
    if moment - mail.made_at > LONGEST:
        return replace(mail, state=GIVEN_UP, next_at=None, trouble=trouble)
    pause = PAUSES[min(mail.tries, len(PAUSES)) - 1]
    return replace(mail, next_at=moment + pause, trouble=trouble)


def _mark(store: Store, school_id: str, mail_id: str, **changes: object) -> None:
    with store.writing(school_id) as work:
        work.mail.put(replace(work.mail.by_id(mail_id), **changes))
        work.commit()
