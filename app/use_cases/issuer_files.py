"""What is public of a school that issues: its keys, and the signed list of what it revoked."""

from datetime import datetime
from functools import lru_cache
from typing import Any

from app.files.contexts import known_contexts
from app.files.signing_keys import opened_key
from app.storage.certificates import SigningKey
from app.storage.work import School, Work
from app.use_cases.certifying import Signing
from assessments.certificates.credential import controller
from assessments.certificates.proof import signed
from assessments.certificates.status_list import status_list

TTL_SECONDS = 3600


def public_files(work: Work, school: School, signing: Signing, now: datetime) -> dict[str, Any]:
    """`issuer`, the controller document with every key there ever was, so that what an old one signed stays good; and
    `revoked`, the list, made anew each hour and when something was revoked. Without `revoked` where nothing was issued.
    """
    keys, at = work.certificates.keys(), signing.addresses(school.slug)
    files = {"issuer": controller(at, {key.id: key.public_key for key in keys})}
    if keys:
        hour = now.replace(minute=0, second=0, microsecond=0)
        files["revoked"] = _signed_list(signing, school.slug, keys[-1], work.certificates.ended(), hour)
    return files


@lru_cache(maxsize=64)
def _signed_list(signing: Signing, slug: str, key: SigningKey, ended: frozenset[int], hour: datetime) -> dict[str, Any]:
    at = signing.addresses(slug)
    made = status_list(at.status_list, at.issuer, ended, hour, TTL_SECONDS)
    return signed(made, opened_key(key.private_key, signing.passphrase), at.key(key.id), hour, known_contexts())
