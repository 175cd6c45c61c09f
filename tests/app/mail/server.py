"""A mail server to speak to: aiosmtpd, an implementation of RFC 5321 that is not ours, told what to answer."""

import socket
from collections.abc import Iterator
from contextlib import contextmanager
from email import message_from_bytes
from email.policy import default

from aiosmtpd.controller import Controller
from aiosmtpd.smtp import SMTP, AuthResult, Envelope, LoginPassword, Session

from app.settings import MailServer

SENDER = "hours@school.internal"
LOGIN = LoginPassword(b"school", b"a good password")


class Desk:
    """Takes mail, or answers `replies` by address (at RCPT) or by subject (after DATA); keeps what it took."""

    def __init__(self) -> None:
        self.taken: list = []
        self.replies: dict[str, str] = {}

    async def handle_RCPT(self, _server: SMTP, _session: Session, envelope: Envelope, address: str, _options) -> str:  # noqa: ANN001, N802
        if address not in self.replies:
            envelope.rcpt_tos.append(address)
        return self.replies.get(address, "250 OK")

    async def handle_DATA(self, _server: SMTP, _session: Session, envelope: Envelope) -> str:  # noqa: N802
        message = message_from_bytes(envelope.content, policy=default)
        reply = self.replies.get(message["subject"], "250 OK")
        if reply.startswith("250"):
            self.taken.append(message)
        return reply


@contextmanager
def serving(desk: Desk, port: int = 0, login: bool = False) -> Iterator[MailServer]:
    """A server on this machine while the block runs; with `login`, one that takes mail only after a name and password."""
    options = {"authenticator": _known, "auth_required": True, "auth_require_tls": False} if login else {}
    controller = Controller(desk, hostname="127.0.0.1", port=port or free_port(), **options)
    controller.start()
    try:
        yield MailServer("127.0.0.1", controller.port, "none", SENDER)
    finally:
        controller.stop()


def free_port() -> int:
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        return found.getsockname()[1]


def _known(_server, _session, _envelope, _mechanism, given: LoginPassword) -> AuthResult:  # noqa: ANN001
    return AuthResult(success=given == LOGIN, handled=given == LOGIN)
