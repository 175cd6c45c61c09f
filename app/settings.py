"""What an installation can set, read once from the environment."""

import os
from collections.abc import Mapping
from dataclasses import dataclass, field
from email.utils import parseaddr
from ipaddress import ip_address
from pathlib import Path

from curriculum.faults import N_, Fault, RefusedError

ROOT = Path(__file__).resolve().parent.parent
LAST_PORT = 65535
# RFC 8314: 465 for TLS from the first byte, 587 for a conversation that changes to it.
PORTS = {"tls": "465", "starttls": "587", "none": "25"}
BAD_PORT = N_("'{text}' is not a port; give a whole number from 1 to {last}")
BAD_SECURITY = N_("'{text}' is not a way to speak to the mail server; give tls, starttls or none")
BAD_SENDER = N_("'{text}' is not a mail address; give the one that the school's mail comes from")
IN_THE_CLEAR = N_("a password would go over the network in the clear; give tls or starttls")
HALF_A_LOGIN = N_("a user and a password belong together; give both or neither")
BAD_ADDRESS = N_("'{text}' is not the start of an address; give such as https://hours.school.example")
BAD_CHOICE = N_("'{text}' is not one of {allowed}")


@dataclass(frozen=True, slots=True)
class MailServer:
    """The server that takes the school's mail; `security` is tls, starttls or none. The password is never shown."""

    host: str
    port: int
    security: str
    sender: str
    user: str = ""
    password: str = field(default="", repr=False)


@dataclass(frozen=True, slots=True)
class Settings:
    """One installation's settings; `database` is an SQLAlchemy URL.

    Without `mail_server` mail is only shown in the outbox. `public_address` begins the links in mail that no request
    wrote. A program may ask `requests_a_minute` with one token. `worker` is inside (work beside the requests of `serve`) or
    apart (`throughline work` does it). `key_passphrase` unlocks the keys that sign certificates; without it a file beside the
    database holds one.
    """

    database: str
    host: str = "127.0.0.1"
    port: int = 8000
    secure_cookies: bool = False
    outbox_page: bool = True
    attempts_per_quarter_hour: int = 8
    sign_in_days: int = 14
    host_link_days: int = 21
    mail_server: MailServer | None = None
    public_address: str = "http://127.0.0.1:8000"
    worker: str = "inside"
    requests_a_minute: int = 600
    key_passphrase: str = field(default="", repr=False)


def settings_from(environment: Mapping[str, str] = os.environ) -> Settings:
    """Settings from `THROUGHLINE_…` variables; an SQLite file in `data/` unless a URL is given.

    Raises `RefusedError` naming the variable that can't be used.
    """
    default = f"sqlite:///{ROOT / 'data' / 'throughline.db'}"
    host = environment.get("THROUGHLINE_HOST", "127.0.0.1")
    port = _port(environment.get("THROUGHLINE_PORT", "8000"), "THROUGHLINE_PORT")
    return Settings(
        database=environment.get("THROUGHLINE_DATABASE", default),
        host=host,
        port=port,
        secure_cookies=environment.get("THROUGHLINE_SECURE_COOKIES", "") == "1",
        outbox_page=environment.get("THROUGHLINE_OUTBOX_PAGE", "1") == "1",
        mail_server=_mail_server(environment) if environment.get("THROUGHLINE_SMTP_HOST") else None,
        public_address=_address(environment.get("THROUGHLINE_ADDRESS", f"http://{host}:{port}")),
        worker=_choice(environment.get("THROUGHLINE_WORKER", "inside"), ("inside", "apart"), "THROUGHLINE_WORKER"),
        key_passphrase=environment.get("THROUGHLINE_KEY_PASSPHRASE", ""),
    )


def _mail_server(environment: Mapping[str, str]) -> MailServer:
    def given(name: str, default: str = "") -> str:
        return environment.get(f"THROUGHLINE_SMTP_{name}", default)

    security = given("SECURITY", "tls")
    if security not in PORTS:
        _refuse(BAD_SECURITY, "THROUGHLINE_SMTP_SECURITY", text=security)
    host, user, password = given("HOST"), given("USER"), given("PASSWORD")
    if bool(user) != bool(password):
        _refuse(HALF_A_LOGIN, "THROUGHLINE_SMTP_PASSWORD" if user else "THROUGHLINE_SMTP_USER")
    if security == "none" and user and not _is_own_machine(host):
        _refuse(IN_THE_CLEAR, "THROUGHLINE_SMTP_SECURITY")
    sender = environment.get("THROUGHLINE_MAIL_FROM", "")
    local, at, domain = parseaddr(sender)[1].rpartition("@")
    if not (local and at and domain) or sender != f"{local}@{domain}":
        _refuse(BAD_SENDER, "THROUGHLINE_MAIL_FROM", text=sender)
    return MailServer(
        host, _port(given("PORT", PORTS[security]), "THROUGHLINE_SMTP_PORT"), security, sender, user, password
    )


def _is_own_machine(host: str) -> bool:
    try:
        return ip_address(host).is_loopback
    except ValueError:
        return host == "localhost"


def _address(text: str) -> str:
    if not text.startswith(("http://", "https://")) or any(one in text for one in " ?#"):
        _refuse(BAD_ADDRESS, "THROUGHLINE_ADDRESS", text=text)
    return text.rstrip("/")


def _choice(text: str, allowed: tuple[str, ...], source: str) -> str:
    if text not in allowed:
        _refuse(BAD_CHOICE, source, text=text, allowed=", ".join(allowed))
    return text


def _port(text: str, source: str) -> int:
    number = int(text) if text.isascii() and text.isdecimal() and len(text) < 6 else 0
    if not 0 < number <= LAST_PORT:
        _refuse(BAD_PORT, source, code="bad-port", text=text, last=LAST_PORT)
    return number


def _refuse(sentence: str, source: str, code: str = "bad-setting", **values: object) -> None:
    raise RefusedError([Fault(code, sentence, values, source=source)])
