"""On-the-spot signing: hosts' PINs and the codes that name a session, both kept as hashes alone."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import delete

from app.storage.collection import Collection, fields_of, value_of
from app.storage.tables.hosts import HostPinRow, SpotCodeRow


@dataclass(frozen=True, slots=True)
class HostPin:
    """`wrong` counts the tries since it was last right."""

    host_id: str
    pin_hash: str
    set_at: datetime
    wrong: int = 0


@dataclass(frozen=True, slots=True)
class SpotCode:
    """Names one version of one session until `ends_at`; `tried` counts the PINs given with it."""

    code_hash: str
    session_id: str
    version: int
    ends_at: datetime
    used: bool = False
    tried: int = 0


class SpotCodes(Collection):
    def pin_of(self, host_id: str) -> HostPin | None:
        row = self._session.get(HostPinRow, (self._school, host_id))
        return value_of(HostPin, row) if row else None

    def put_pin(self, pin: HostPin) -> None:
        """In place of the host's earlier one, if there was one."""
        row = self._session.get(HostPinRow, (self._school, pin.host_id))
        if row is None:
            self._add(HostPinRow(school_id=self._school, **fields_of(pin)))
            return
        row.pin_hash, row.set_at, row.wrong = pin.pin_hash, pin.set_at, pin.wrong
        self._add(row)

    def end_pin(self, host_id: str) -> bool:
        """Whether there was one."""
        own = (HostPinRow.school_id == self._school) & (HostPinRow.host_id == host_id)
        return bool(self._session.execute(delete(HostPinRow).where(own)).rowcount)

    def add_code(self, code: SpotCode, now: datetime) -> None:
        """The only code of its session from now on; codes that have ended are let go."""
        old = (SpotCodeRow.session_id == code.session_id) | (SpotCodeRow.ends_at <= now)
        self._session.execute(delete(SpotCodeRow).where(SpotCodeRow.school_id == self._school, old))
        self._add(SpotCodeRow(school_id=self._school, **fields_of(code)))

    def code(self, code_hash: str, now: datetime) -> SpotCode | None:
        """A code that still works."""
        row = self._session.get(SpotCodeRow, (self._school, code_hash))
        return value_of(SpotCode, row) if row and row.ends_at > now and not row.used else None

    def put_code(self, code: SpotCode) -> None:
        """Write a code that is there already as it is now."""
        row = self._session.get(SpotCodeRow, (self._school, code.code_hash))
        row.used, row.tried = code.used, code.tried
        self._add(row)
