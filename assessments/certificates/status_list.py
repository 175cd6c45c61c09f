"""What is revoked, as a Bitstring Status List 1.0 (W3C 2025): one bit for each certificate, the left-most is number 0."""

import base64
import binascii
import gzip
import zlib
from collections.abc import Iterable
from datetime import datetime, timedelta
from typing import Any

from assessments.certificates.canonical_form import Document
from assessments.certificates.proof import instant

SIZE = 131_072
PURPOSE = "revocation"
GOOD_FOR = timedelta(days=2)
CONTEXT = "https://www.w3.org/ns/credentials/v2"


def status_list(address: str, issuer: str, revoked: Iterable[int], at: datetime, ttl_seconds: int) -> dict[str, Any]:
    """The list as a credential, not signed yet; it is good for two days, so an old copy can't be shown for long."""
    return {
        "@context": [CONTEXT],
        "id": address,
        "type": ["VerifiableCredential", "BitstringStatusListCredential"],
        "issuer": issuer,
        "validFrom": instant(at),
        "validUntil": instant(at + GOOD_FOR),
        "credentialSubject": {
            "id": f"{address}#list",
            "type": "BitstringStatusList",
            "statusPurpose": PURPOSE,
            "encodedList": encoded(revoked),
            "ttl": ttl_seconds * 1000,
        },
    }


def encoded(revoked: Iterable[int]) -> str:
    """The bits, compressed, as multibase base64url."""
    bits = bytearray(SIZE // 8)
    for index in set(revoked):
        if not 0 <= index < SIZE:
            raise ValueError("no place in the list")
        bits[index // 8] |= 0x80 >> index % 8
    return "u" + base64.urlsafe_b64encode(gzip.compress(bytes(bits), mtime=0)).decode().rstrip("=")


def is_set(text: str, index: int) -> bool:
    """The bit of an `encodedList`; raises `ValueError` for what is no list, a short one, or a place outside it.

    Unpacks no more than it takes to read the place, so a small text can't fill the memory.
    """
    if not text.startswith("u") or index < 0:
        raise ValueError("no list, or no place in it")
    try:
        packed = base64.b64decode(text[1:] + "=" * (-len(text[1:]) % 4), altchars=b"-_", validate=True)
        bits = zlib.decompressobj(wbits=31).decompress(packed, max(SIZE, index + 8) // 8)
    except (binascii.Error, zlib.error) as error:
        raise ValueError("no list") from error
    if len(bits) < SIZE // 8 or index >= len(bits) * 8:
        raise ValueError("the list is too short")
    return bool(bits[index // 8] & 0x80 >> index % 8)


def entry(address: str, index: int) -> Document:
    """What a credential says of its place in the list."""
    return {
        "id": f"{address}#{index}",
        "type": "BitstringStatusListEntry",
        "statusPurpose": PURPOSE,
        "statusListIndex": str(index),
        "statusListCredential": address,
    }
