"""A host teacher's PIN for signing on the spot: set and ended under the private link, and told of by mail."""

import secrets

from app.storage.hosts import Host
from app.storage.mail import OutgoingMail
from app.storage.spot_codes import HostPin
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.use_cases.hours import new_link
from app.use_cases.keeping_hosts import Post
from app.use_cases.signing_in import password_hash
from app.wording.mails import pin_ended, pin_set
from curriculum.faults import N_, Fault, RefusedError

LEAST, MOST = 6, 12
DIGITS = "0123456789"


def set_pin(store: Store, asker: Asker, host: Host, pin: str, again: str, post: Post) -> None:
    """Set or change the PIN; the host is told by mail, with the way to end it."""
    faults = pin_faults(pin, again)
    if faults:
        raise RefusedError(faults)
    # Outside any transaction: argon2 is slow on purpose.
    made = HostPin(host.id, password_hash(pin), asker.now)
    with store.writing(asker.school.id) as work:
        work.spot_codes.put_pin(made)
        work.record.append("host-pin-set", host.id, f"host:{host.id}", asker.now, {"host": host.id})
        link = new_link(work, asker, host.id, post.link_days, post.address)
        mail_host(work, asker, host, *pin_set(asker.school.name, f"{link}/pin", asker.language))
        work.commit()


def end_pin(store: Store, asker: Asker, host: Host) -> None:
    """Nothing can be signed on the spot until a new one is set."""
    with store.writing(asker.school.id) as work:
        if work.spot_codes.end_pin(host.id):
            work.record.append("host-pin-ended", host.id, f"host:{host.id}", asker.now, {"host": host.id})
            work.commit()


def end_guessed_pin(work: Work, asker: Asker, host: Host, post: Post) -> None:
    """After too many wrong tries the PIN is over, and the host is told."""
    work.spot_codes.end_pin(host.id)
    work.record.append("host-pin-ended", host.id, "", asker.now, {"host": host.id})
    link = new_link(work, asker, host.id, post.link_days, post.address)
    mail_host(work, asker, host, *pin_ended(asker.school.name, f"{link}/pin", asker.language))


def pin_faults(pin: str, again: str) -> list[Fault]:
    """Why these digits can't be a PIN."""
    if not (LEAST <= len(pin) <= MOST and set(pin) <= set(DIGITS)):
        return [Fault("no-pin", N_("give {least} to {most} digits"), {"least": LEAST, "most": MOST}, "pin")]
    steps = {int(after) - int(before) for before, after in zip(pin, pin[1:], strict=False)}
    if len(steps) == 1 and steps <= {-1, 0, 1} or len(set(pin)) < 3:
        return [Fault("easy-pin", N_("these digits are guessed at once; choose others"), field="pin")]
    if pin != again:
        return [Fault("other-pin", N_("the two are not the same; type it once more"), field="again")]
    return []


def mail_host(work: Work, asker: Asker, host: Host, subject: str, words: str) -> None:
    """A mail to the host's registered address."""
    work.mail.add(OutgoingMail(secrets.token_hex(16), host.email, host.name, subject, words, asker.now))
