"""The conversation with the mail server (SMTP, RFC 5321): each message taken, refused for good, or held for later."""

import smtplib
import ssl
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager, suppress
from dataclasses import dataclass
from email.message import EmailMessage

from app.mail.links import veiled
from app.settings import MailServer
from curriculum.faults import ThroughlineError

SECONDS = 30
LONGEST = 300


class NoPostError(ThroughlineError):
    """The server can't be reached, does not take our name and password, or broke off; the message is its words."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of a message: taken, refused (for good: a reply of the family 5yz), or held (4yz: try again later)."""

    kind: str
    said: str = ""


TAKEN = Outcome("taken")
Send = Callable[[EmailMessage], Outcome]
Post = Callable[[], AbstractContextManager[Send]]


@contextmanager
def smtp_post(server: MailServer) -> Iterator[Send]:
    """A conversation in which messages are sent one after another; raises `NoPostError`.

    A conversation that breaks off while a message is on its way leaves open whether it was taken.
    """
    try:
        connection = _opened(server)
    except (OSError, smtplib.SMTPException) as error:
        raise NoPostError(_said(error)) from None
    try:
        yield lambda message: _send(connection, message)
    finally:
        with suppress(OSError, smtplib.SMTPException):
            connection.quit()
        connection.close()


def _opened(server: MailServer) -> smtplib.SMTP:
    safe = ssl.create_default_context()
    if server.security == "tls":
        connection = smtplib.SMTP_SSL(server.host, server.port, timeout=SECONDS, context=safe)
    else:
        connection = smtplib.SMTP(server.host, server.port, timeout=SECONDS)
    try:
        if server.security == "starttls":
            connection.starttls(context=safe)
        if server.user:
            connection.login(server.user, server.password)
    except BaseException:
        connection.close()
        raise
    return connection


def _send(connection: smtplib.SMTP, message: EmailMessage) -> Outcome:
    try:
        connection.send_message(message)
    except smtplib.SMTPRecipientsRefused as error:
        return _outcome(*next(iter(error.recipients.values())))
    except smtplib.SMTPDataError as error:
        return _outcome(error.smtp_code, error.smtp_error)
    except smtplib.SMTPNotSupportedError as error:
        return Outcome("refused", _said(error))
    except (OSError, smtplib.SMTPException) as error:
        # Among them a refusal of the school's own address: that is nobody's fault who gets mail.
        raise NoPostError(_said(error)) from None
    return TAKEN


def _outcome(code: int, said: bytes) -> Outcome:
    return Outcome("refused" if 500 <= code <= 599 else "held", _words(code, said))


def _said(error: Exception) -> str:
    if isinstance(error, smtplib.SMTPResponseException):
        return _words(error.smtp_code, error.smtp_error)
    return _short(str(error) or type(error).__name__)


def _words(code: int, said: bytes | str) -> str:
    text = said.decode("utf-8", "replace") if isinstance(said, bytes) else said
    return _short(f"{code} {text}")


def _short(text: str) -> str:
    return veiled(" ".join(text.split()))[:LONGEST]
