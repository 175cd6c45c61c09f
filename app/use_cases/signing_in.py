"""Sign in and out: passwords by argon2id, secrets stored as hashes, attempts slowed down."""

import hashlib
import secrets
from datetime import datetime, timedelta

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError

from app.settings import Settings
from app.storage.work import Store
from curriculum.faults import N_, Fault, RefusedError

HASHER = PasswordHasher()
NOBODY = HASHER.hash("nobody has this password")
QUARTER = timedelta(minutes=15)


def sign_in(store: Store, settings: Settings, school_id: str, email: str, password: str, now: datetime) -> str:
    """A new sign-in's secret; refuses wrong words and too many attempts alike for known and unknown people."""
    address = email.strip().lower()
    who = hashlib.sha256(address.encode()).hexdigest()
    with store.reading(school_id) as work:
        tried = work.sign_ins.failed_attempts_since(who, now - QUARTER)
        person = work.people.by_email(address)
    if tried >= settings.attempts_per_quarter_hour:
        raise RefusedError([Fault("too-many", N_("Too many attempts. Wait a quarter of an hour, then try again."))])
    # Checked outside any transaction: argon2 is slow on purpose, and nobody should wait behind it.
    known = is_right(person.password_hash if person else NOBODY, password) and person is not None and not person.left_at
    token = secrets.token_urlsafe(32)
    with store.writing(school_id) as work:
        if known:
            ends = now + timedelta(days=settings.sign_in_days)
            work.sign_ins.start(hashlib.sha256(token.encode()).hexdigest(), person.id, now, ends)
        else:
            work.sign_ins.note_failed(who, now)
        work.commit()
    if not known:
        raise RefusedError([Fault("wrong", N_("Email and password don't belong together. Check both."), field="email")])
    return token


def sign_out(store: Store, school_id: str, token: str) -> None:
    """End one sign-in."""
    with store.writing(school_id) as work:
        work.sign_ins.end(hashlib.sha256(token.encode()).hexdigest())
        work.commit()


def sign_out_everywhere(store: Store, school_id: str, person_id: str) -> None:
    """End every sign-in of one person."""
    with store.writing(school_id) as work:
        work.sign_ins.end_all_of(person_id)
        work.commit()


def password_hash(password: str) -> str:
    """What is stored of a password (argon2id)."""
    return HASHER.hash(password)


def is_right(stored: str, password: str) -> bool:
    """Whether a stored hash is of this password."""
    try:
        return HASHER.verify(stored, password)
    except (VerificationError, InvalidHashError):
        return False
