"""Certificates, their keys, and who decided on them."""

from dataclasses import dataclass
from datetime import datetime

from sqlmodel import select

from app.storage.collection import Collection, fields_of, value_of
from app.storage.tables.certificates import (
    CertificateDecisionRow,
    CertificateRow,
    CertificateStepRow,
    SigningKeyRow,
)


@dataclass(frozen=True, slots=True)
class SigningKey:
    """`private_key` is PKCS#8, locked; `public_key` multibase."""

    id: str
    public_key: str
    private_key: str
    made_by: str
    made_at: datetime


@dataclass(frozen=True, slots=True)
class CertificateDecision:
    """`decision` is `certify` or `not-yet`."""

    id: str
    enrolment_id: str
    decision: str
    words: str
    made_by: str
    made_at: datetime


@dataclass(frozen=True, slots=True)
class KeptCertificate:
    """One certificate; its id is its number; `place` is its bit in the list of revoked ones."""

    id: str
    enrolment_id: str
    readiness_id: str
    code: str
    place: int

    @property
    def number(self) -> str:
        return self.id


@dataclass(frozen=True, slots=True)
class CertificateStep:
    """What was done with a certificate; `plain` and `detailed` are credentials (JSON) where the step signed some.

    Steps that only its holder takes are `shows-results` and `hides-results`.
    """

    certificate_id: str
    number: int
    step: str
    words: str
    until: datetime | None
    plain: str
    detailed: str
    made_by: str
    made_at: datetime


class Certificates(Collection):
    def add_key(self, key: SigningKey) -> None:
        self._add(SigningKeyRow(school_id=self._school, **fields_of(key)))

    def keys(self) -> list[SigningKey]:
        """Every key there ever was, the oldest first; the last one signs."""
        rows = self._session.exec(select(SigningKeyRow).where(SigningKeyRow.school_id == self._school))
        return sorted((value_of(SigningKey, row) for row in rows), key=lambda key: (key.made_at, key.id))

    def add_decision(self, decision: CertificateDecision) -> None:
        self._add(CertificateDecisionRow(school_id=self._school, **fields_of(decision)))

    def decisions(self, enrolment_id: str) -> list[CertificateDecision]:
        """The decisions on a trainee, in order."""
        query = select(CertificateDecisionRow).where(
            CertificateDecisionRow.school_id == self._school, CertificateDecisionRow.enrolment_id == enrolment_id
        )
        rows = (value_of(CertificateDecision, row) for row in self._session.exec(query))
        return sorted(rows, key=lambda one: one.made_at)

    def add(self, certificate: KeptCertificate) -> None:
        self._add(CertificateRow(school_id=self._school, **fields_of(certificate)))

    def by_id(self, certificate_id: str) -> KeptCertificate | None:
        row = self._session.get(CertificateRow, (self._school, certificate_id))
        return value_of(KeptCertificate, row) if row else None

    def of_enrolment(self, enrolment_id: str) -> list[KeptCertificate]:
        return [one for one in self.all() if one.enrolment_id == enrolment_id]

    def certified(self) -> frozenset[str]:
        """The enrolments on which a certificate was issued, whatever became of it."""
        query = select(CertificateRow.enrolment_id).where(CertificateRow.school_id == self._school)
        return frozenset(self._session.exec(query))

    def all(self) -> list[KeptCertificate]:
        """Every certificate, by number."""
        rows = self._session.exec(select(CertificateRow).where(CertificateRow.school_id == self._school))
        return sorted((value_of(KeptCertificate, row) for row in rows), key=lambda one: one.id)

    def add_step(self, step: CertificateStep) -> None:
        self._add(CertificateStepRow(school_id=self._school, **fields_of(step)))

    def steps(self, certificate_id: str) -> list[CertificateStep]:
        """What was done with one, in order."""
        query = select(CertificateStepRow).where(
            CertificateStepRow.school_id == self._school, CertificateStepRow.certificate_id == certificate_id
        )
        rows = (value_of(CertificateStep, row) for row in self._session.exec(query))
        return sorted(rows, key=lambda step: step.number)

    def ended(self) -> frozenset[int]:
        """The places of all that are revoked or given up."""
        query = (
            select(CertificateRow.place)
            .join(
                CertificateStepRow,
                (CertificateStepRow.school_id == CertificateRow.school_id)
                & (CertificateStepRow.certificate_id == CertificateRow.id),
            )
            .where(CertificateRow.school_id == self._school, CertificateStepRow.step.in_(("revoked", "given-up")))
        )
        return frozenset(self._session.exec(query))
