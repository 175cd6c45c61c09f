"""What an offline check says of a credential: signature, form, dates, revocation.

A signature covers what a document means, not how it is written: the same meaning can be written so that a reader misses a
member (a revoked credential whose status has another name still bears a good signature). So the form is looked at first,
and only what is written as this house writes it is read at all.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from assessments.certificates.base58 import from_multikey
from assessments.certificates.canonical_form import Contexts, Document
from assessments.certificates.credential import CONTEXTS
from assessments.certificates.proof import MEMBERS, PURPOSE, SUITE, TYPE, instant, is_signed_by
from assessments.certificates.status_list import CONTEXT, is_set
from assessments.certificates.status_list import PURPOSE as REVOCATION
from curriculum.faults import N_, Fault, RefusedError

PLAIN = re.compile(r"[A-Za-z]\w*", re.ASCII)
INSTANT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ")
# The nodes of a list need comparing with each other, which grows without bounds: ours have some fifty.
MOST_MEMBERS, DEEPEST = 2000, 12
NO_FORM = N_("this is not written as our certificates are, so it can't be said what was signed: {what}")
BAD_PROOF = N_("the signature does not fit: something was changed, or it was made with another key")
UNKNOWN_KEY = N_("the key of the signature is not one of the issuer's")
NOT_YET = N_("not valid before {moment}")
EXPIRED = N_("it was valid until {moment}")
REVOKED = N_("the school has revoked it")
NO_LIST = N_(
    "the list of revoked certificates is missing, damaged or out of date, so it can't be said whether this one is revoked"
)


@dataclass(frozen=True, slots=True)
class Issuer:
    """A controller document as far as it matters: the issuer's address and its keys (32 bytes) by address."""

    id: str
    keys: Mapping[str, bytes]


def issuer_of(document: Document) -> Issuer:
    """The issuer of a controller document; raises `RefusedError` where it is none."""
    try:
        allowed = document[PURPOSE]
        keys = {
            one["id"]: from_multikey(one["publicKeyMultibase"])
            for one in document["verificationMethod"]
            if one["id"] in allowed and one["controller"] == document["id"]
        }
        return Issuer(document["id"], keys)
    except (KeyError, TypeError, ValueError, AttributeError) as error:
        raise _refusal("no-controller", N_("this is no controller document with Ed25519 keys")) from error


def check(made: Document, issuer: Issuer, listed: Document | None, now: datetime, contexts: Contexts) -> None:
    """Raise `RefusedError` with the first thing that speaks against a credential at this moment.

    `listed` is the signed list that its status names. Raises for anything that is not written as it is here.
    """
    check_signed(made, issuer, CONTEXTS, now, contexts)
    try:
        status = made["credentialStatus"]
        address, place = status["statusListCredential"], int(status["statusListIndex"])
        if listed is None or status["statusPurpose"] != REVOCATION:
            raise ValueError("no list")
        check_signed(listed, issuer, (CONTEXT,), now, contexts)
        subject = listed["credentialSubject"]
        if listed["id"] != address or subject["statusPurpose"] != REVOCATION:
            raise ValueError("another list")
        revoked = is_set(subject["encodedList"], place)
    except (KeyError, TypeError, ValueError, RefusedError) as error:
        raise _refusal("no-list", NO_LIST) from error
    if revoked:
        raise _refusal("revoked", REVOKED)


def check_signed(
    made: Document, issuer: Issuer, written_with: Sequence[str], now: datetime, contexts: Contexts
) -> None:
    """Form, signature and dates of one document."""
    proof = _proof_of(made, issuer, written_with)
    public = issuer.keys.get(proof["verificationMethod"])
    if public is None:
        raise _refusal("unknown-key", UNKNOWN_KEY)
    if not is_signed_by(made, proof, public, contexts):
        raise _refusal("bad-signature", BAD_PROOF)
    begins, ends = made.get("validFrom"), made.get("validUntil", "9999-12-31T00:00:00Z")
    if not all(isinstance(one, str) and INSTANT.fullmatch(one) for one in (begins, ends)):
        raise _refusal("no-form", NO_FORM, what="validFrom, validUntil")
    # Written in one way, they compare as texts.
    if instant(now) < begins:
        raise _refusal("not-yet", NOT_YET, moment=begins)
    if instant(now) > ends:
        raise _refusal("expired", EXPIRED, moment=ends)


def _proof_of(made: Document, issuer: Issuer, written_with: Sequence[str]) -> Mapping[str, Any]:
    """The one proof, of a document that says plainly what was signed."""
    if not isinstance(made, Mapping) or made.get("@context") != list(written_with):
        raise _refusal("no-form", NO_FORM, what="@context")
    refuse_odd_members({name: value for name, value in made.items() if name != "@context"})
    proofs = made.get("proof")
    if not isinstance(proofs, list) or len(proofs) != 1 or not isinstance(proofs[0], Mapping):
        raise _refusal("no-form", NO_FORM, what="proof")
    proof, own = proofs[0], made.get("issuer")
    named = own.get("id") if isinstance(own, Mapping) else own
    fits = (proof.get("type"), proof.get("cryptosuite"), proof.get("proofPurpose")) == (TYPE, SUITE, PURPOSE)
    if not fits or set(proof) != MEMBERS or not all(isinstance(one, str) for one in proof.values()):
        raise _refusal("no-form", NO_FORM, what="proof")
    if named != issuer.id or proof["verificationMethod"].partition("#")[0] != issuer.id:
        raise _refusal("unknown-key", UNKNOWN_KEY)
    return proof


def refuse_odd_members(node: object) -> None:
    """Refuse a document with members that are no plain names (addresses, keywords), and one too large to look at."""
    left, level = [node], 0
    seen = 0
    while left:
        level += 1
        if level > DEEPEST:
            raise _refusal("no-form", NO_FORM, what=N_("too deep"))
        inner: list[object] = []
        for one in left:
            if isinstance(one, Mapping):
                odd = next((name for name in one if not PLAIN.fullmatch(name)), None)
                if odd is not None:
                    raise _refusal("no-form", NO_FORM, what=odd[:60])
                inner += one.values()
            elif isinstance(one, list):
                inner += one
        seen += len(inner)
        if seen > MOST_MEMBERS:
            raise _refusal("no-form", NO_FORM, what=N_("too large"))
        left = inner


def _refusal(code: str, sentence: str, **values: object) -> RefusedError:
    return RefusedError([Fault(code, sentence, values)])
