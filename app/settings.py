"""What an installation can set, read once from the environment."""

import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from curriculum.faults import N_, Fault, RefusedError

ROOT = Path(__file__).resolve().parent.parent
LAST_PORT = 65535


@dataclass(frozen=True, slots=True)
class Settings:
    """One installation's settings; `database` is an SQLAlchemy URL."""

    database: str
    host: str = "127.0.0.1"
    port: int = 8000
    secure_cookies: bool = False
    outbox_page: bool = True
    attempts_per_quarter_hour: int = 8
    sign_in_days: int = 14
    host_link_days: int = 21


def settings_from(environment: Mapping[str, str] = os.environ) -> Settings:
    """Settings from `THROUGHLINE_…` variables; an SQLite file in `data/` unless a URL is given.

    Raises `RefusedError` naming the variable that can't be used.
    """
    default = f"sqlite:///{ROOT / 'data' / 'throughline.db'}"
    return Settings(
        database=environment.get("THROUGHLINE_DATABASE", default),
        host=environment.get("THROUGHLINE_HOST", "127.0.0.1"),
        port=_port(environment.get("THROUGHLINE_PORT", "8000")),
        secure_cookies=environment.get("THROUGHLINE_SECURE_COOKIES", "") == "1",
        outbox_page=environment.get("THROUGHLINE_OUTBOX_PAGE", "1") == "1",
    )


def _port(text: str) -> int:
    number = int(text) if text.isascii() and text.isdecimal() and len(text) < 6 else 0
    if not 0 < number <= LAST_PORT:
        sentence = N_("'{text}' is not a port; give a whole number from 1 to {last}")
        raise RefusedError([Fault("bad-port", sentence, {"text": text, "last": LAST_PORT}, source="THROUGHLINE_PORT")])
    return number
