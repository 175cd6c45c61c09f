"""What a check says, and the ways in which somebody might try to pass a bad certificate.

The forms are those of Open Badges 3.0 and Bitstring Status List 1.0; with THROUGHLINE_REFERENCES they are held against
1EdTech's own schema. That a credential can be written so that its signature holds while a reader misses a member is shown
by `test_a_member_under_another_name_does_not_hide_a_revocation`.
"""

import json
import os
from copy import deepcopy
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from hypothesis import given, settings
from hypothesis import strategies as st

from assessments.certificates.checking import check, issuer_of
from assessments.certificates.credential import credential
from assessments.certificates.proof import is_signed_by, signed
from assessments.certificates.status_list import SIZE, encoded, is_set
from curriculum.faults import RefusedError
from tests.assessments.certificates.certificate import (
    ADDRESSES,
    AT,
    CERTIFICATE,
    CONTEXTS,
    ISSUER,
    KEY,
    METHOD,
    PLACE,
    REACHED,
    signed_certificate,
    signed_list,
)

GOOD, CLEAN = signed_certificate(), signed_list(1, PLACE - 1, PLACE + 1)
STATUS = "https://www.w3.org/ns/credentials/status#"


def said(made: object, listed: object = CLEAN, now=AT) -> str:
    """The code of what a check says, or `good`."""
    try:
        check(made, ISSUER, listed, now, CONTEXTS)
    except RefusedError as refusal:
        return refusal.faults[0].code
    return "good"


def changed(made: dict, *path: object, to: object) -> dict:
    """A copy with one member changed, or taken out where `to` is None."""
    made = deepcopy(made)
    inner = made
    for step in path[:-1]:
        inner = inner[step]
    if to is None:
        del inner[path[-1]]
    else:
        inner[path[-1]] = to
    return made


def test_a_certificate_is_good_until_it_is_revoked_or_over():
    assert said(GOOD) == "good"
    assert said(GOOD, signed_list(PLACE)) == "revoked"
    assert said(GOOD, now=AT - timedelta(seconds=1)) == "not-yet"
    later = AT + timedelta(days=731)
    assert (
        said(GOOD, signed_list(validFrom="2028-11-25T00:00:00Z", validUntil="2028-11-29T00:00:00Z"), later) == "expired"
    )


@pytest.mark.parametrize(
    ("made", "code"),
    [
        (changed(GOOD, "credentialSubject", "identifier", 0, "identityHash", to="Somebody Else"), "bad-signature"),
        (changed(GOOD, "validUntil", to="2099-01-01T00:00:00Z"), "bad-signature"),
        (changed(GOOD, "credentialStatus", to=None), "bad-signature"),
        (changed(GOOD, "credentialStatus", "statusListIndex", to="5"), "bad-signature"),
        (changed(GOOD, "credentialSubject", "bonus", to="a licence"), "undefined-term"),
        (changed(GOOD, "proof", 0, "created", to="2020-01-01T00:00:00Z"), "bad-signature"),
        (changed(GOOD, "proof", 0, "proofValue", to="z" + "1" * 64), "bad-signature"),
        (changed(GOOD, "proof", 0, "verificationMethod", to=f"{ADDRESSES.issuer}#key-9"), "unknown-key"),
        (changed(GOOD, "issuer", "id", to="https://elsewhere.example/issuers/1"), "unknown-key"),
        (changed(GOOD, "proof", to=[]), "no-form"),
        (changed(GOOD, "proof", to=GOOD["proof"] * 2), "no-form"),
        (changed(GOOD, "@context", to=GOOD["@context"][:2]), "no-form"),
        (changed(GOOD, "proof", 0, "cryptosuite", to="eddsa-2022"), "no-form"),
        ({}, "no-form"),
        ([], "no-form"),
        ("certificate", "no-form"),
        ({"@context": GOOD["@context"], "name": [[[[[[[[[[[[[[[["deep"]]]]]]]]]]]]]]]]}, "no-form"),
        ({"@context": GOOD["@context"], "name": ["wide"] * 3000}, "no-form"),
    ],
)  # fmt: skip
def test_what_was_tampered_with_is_refused(made, code):
    assert said(made) == code


@pytest.mark.parametrize(
    "listed",
    [
        None,
        changed(CLEAN, "credentialSubject", "encodedList", to=encoded([])),
        signed_list(id=f"{ADDRESSES.issuer}/another"),
        signed_list(validFrom="2026-11-01T00:00:00Z", validUntil="2026-11-03T00:00:00Z"),
        signed_list(credentialSubject=signed_list()["credentialSubject"] | {"statusPurpose": "suspension"}),
        signed_list(credentialSubject=signed_list()["credentialSubject"] | {"encodedList": "uH4sIAAAAAAAA"}),
        {},
    ],
)
def test_without_the_right_list_nothing_is_said_to_be_good(listed):
    assert said(GOOD, listed) == "no-list"


def test_a_member_under_another_name_does_not_hide_a_revocation():
    """The same meaning, so the signature holds; but a reader who looks for `credentialStatus` would find none."""
    hidden = {name: value for name, value in GOOD.items() if name != "credentialStatus"}
    status = GOOD["credentialStatus"]
    hidden["https://www.w3.org/2018/credentials#credentialStatus"] = {
        "@id": status["id"],
        "@type": f"{STATUS}BitstringStatusListEntry",
        f"{STATUS}statusPurpose": status["statusPurpose"],
        f"{STATUS}statusListIndex": status["statusListIndex"],
        f"{STATUS}statusListCredential": {"@id": status["statusListCredential"]},
    }
    assert is_signed_by(hidden, hidden["proof"][0], ISSUER.keys[METHOD], CONTEXTS)
    assert said(hidden, signed_list(PLACE)) == "no-form"


def test_a_key_that_is_in_no_controller_document_signs_nothing():
    stranger = signed(credential(CERTIFICATE, ADDRESSES), Ed25519PrivateKey.generate(), METHOD, AT, CONTEXTS)
    assert said(stranger) == "bad-signature"
    with pytest.raises(RefusedError):
        issuer_of({"id": "https://school.example", "verificationMethod": [{"id": "a"}], "assertionMethod": ["a"]})


@pytest.mark.parametrize("place", [0, 7, 8, SIZE - 1])
def test_the_left_most_bit_is_number_nought(place):
    """Bitstring Status List 1.0, 3.2: the first index, 0, is the left-most bit."""
    text = encoded([place])
    assert [one for one in {0, 7, 8, 9, SIZE - 1} if is_set(text, one)] == [place]
    with pytest.raises(ValueError, match="too short"):
        is_set(text, SIZE)


def test_the_example_of_the_standard_is_read():
    """A list of 131,072 bits of which none is set, as in the examples of Bitstring Status List 1.0 (from memory)."""
    text = "uH4sIAAAAAAAAA-3BMQEAAADCoPVPbQwfoAAAAAAAAAAAAAAAAAAAAIC3AYbSVKsAQAAA"
    assert not any(is_set(text, place) for place in range(0, SIZE, 997))


@settings(max_examples=15, deadline=None)
@given(st.text(max_size=30))
def test_any_name_is_signed_and_checked_or_refused(name):
    subject = deepcopy(credential(CERTIFICATE, ADDRESSES)["credentialSubject"])
    subject["identifier"][0]["identityHash"] = name
    try:
        made = signed_certificate(credentialSubject=subject)
    except (RefusedError, UnicodeEncodeError):
        return
    assert said(json.loads(json.dumps(made))) == "good"


if os.environ.get("THROUGHLINE_REFERENCES"):
    import jsonschema

    OB = Path(os.environ["THROUGHLINE_REFERENCES"]) / "standards" / "ob30" / "schema"

    @pytest.mark.parametrize("reached", [(), REACHED])
    def test_the_official_schema_takes_it_with_references(reached):
        schema = json.loads((OB / "ob_v3p0_achievementcredential_schema.json").read_text("utf-8"))
        made = signed(credential(replace(CERTIFICATE, reached=reached), ADDRESSES), KEY, METHOD, AT, CONTEXTS)
        faults = list(
            jsonschema.Draft201909Validator(schema, format_checker=jsonschema.FormatChecker()).iter_errors(made)
        )
        assert faults == []
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate(made | {"proof": made["proof"][0]}, schema, jsonschema.Draft201909Validator)
