"""A certificate of an invented school, its keys and its list, for the tests."""

from datetime import UTC, datetime, timedelta

from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from app.files.contexts import known_contexts
from assessments.certificates.checking import Issuer
from assessments.certificates.credential import Addresses, Certificate, Reached, credential
from assessments.certificates.proof import signed
from assessments.certificates.status_list import status_list

AT = datetime(2026, 11, 25, 15, 0, tzinfo=UTC)
CONTEXTS = known_contexts()
KEY = Ed25519PrivateKey.from_private_bytes(bytes(range(32)))
ADDRESSES = Addresses("https://school.example", "halden-row")
METHOD = ADDRESSES.key("key-1")
ISSUER = Issuer(ADDRESSES.issuer, {METHOD: KEY.public_key().public_bytes_raw()})
PLACE = 70_001
CERTIFICATE = Certificate(
    "2026-0007-K7QF-9M2R", "2026-0007", "Ida Marlowe", "Halden Row", "readiness-2026-1", "Comprehensive certificate",
    "A training was completed.", "Hours, practicals and modules.", "2026.1", "en", PLACE, AT, AT + timedelta(days=730),
)  # fmt: skip
REACHED = (
    Reached("hours", "Hours", "hours", "612.5", "600"),
    Reached("final", "Final practical", "outcome", "Completed"),
)


def signed_certificate(**changes: object) -> dict:
    """The credential as it is issued, with members changed before it is signed."""
    return signed(credential(CERTIFICATE, ADDRESSES) | changes, KEY, METHOD, AT, CONTEXTS)


def signed_list(*revoked: int, **changes: object) -> dict:
    """The list of revoked certificates."""
    made = status_list(ADDRESSES.status_list, ADDRESSES.issuer, revoked, AT, 3600)
    return signed(made | changes, KEY, METHOD, AT, CONTEXTS)
