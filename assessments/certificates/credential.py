"""A certificate as an Open Badges 3.0 credential (1EdTech 2024), before it is signed."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from assessments.certificates.proof import instant
from assessments.certificates.status_list import CONTEXT, entry

OPEN_BADGES = "https://purl.imsglobal.org/spec/ob/v3p0/"
# In this order, and all three: without the last the credential's schema would be left out of what is signed.
CONTEXTS = (CONTEXT, f"{OPEN_BADGES}context-3.0.3.json", f"{OPEN_BADGES}extensions.json")
SCHEMA = f"{OPEN_BADGES}schema/json/ob_v3p0_achievementcredential_schema.json"


@dataclass(frozen=True, slots=True)
class Addresses:
    """Where a school's public things are, all below the address of this installation."""

    start: str
    slug: str

    @property
    def issuer(self) -> str:
        return f"{self.start}/issuers/{self.slug}"

    @property
    def status_list(self) -> str:
        return f"{self.start}/issuers/{self.slug}/revoked"

    def key(self, key_id: str) -> str:
        return f"{self.issuer}#{key_id}"

    def check(self, written: str) -> str:
        """The page that checks a certificate, and below it the credential."""
        return f"{self.start}/verify/{self.slug}/{written}"

    def achievement(self, edition_id: str) -> str:
        return f"{self.issuer}/achievements/{edition_id}"


@dataclass(frozen=True, slots=True)
class Reached:
    """A figure the holder chose to show: what it is, what was asked for, what there is, both as text.

    `unit` is `hours` or `outcome`.
    """

    id: str
    title: str
    unit: str
    value: str
    asked: str = ""


@dataclass(frozen=True, slots=True)
class Certificate:
    """What a certificate says. `written` is its number with its check code; `place` its bit in the list of revoked ones."""

    written: str
    number: str
    holder: str
    school: str
    edition_id: str
    title: str
    description: str
    criteria: str
    version: str
    language: str
    place: int
    valid_from: datetime
    valid_until: datetime | None = None
    reached: Sequence[Reached] = ()


def credential(one: Certificate, at: Addresses) -> dict[str, Any]:
    """The credential. It names no licence: a certificate says that a training was completed, not who may practise."""
    check = at.check(one.written)
    made: dict[str, Any] = {
        "@context": list(CONTEXTS),
        "id": f"{check}/credential.json" if not one.reached else f"{check}/credential-with-results.json",
        "type": ["VerifiableCredential", "OpenBadgeCredential"],
        "name": one.title,
        "issuer": {"id": at.issuer, "type": ["Profile"], "name": one.school},
        "validFrom": instant(one.valid_from),
        "awardedDate": instant(one.valid_from),
        "credentialSubject": _subject(one, at),
        "credentialStatus": entry(at.status_list, one.place),
        "credentialSchema": [{"id": SCHEMA, "type": "1EdTechJsonSchemaValidator2019"}],
    }
    if one.valid_until:
        made["validUntil"] = instant(one.valid_until)
    return made


def _subject(one: Certificate, at: Addresses) -> Mapping[str, Any]:
    achievement = {
        "id": at.achievement(one.edition_id),
        "type": ["Achievement"],
        "achievementType": "Certificate",
        "name": one.title,
        "description": one.description,
        "criteria": {"id": at.achievement(one.edition_id), "narrative": one.criteria},
        "version": one.version,
        "inLanguage": one.language,
    }
    subject = {
        "type": ["AchievementSubject"],
        "identifier": [_identity("name", one.holder), _identity("identifier", one.number)],
        "achievement": achievement,
    }
    if one.reached:
        achievement["resultDescription"] = [_description(each, at, one.edition_id) for each in one.reached]
        subject["result"] = [_result(each, at, one.edition_id) for each in one.reached]
    return subject


def _identity(kind: str, text: str) -> Mapping[str, Any]:
    return {"type": "IdentityObject", "hashed": False, "identityHash": text, "identityType": kind}


def _description(one: Reached, at: Addresses, edition_id: str) -> Mapping[str, Any]:
    made = {"id": _result_id(one, at, edition_id), "type": ["ResultDescription"], "name": one.title}
    made["resultType"] = "ext:ClockHours" if one.unit == "hours" else "Status"
    return made | ({"requiredValue": one.asked} if one.asked else {})


def _result(one: Reached, at: Addresses, edition_id: str) -> Mapping[str, Any]:
    said = {"value": one.value} if one.unit == "hours" else {"status": one.value}
    return {"type": ["Result"], "resultDescription": _result_id(one, at, edition_id), **said}


def _result_id(one: Reached, at: Addresses, edition_id: str) -> str:
    return f"{at.achievement(edition_id)}#{one.id}"


def controller(at: Addresses, keys: Mapping[str, str]) -> dict[str, Any]:
    """The issuer's controller document (W3C Controlled Identifiers 1.0); `keys` are `publicKeyMultibase` by id, all there were."""
    methods = [
        {"id": at.key(id), "type": "Multikey", "controller": at.issuer, "publicKeyMultibase": public}
        for id, public in keys.items()
    ]
    return {
        # The older names of the same terms, which more programs know.
        "@context": ["https://www.w3.org/ns/did/v1", "https://w3id.org/security/multikey/v1"],
        "id": at.issuer,
        "verificationMethod": methods,
        "assertionMethod": [one["id"] for one in methods],
    }
