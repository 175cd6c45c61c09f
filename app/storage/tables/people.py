"""Schools, the people in them, and who is signed in."""

from datetime import datetime

from sqlalchemy import Index, UniqueConstraint
from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class SchoolRow(SQLModel, table=True):
    __tablename__ = "school"
    id: str = Field(primary_key=True, max_length=36)
    slug: str = Field(unique=True, max_length=60)
    name: str
    time_zone: str
    locale: str = "en"


class PersonRow(SQLModel, table=True):
    __tablename__ = "person"
    __table_args__ = (UniqueConstraint("school_id", "email"),)
    school_id: str = of_school()
    id: str = own_id()
    name: str
    email: str
    password_hash: str
    joined_at: datetime = Field(sa_type=Instant)
    left_at: datetime | None = Field(default=None, sa_type=Instant)


class PersonRoleRow(SQLModel, table=True):
    __tablename__ = "person_role"
    __table_args__ = (refers("person_id", "person"),)
    school_id: str = of_school()
    person_id: str = own_id()
    role: str = Field(primary_key=True, max_length=20)


class SignInRow(SQLModel, table=True):
    __tablename__ = "sign_in"
    __table_args__ = (refers("person_id", "person"), Index(None, "school_id", "person_id"))
    school_id: str = of_school()
    token_hash: str = Field(primary_key=True, max_length=64)
    person_id: str = Field(max_length=36)
    started_at: datetime = Field(sa_type=Instant)
    ends_at: datetime = Field(sa_type=Instant)
    notice: str = ""


class SignInAttemptRow(SQLModel, table=True):
    """One failed attempt; `who` is a hash of the address typed or of the network address."""

    __tablename__ = "sign_in_attempt"
    __table_args__ = (Index(None, "school_id", "who", "at"),)
    school_id: str = of_school()
    id: str = own_id()
    who: str = Field(max_length=64)
    at: datetime = Field(sa_type=Instant)
