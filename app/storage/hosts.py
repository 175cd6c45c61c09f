"""Host teachers as the school registered them, their private links, and what they decided."""

from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import update
from sqlmodel import func, select

from app.storage.collection import Collection, fields_of, value_of
from app.storage.tables.hosts import HostDecisionRow, HostLinkRow, HostRow

MAT_ONLY = "mat"


@dataclass(frozen=True, slots=True)
class Host:
    """A host teacher; may sign for days from `verified_on` to `eligible_until`.

    While `paused_at` is set, trainees are not offered the host, who still signs what waits.
    """

    id: str
    name: str
    email: str
    site: str
    level: str
    verified_on: date
    eligible_until: date | None = None
    person_id: str | None = None
    paused_at: datetime | None = None

    def eligible_on(self, day: date) -> bool:
        return self.verified_on <= day and (self.eligible_until is None or day <= self.eligible_until)

    def offered_on(self, day: date) -> bool:
        """Whether trainees may choose the host."""
        return self.eligible_on(day) and self.paused_at is None

    def teaches_on(self, apparatus: str) -> bool:
        """Whether the host's level goes as far as this apparatus ("": whatever)."""
        return self.level != MAT_ONLY or apparatus in ("", "mat")


@dataclass(frozen=True, slots=True)
class HostDecision:
    """What a host decided of one version of one session."""

    session_id: str
    version: int
    host_id: str
    decision: str
    reason_id: str | None
    receipt: str
    decided_at: datetime


class Hosts(Collection):
    def add(self, host: Host) -> None:
        self._add(HostRow(school_id=self._school, **fields_of(host)))

    def put(self, host: Host) -> None:
        """Write a host that is there already as it is now."""
        row = self._session.get(HostRow, (self._school, host.id))
        for name, value in fields_of(host).items():
            setattr(row, name, value)
        self._add(row)

    def by_id(self, host_id: str) -> Host | None:
        row = self._session.get(HostRow, (self._school, host_id))
        return value_of(Host, row) if row else None

    def all(self) -> list[Host]:
        rows = self._session.exec(select(HostRow).where(HostRow.school_id == self._school))
        return sorted((value_of(Host, row) for row in rows), key=lambda host: host.name)

    def add_link(self, token_hash: str, host_id: str, made_at: datetime, ends_at: datetime) -> None:
        self._add(
            HostLinkRow(
                school_id=self._school, token_hash=token_hash, host_id=host_id, made_at=made_at, ends_at=ends_at
            )
        )

    def by_link(self, token_hash: str, now: datetime) -> Host | None:
        """The host a private link belongs to, unless the link has ended."""
        row = self._session.get(HostLinkRow, (self._school, token_hash))
        return self.by_id(row.host_id) if row and row.ends_at > now else None

    def of_any_link(self, token_hash: str) -> Host | None:
        """The host a private link belongs to, or belonged to before it ended."""
        row = self._session.get(HostLinkRow, (self._school, token_hash))
        return self.by_id(row.host_id) if row else None

    def link_made_since(self, host_id: str, since: datetime) -> bool:
        """Whether a link was made that was not ended before its time."""
        query = select(HostLinkRow.token_hash).where(
            HostLinkRow.school_id == self._school,
            HostLinkRow.host_id == host_id,
            HostLinkRow.made_at >= since,
            HostLinkRow.ended_early.is_(False),
        )
        return self._session.exec(query).first() is not None

    def end_links(self, host_id: str, at: datetime) -> None:
        """No link made before opens anything any more."""
        own = (HostLinkRow.school_id == self._school) & (HostLinkRow.host_id == host_id) & (HostLinkRow.ends_at > at)
        self._session.execute(update(HostLinkRow).where(own).values(ends_at=at, ended_early=True))

    def links_made(self) -> dict[str, datetime]:
        """When the newest link of each host was made."""
        query = select(HostLinkRow.host_id, func.max(HostLinkRow.made_at)).where(HostLinkRow.school_id == self._school)
        return dict(self._session.exec(query.group_by(HostLinkRow.host_id)).all())

    def add_decision(self, decision: HostDecision) -> None:
        self._add(HostDecisionRow(school_id=self._school, **fields_of(decision)))

    def decisions(self, session_id: str) -> list[HostDecision]:
        """Every decision about a session, by version."""
        query = select(HostDecisionRow).where(
            HostDecisionRow.school_id == self._school, HostDecisionRow.session_id == session_id
        )
        found = [value_of(HostDecision, row) for row in self._session.exec(query)]
        return sorted(found, key=lambda decision: decision.version)

    def by_receipt(self, receipt: str) -> HostDecision | None:
        """The decision that a receipt's number was given for."""
        query = select(HostDecisionRow).where(
            HostDecisionRow.school_id == self._school, HostDecisionRow.receipt == receipt
        )
        row = self._session.exec(query).first()
        return value_of(HostDecision, row) if row else None

    def decided_by(self, host_id: str) -> list[HostDecision]:
        """Everything one host decided."""
        query = select(HostDecisionRow).where(
            HostDecisionRow.school_id == self._school, HostDecisionRow.host_id == host_id
        )
        return [value_of(HostDecision, row) for row in self._session.exec(query)]

    def signatures(self) -> list[HostDecision]:
        """Every signature that was given."""
        return [one for one in self.every_decision() if one.decision == "signed_off"]

    def newest_decisions(self, kinds: tuple[str, ...], most: int) -> list[HostDecision]:
        """Decisions of these kinds, newest first, at most so many."""
        query = select(HostDecisionRow).where(
            HostDecisionRow.school_id == self._school, HostDecisionRow.decision.in_(kinds)
        )
        newest = query.order_by(HostDecisionRow.decided_at.desc(), HostDecisionRow.receipt).limit(most)
        return [value_of(HostDecision, row) for row in self._session.exec(newest)]

    def every_decision(self) -> list[HostDecision]:
        """Whatever hosts decided."""
        rows = self._session.exec(select(HostDecisionRow).where(HostDecisionRow.school_id == self._school))
        return [value_of(HostDecision, row) for row in rows]
