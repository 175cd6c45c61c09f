"""Places in lessons of hosts that trainees asked for: on which day and when, and what the host answered."""

from dataclasses import dataclass
from datetime import date, datetime

from sqlmodel import select

from app.storage.collection import Collection, fields_of, value_of
from app.storage.tables.hosts import HostPlaceRow

ASKED, TAKEN, DECLINED, GIVEN_BACK = "asked", "taken", "declined", "given_back"
OBSERVATION = "observation"


@dataclass(frozen=True, slots=True)
class Place:
    """`start` and `end` are minutes of the school's day; `standing` is asked, taken, declined or given_back, since then."""

    id: str
    host_id: str
    person_id: str
    day: date
    start: int
    end: int
    activity: str
    apparatus: str
    level: str
    standing: str
    since: datetime

    @property
    def observes(self) -> bool:
        """Whether it takes one of the places that a host has for observers."""
        return self.activity == OBSERVATION


class Places(Collection):
    def by_id(self, place_id: str) -> Place | None:
        row = self._session.get(HostPlaceRow, (self._school, place_id))
        return value_of(Place, row) if row else None

    def put(self, place: Place) -> None:
        """Write it in place of what was there under its id."""
        row = self._session.get(HostPlaceRow, (self._school, place.id))
        if row is None:
            self._add(HostPlaceRow(school_id=self._school, **fields_of(place)))
            return
        row.standing, row.since = place.standing, place.since
        self._add(row)

    def of_host(self, host_id: str, first: date) -> list[Place]:
        """From this day on, in the order in which they take place."""
        return self._some(HostPlaceRow.host_id == host_id, first)

    def of_person(self, person_id: str, first: date) -> list[Place]:
        return self._some(HostPlaceRow.person_id == person_id, first)

    def taken_on(self, day: date) -> list[Place]:
        """Places of every host on one day that are taken."""
        return [one for one in self._some(HostPlaceRow.day == day, day) if one.standing == TAKEN]

    def _some(self, which, first: date) -> list[Place]:  # noqa: ANN001 - a column condition
        query = select(HostPlaceRow).where(HostPlaceRow.school_id == self._school, which, HostPlaceRow.day >= first)
        found = [value_of(Place, row) for row in self._session.exec(query)]
        return sorted(found, key=lambda one: (one.day, one.start, one.id))
