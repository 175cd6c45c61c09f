"""Hash and signature byte for byte as W3C's test vector: Data Integrity EdDSA Cryptosuites 1.0, B.1 (eddsa-rdfc-2022).

With THROUGHLINE_REFERENCES, the second published vector and a credential signed by 1EdTech too.
"""

import json
import os
from datetime import UTC, datetime
from pathlib import Path

import pytest
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from app.files.contexts import known_contexts
from assessments.certificates.base58 import base58, from_base58, from_multikey, multikey, signature_of
from assessments.certificates.canonical_form import Contexts
from assessments.certificates.proof import is_signed_by, signed, to_sign
from curriculum.faults import RefusedError

EXAMPLES = "https://www.w3.org/ns/credentials/examples/v2"
CONTEXTS = Contexts({
    **known_contexts().known,
    EXAMPLES: {"@context": {"@vocab": "https://www.w3.org/ns/credentials/examples#"}},
})  # fmt: skip
PUBLIC = "z6MkrJVnaZkeFzdQyMZu1cgjg7k1pZZ6pvBQ7XJPt4swbTQ2"
SECRET = "z3u2en7t5LR2WtQH5PfFqMqwVHBeXouLzo6haApm8XHqvjxq"
METHOD = f"did:key:{PUBLIC}#{PUBLIC}"
DOCUMENT = {
    "@context": ["https://www.w3.org/ns/credentials/v2", EXAMPLES],
    "id": "urn:uuid:58172aac-d8ba-11ed-83dd-0b3aef56cc33",
    "type": ["VerifiableCredential", "AlumniCredential"],
    "name": "Alumni Credential",
    "description": "A minimum viable example of an Alumni Credential.",
    "issuer": "https://vc.example/issuers/5678",
    "validFrom": "2023-01-01T00:00:00Z",
    "credentialSubject": {"id": "did:example:abcdefgh", "alumniOf": "The School of Examples"},
}
OPTIONS_HASH = "bea7b7acfbad0126b135104024a5f1733e705108f42d59668b05c0c50004c6b0"
DOCUMENT_HASH = "517744132ae165a5349155bef0bb0cf2258fff99dfe1dbd914b938d775a36017"
SIGNATURE = "z2YwC8z3ap7yx1nZYCg4L3j3ApHsF8kgPdSb5xoS1VR7vPG3F561B52hYnQF9iseabecm3ijx4K1FBTQsCZahKZme"
AT = datetime(2023, 2, 24, 23, 36, 38, tzinfo=UTC)


def secret() -> Ed25519PrivateKey:
    """The vector's key; its first two bytes say what kind it is."""
    return Ed25519PrivateKey.from_private_bytes(from_base58(SECRET[1:])[2:])


def test_hash_and_signature_are_w3cs():
    made = signed(DOCUMENT, secret(), METHOD, AT, CONTEXTS)
    (proof,) = made["proof"]
    assert to_sign(made, proof, CONTEXTS).hex() == OPTIONS_HASH + DOCUMENT_HASH
    assert proof["proofValue"] == SIGNATURE
    assert is_signed_by(made, proof, from_multikey(PUBLIC), CONTEXTS)
    assert multikey(secret().public_key().public_bytes_raw()) == PUBLIC


def test_a_changed_document_is_not_signed():
    made = signed(DOCUMENT, secret(), METHOD, AT, CONTEXTS)
    assert not is_signed_by(made | {"name": "Another"}, made["proof"][0], from_multikey(PUBLIC), CONTEXTS)


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ({"id": "no address"}, "no-address"),
        (
            {
                "type": ["VerifiableCredential", "no address"],
                "credentialSubject": {},
                "@context": DOCUMENT["@context"][:1],
            },
            "no-address",
        ),
        ({"@context": DOCUMENT["@context"][:1]}, "undefined-term"),
        ({"name": "a tab \v of a word processor"}, "control-character"),
        ({"@context": ["https://elsewhere.example/context"]}, "no-json-ld"),
    ],
)
def test_what_a_signature_would_not_cover_is_refused(change, code):
    with pytest.raises(RefusedError) as refusal:
        CONTEXTS.digest(DOCUMENT | change)
    assert refusal.value.faults[0].code == code


def test_leading_zero_bytes_stay():
    """One signature in 256 begins with one."""
    content = bytes(2) + bytes(range(62))
    assert signature_of("z" + base58(content)) == content
    with pytest.raises(ValueError, match="no Ed25519 signature"):
        signature_of("z" + base58(content[1:]))
    with pytest.raises(ValueError, match="too long"):
        from_base58("2" * 100_000)


if os.environ.get("THROUGHLINE_REFERENCES"):
    STANDARDS = Path(os.environ["THROUGHLINE_REFERENCES"]) / "standards"

    def test_credentials_signed_by_1edtech_with_references():
        """Their sample is signed; the one with a broken value is not."""
        assert by_1edtech("simple-did-web-method.json")
        assert not by_1edtech("simple-err-proof-value.json")

    def by_1edtech(name: str) -> bool:
        made = json.loads((STANDARDS / "validator" / "ob30" / name).read_text("utf-8"))
        (proof,) = made["proof"] if isinstance(made["proof"], list) else [made["proof"]]
        public = from_multikey(proof["verificationMethod"].partition("#")[2])
        folder = STANDARDS / "validator" / "contexts"
        files = {one: f"ob-v3p0-{one.rpartition('/')[2].removeprefix('context-')}" for one in made["@context"][1:]}
        found = {one: json.loads((folder / file).read_text("utf-8")) for one, file in files.items()}
        return is_signed_by(made, proof, public, Contexts(CONTEXTS.known | found))
