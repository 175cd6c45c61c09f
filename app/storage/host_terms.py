"""On what terms hosts take trainees, and how each host and trainee stand."""

from dataclasses import dataclass
from datetime import datetime

from sqlmodel import select

from app.storage.collection import Collection, fields_of, value_of
from app.storage.tables.hosts import HostTermsRow, HostTraineeRow

ASKED, TAKEN, DECLINED = "asked", "taken", "declined"


@dataclass(frozen=True, slots=True)
class Terms:
    """`observers_most` trainees at once, or as many as come (None); with `ask_first` only those whom the host takes."""

    host_id: str
    observers_most: int | None
    ask_first: bool
    since: datetime


@dataclass(frozen=True, slots=True)
class Standing:
    """`standing` is asked, taken or declined, since then."""

    host_id: str
    person_id: str
    standing: str
    since: datetime


class HostTerms(Collection):
    def of(self, host_id: str) -> Terms | None:
        """What a host said; None while they said nothing."""
        row = self._session.get(HostTermsRow, (self._school, host_id))
        return value_of(Terms, row) if row else None

    def all(self) -> dict[str, Terms]:
        rows = self._session.exec(select(HostTermsRow).where(HostTermsRow.school_id == self._school))
        return {row.host_id: value_of(Terms, row) for row in rows}

    def put(self, terms: Terms) -> None:
        self._put(HostTermsRow, (terms.host_id,), terms)

    def standing(self, host_id: str, person_id: str) -> Standing | None:
        row = self._session.get(HostTraineeRow, (self._school, host_id, person_id))
        return value_of(Standing, row) if row else None

    def standings_with(self, host_id: str) -> dict[str, Standing]:
        """By trainee."""
        return {one.person_id: one for one in self._standings(HostTraineeRow.host_id == host_id)}

    def standings_of(self, person_id: str) -> dict[str, Standing]:
        """By host."""
        return {one.host_id: one for one in self._standings(HostTraineeRow.person_id == person_id)}

    def put_standing(self, standing: Standing) -> None:
        self._put(HostTraineeRow, (standing.host_id, standing.person_id), standing)

    def _standings(self, which) -> list[Standing]:  # noqa: ANN001 - a column condition
        rows = self._session.exec(select(HostTraineeRow).where(HostTraineeRow.school_id == self._school, which))
        return [value_of(Standing, row) for row in rows]

    def _put(self, kind: type, key: tuple[str, ...], value: object) -> None:
        """Write it in place of what was there under this key."""
        row = self._session.get(kind, (self._school, *key))
        if row is None:
            self._add(kind(school_id=self._school, **fields_of(value)))
            return
        for name, one in fields_of(value).items():
            setattr(row, name, one)
        self._add(row)
