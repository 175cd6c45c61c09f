"""Certificates: the keys that sign them, who decided on them, each one, and what was done with it. All of it stays."""

from datetime import datetime

from sqlalchemy import UniqueConstraint
from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class SigningKeyRow(SQLModel, table=True):
    """An Ed25519 key: `public_key` as multibase, `private_key` as PKCS#8 locked with a passphrase that is not kept here."""

    __tablename__ = "signing_key"
    __table_args__ = (refers("made_by", "person"),)
    school_id: str = of_school()
    id: str = own_id()
    public_key: str = Field(max_length=60)
    private_key: str
    made_by: str = Field(max_length=36)
    made_at: datetime = Field(sa_type=Instant)


class CertificateDecisionRow(SQLModel, table=True):
    """What somebody decided on a trainee's certificate: `certify` or `not-yet`, with the reason."""

    __tablename__ = "certificate_decision"
    __table_args__ = (refers("enrolment_id", "enrolment"), refers("made_by", "person"))
    school_id: str = of_school()
    id: str = own_id()
    enrolment_id: str = Field(max_length=36)
    decision: str = Field(max_length=20)
    words: str
    made_by: str = Field(max_length=36)
    made_at: datetime = Field(sa_type=Instant)


class CertificateRow(SQLModel, table=True):
    """Its id is its number; `place` is its bit in the school's list of revoked certificates."""

    __tablename__ = "certificate"
    __table_args__ = (
        refers("enrolment_id", "enrolment"),
        refers("readiness_id", "edition"),
        UniqueConstraint("school_id", "place"),
    )
    school_id: str = of_school()
    id: str = own_id()
    enrolment_id: str = Field(max_length=36)
    readiness_id: str = Field(max_length=36)
    code: str = Field(max_length=8)
    place: int


class CertificateStepRow(SQLModel, table=True):
    """One step of its life; `plain` and `detailed` are the signed credentials (JSON) that a step made, or nothing."""

    __tablename__ = "certificate_step"
    __table_args__ = (refers("certificate_id", "certificate"), refers("made_by", "person"))
    school_id: str = of_school()
    certificate_id: str = own_id()
    number: int = Field(primary_key=True)
    step: str = Field(max_length=20)
    words: str
    until: datetime | None = Field(default=None, sa_type=Instant)
    plain: str = ""
    detailed: str = ""
    made_by: str = Field(max_length=36)
    made_at: datetime = Field(sa_type=Instant)
