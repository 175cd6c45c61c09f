"""A Data Integrity proof by `eddsa-rdfc-2022` (W3C, Data Integrity EdDSA Cryptosuites 1.0): made, and checked."""

from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any

from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey, Ed25519PublicKey

from assessments.certificates.base58 import base58, signature_of
from assessments.certificates.canonical_form import Contexts, Document

TYPE, SUITE, PURPOSE = "DataIntegrityProof", "eddsa-rdfc-2022", "assertionMethod"
MEMBERS = {"type", "cryptosuite", "created", "verificationMethod", "proofPurpose", "proofValue"}


def instant(at: datetime) -> str:
    """A moment as credentials write it: UTC, to the second."""
    return at.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


def signed(document: Document, key: Ed25519PrivateKey, method: str, at: datetime, contexts: Contexts) -> dict[str, Any]:
    """The document with its one proof, in an array as Open Badges' schema wants it.

    `method` is the address of the public key in the issuer's controller document. Raises `RefusedError` for what a
    signature would not cover.
    """
    options = {"type": TYPE, "cryptosuite": SUITE, "created": instant(at)}
    options |= {"verificationMethod": method, "proofPurpose": PURPOSE}
    value = "z" + base58(key.sign(to_sign(document, options, contexts)))
    return {**document, "proof": [options | {"proofValue": value}]}


def to_sign(document: Document, proof: Mapping[str, Any], contexts: Contexts) -> bytes:
    """The 64 bytes that are signed: the hash of the proof's options, then that of the document without its proof."""
    options = {name: value for name, value in proof.items() if name != "proofValue"}
    plain = {name: value for name, value in document.items() if name != "proof"}
    return contexts.digest(options | {"@context": document["@context"]}) + contexts.digest(plain)


def is_signed_by(document: Document, proof: Mapping[str, Any], public: bytes, contexts: Contexts) -> bool:
    """Whether the proof is this key's (32 bytes) over this document; False for anything that is no such proof."""
    try:
        value = signature_of(str(proof.get("proofValue", "")))
        Ed25519PublicKey.from_public_bytes(public).verify(value, to_sign(document, proof, contexts))
    except (InvalidSignature, ValueError):
        return False
    return True
