"""Keys that sign certificates: made, locked with a passphrase, and opened again."""

import os
import secrets
from functools import lru_cache
from pathlib import Path

from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from app.settings import ROOT, Settings
from assessments.certificates.base58 import multikey
from curriculum.faults import N_, Fault, RefusedError

FILE_NAME = "key-passphrase"
WRONG = N_("the key that signs certificates is locked with another passphrase; set THROUGHLINE_KEY_PASSPHRASE to it")
SQLITE = "sqlite:///"


def passphrase_of(settings: Settings) -> str:
    """The one that is set, else that of a file beside the database, made at first use and readable by its owner alone."""
    if settings.key_passphrase:
        return settings.key_passphrase
    database = Path(settings.database.removeprefix(SQLITE))
    folder = database.parent if settings.database.startswith(SQLITE) else ROOT / "data"
    return _kept(folder / FILE_NAME)


def _kept(path: Path) -> str:
    path.parent.mkdir(parents=True, exist_ok=True)
    try:
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    except FileExistsError:
        return path.read_text("utf-8").strip()
    made = secrets.token_urlsafe(32)
    with os.fdopen(handle, "w", encoding="utf-8") as file:
        file.write(f"{made}\n")
        file.flush()
        os.fsync(file.fileno())
    return made


def new_key(passphrase: str) -> tuple[str, str]:
    """(public as multibase, private as locked PKCS#8)."""
    key = Ed25519PrivateKey.generate()
    locked = key.private_bytes(
        serialization.Encoding.PEM,
        serialization.PrivateFormat.PKCS8,
        serialization.BestAvailableEncryption(passphrase.encode()),
    )
    return multikey(key.public_key().public_bytes_raw()), locked.decode()


@lru_cache(maxsize=16)
def opened_key(locked: str, passphrase: str) -> Ed25519PrivateKey:
    """The private key; raises `RefusedError` for another passphrase."""
    try:
        return serialization.load_pem_private_key(locked.encode(), passphrase.encode())
    except ValueError as error:
        raise RefusedError([Fault("locked", WRONG)]) from error
