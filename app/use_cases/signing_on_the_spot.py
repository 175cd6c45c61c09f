"""Signing on the spot: a code on the trainee's screen names a session, and the host's PIN is what signs it."""

import hashlib
import secrets
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from app.clock import day_in
from app.storage.hosts import Host
from app.storage.spot_codes import HostPin, SpotCode
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.use_cases.deciding_as_host import SIGNED, keep_decision
from app.use_cases.hours import new_link
from app.use_cases.keeping_hosts import Post
from app.use_cases.keeping_pins import MOST, end_guessed_pin, mail_host
from app.use_cases.refusing_signatures import refuse_signing
from app.use_cases.signing_in import is_right
from app.wording.dates import day_text, times_text
from app.wording.mails import signed_on_the_spot
from assessments.hours.session import Session
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError

# No letters or digits that are taken for one another.
LETTERS, LENGTH = "ABCDEFGHJKMNPQRSTUVWXYZ23456789", 8
LASTS = timedelta(minutes=10)
TRIES_OF_CODE, TRIES_OF_PIN = 3, 10
NO_CODE = N_("this code does not work, or no longer; ask the trainee to show a new one")
WRONG = N_("that is not your PIN; a code bears {tries} tries")
NO_PIN = N_("you have no PIN that works; set one from a link that the school mailed you")


@dataclass(frozen=True, slots=True)
class Named:
    """The session a code names, with its trainee's name and its host."""

    code: SpotCode
    session: Session
    trainee: str
    host: Host


def make_code(store: Store, asker: Asker, enrolment_id: str, session_id: str) -> tuple[str, datetime]:
    """A new code for a session of one's own that waits, and when it ends; earlier ones of the session end at once."""
    with store.writing(asker.school.id) as work:
        session = work.ledger.now(session_id)
        if session is None or work.ledger.enrolment_of(session_id) != enrolment_id:
            raise NotFoundError
        if session.state != "waiting":
            raise ConflictError(N_("This session does not wait for a signature. Open it again to see how it stands."))
        code = "".join(secrets.choice(LETTERS) for _ in range(LENGTH))
        ends = asker.now + LASTS
        work.spot_codes.add_code(SpotCode(_hash(code), session_id, session.version, ends), asker.now)
        work.commit()
    return code, ends


def named_by(work: Work, code: str, now: datetime) -> Named:
    """The session a typed code names; `RefusedError` where it names none that waits still."""
    found = work.spot_codes.code(_hash("".join(code.upper().replace("-", " ").split())), now)
    session = work.ledger.now(found.session_id) if found else None
    if session is None or session.version != found.version or session.state != "waiting":
        raise RefusedError([Fault("no-code", NO_CODE, field="code")])
    enrolment = work.enrolments.by_id(work.ledger.enrolment_of(session.id))
    name = work.people.names().get(enrolment.person_id, "")
    return Named(found, session, name, work.hosts.by_id(session.host))


def sign_on_the_spot(store: Store, asker: Asker, code: str, pin: str, post: Post) -> tuple[Named, str]:
    """Sign what the code names if this is its host's PIN; gives that and the receipt.

    A try is counted before the PIN is looked at, so that many at once are no more than one after the other. The host is
    told of every signature by mail, with the way to say that it wasn't them.
    """
    pin_tried = _count_try(store, asker, code, post)
    # Outside any transaction: argon2 is slow on purpose.
    if len(pin) > MOST or not is_right(pin_tried.pin_hash, pin):
        raise RefusedError([Fault("wrong-pin", WRONG, {"tries": TRIES_OF_CODE}, "pin")])
    with store.writing(asker.school.id) as work:
        named = named_by(work, code, asker.now)
        pin_now = work.spot_codes.pin_of(named.host.id)
        if pin_now is None or pin_now.pin_hash != pin_tried.pin_hash:
            raise RefusedError([Fault("no-pin", NO_PIN, field="pin")])
        refuse_signing(work, named.host, [named.session], day_in(asker.now, asker.school.time_zone))
        work.spot_codes.put_pin(replace(pin_now, wrong=0))
        work.spot_codes.put_code(replace(named.code, used=True))
        receipt = keep_decision(work, named.host, named.session, SIGNED, "", asker.now, {"by": "pin"})
        _tell(work, asker, named, receipt, post)
        work.commit()
    return named, receipt


def _count_try(store: Store, asker: Asker, code: str, post: Post) -> HostPin:
    with store.writing(asker.school.id) as work:
        named = named_by(work, code, asker.now)
        pin = work.spot_codes.pin_of(named.host.id)
        if pin is None:
            raise RefusedError([Fault("no-pin", NO_PIN, field="pin")])
        if named.code.tried >= TRIES_OF_CODE:
            raise RefusedError([Fault("no-code", NO_CODE, field="code")])
        if pin.wrong >= TRIES_OF_PIN:
            end_guessed_pin(work, asker, named.host, post)
        else:
            work.spot_codes.put_code(replace(named.code, tried=named.code.tried + 1))
            work.spot_codes.put_pin(replace(pin, wrong=pin.wrong + 1))
        work.commit()
    if pin.wrong >= TRIES_OF_PIN:
        raise RefusedError([Fault("no-pin", NO_PIN, field="pin")])
    return pin


def _tell(work: Work, asker: Asker, named: Named, receipt: str, post: Post) -> None:
    link = new_link(work, asker, named.host.id, post.link_days, post.address)
    session, language = named.session, asker.language
    when = f"{day_text(session.day, language.locale)}, {times_text(session.start, session.end, language)}"
    words = signed_on_the_spot(asker.school.name, named.trainee, when, receipt, link, language)
    mail_host(work, asker, named.host, *words)


def _hash(code: str) -> str:
    return hashlib.sha256(code.encode()).hexdigest()
