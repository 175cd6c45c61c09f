"""The people of a school and their roles."""

from dataclasses import dataclass
from datetime import datetime

from sqlmodel import select

from app.storage.collection import Collection
from app.storage.tables.people import PersonRoleRow, PersonRow


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody with an account at a school."""

    id: str
    name: str
    email: str
    password_hash: str
    left_at: datetime | None = None


class People(Collection):
    def add(self, person: Person, roles: frozenset[str], at: datetime) -> None:
        self._add(
            PersonRow(
                school_id=self._school,
                id=person.id,
                name=person.name,
                email=person.email.lower(),
                password_hash=person.password_hash,
                joined_at=at,
                left_at=person.left_at,
            )
        )
        for role in sorted(roles):
            self._add(PersonRoleRow(school_id=self._school, person_id=person.id, role=role))

    def by_id(self, person_id: str) -> Person | None:
        row = self._session.get(PersonRow, (self._school, person_id))
        return _person(row) if row else None

    def by_email(self, email: str) -> Person | None:
        query = select(PersonRow).where(PersonRow.school_id == self._school, PersonRow.email == email.lower())
        row = self._session.exec(query).first()
        return _person(row) if row else None

    def roles(self, person_id: str) -> frozenset[str]:
        query = select(PersonRoleRow.role).where(
            PersonRoleRow.school_id == self._school, PersonRoleRow.person_id == person_id
        )
        return frozenset(self._session.exec(query))

    def with_role(self, role: str) -> list[Person]:
        """Everybody who has a role, by name."""
        query = (
            select(PersonRow)
            .join(
                PersonRoleRow,
                (PersonRoleRow.school_id == PersonRow.school_id) & (PersonRoleRow.person_id == PersonRow.id),
            )
            .where(PersonRow.school_id == self._school, PersonRoleRow.role == role)
        )
        return sorted(map(_person, self._session.exec(query)), key=lambda person: person.name)

    def gone(self) -> frozenset[str]:
        """The ids of those who have left the school."""
        query = select(PersonRow.id).where(PersonRow.school_id == self._school, PersonRow.left_at.is_not(None))
        return frozenset(self._session.exec(query))

    def names(self) -> dict[str, str]:
        """Name by id, of everybody."""
        query = select(PersonRow.id, PersonRow.name).where(PersonRow.school_id == self._school)
        return dict(self._session.exec(query).all())


def _person(row: PersonRow) -> Person:
    return Person(row.id, row.name, row.email, row.password_hash, row.left_at)
