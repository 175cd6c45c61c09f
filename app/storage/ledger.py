"""The hour ledger: versions of sessions in, sessions as they stand out."""

import json
from collections import defaultdict
from collections.abc import Iterable
from datetime import date, datetime

from sqlmodel import func, select

from app.storage.collection import Collection
from app.storage.tables.ledger import SessionNowRow, SessionPartRow, SessionVersionRow
from app.storage.tables.records import PersonalTextRow
from assessments.hours.session import KEPT_BY_THE_SCHOOL, Part, Session

NOW, VERSION, PART = SessionNowRow, SessionVersionRow, SessionPartRow


class Ledger(Collection):
    def add_version(
        self, session: Session, enrolment_id: str, note_id: str | None, evidence: str, by: str, at: datetime
    ) -> None:
        """Write a version with its parts, and make it the one that stands."""
        key = {"school_id": self._school, "session_id": session.id, "version": session.version}
        self._insert(VERSION, key | {
            "enrolment_id": enrolment_id, "host_id": session.host or None, "day": session.day,
            "start_minute": session.start, "end_minute": session.end, "break_minutes": session.breaks,
            "first_day": session.first, "site": session.site, "setting": session.setting, "proof": session.proof,
            "evidence": evidence, "note_id": note_id, "logged_by": by, "logged_at": at,
        })  # fmt: skip
        if session.parts:
            parts = enumerate(session.parts, start=1)
            self._insert(PART, *(key | {"place": place} | _part_columns(part) for place, part in parts))
        self._stand(session, enrolment_id, at)

    def set_state(self, session_id: str, state: str, at: datetime) -> None:
        row = self._session.get(NOW, (self._school, session_id))
        row.state, row.changed_at = state, at
        self._add(row)

    def now(self, session_id: str) -> Session | None:
        """A session as it stands."""
        return next(iter(self._sessions(NOW.session_id == session_id)), None)

    def logged(self, session_id: str, version: int) -> tuple[Session, str | None] | None:
        """One version as it was logged (not where it stands), and the id of its note."""
        row = self._session.get(VERSION, (self._school, session_id, version))
        if row is None:
            return None
        parts = self._session.exec(
            select(PART)
            .where(PART.school_id == self._school, PART.session_id == session_id, PART.version == version)
            .order_by(PART.place)
        ).all()
        session = Session(
            session_id, row.day, row.start_minute, row.end_minute,
            tuple(
                Part(one.minutes, one.activity, one.apparatus, one.level, one.mode, one.client, json.loads(one.more))
                for one in parts
            ),
            row.break_minutes, row.host_id or "", row.site, row.setting, row.proof, version, first=row.first_day,
        )  # fmt: skip
        return session, row.note_id

    def of_enrolment(self, enrolment_id: str) -> tuple[Session, ...]:
        """Every session of an enrolment as it stands, in (day, id) order."""
        return self._sessions(NOW.enrolment_id == enrolment_id)

    def on_days(self, enrolment_id: str, days: Iterable[date]) -> tuple[Session, ...]:
        """Those of one enrolment that end on one of these days, which is cheap however many there are."""
        return self._sessions((NOW.enrolment_id == enrolment_id) & NOW.day.in_(set(days)))

    def evidence_of(self, enrolment_id: str) -> dict[str, tuple[str, str, datetime]]:
        """On what evidence the school took what it keeps, by whom (a person's id) and when; by session."""
        key = (NOW.school_id == VERSION.school_id) & (NOW.session_id == VERSION.session_id)
        rows = self._session.execute(
            select(VERSION.session_id, VERSION.evidence, VERSION.logged_by, VERSION.logged_at)
            .join(NOW, key & (NOW.version == VERSION.version))
            .where(NOW.school_id == self._school, NOW.enrolment_id == enrolment_id)
            .where(VERSION.proof.in_(KEPT_BY_THE_SCHOOL))
        )
        return {session_id: tuple(rest) for session_id, *rest in rows}

    def waiting_for(self, host_id: str) -> tuple[tuple[str, Session], ...]:
        """(enrolment id, session) of what waits for a host."""
        return self._of_host(host_id, "waiting")

    def signed_by(self, host_id: str) -> tuple[tuple[str, Session], ...]:
        """(enrolment id, session) of what stands signed by a host, in (day, id) order."""
        return self._of_host(host_id, "signed_off")

    def waiting_by_host(self) -> dict[str, tuple[int, date]]:
        """How many sessions wait for each host that any wait for, and the day of the oldest."""
        query = select(NOW.host_id, func.count(), func.min(NOW.day)).where(
            NOW.school_id == self._school, NOW.state == "waiting", NOW.host_id.is_not(None)
        )
        return {host: (number, day) for host, number, day in self._session.exec(query.group_by(NOW.host_id)).all()}

    def enrolment_of(self, session_id: str) -> str | None:
        row = self._session.get(NOW, (self._school, session_id))
        return row.enrolment_id if row else None

    def versions(self, session_id: str) -> int:
        """How many versions a session has."""
        row = self._session.get(NOW, (self._school, session_id))
        return row.version if row else 0

    def changed_at(self, enrolment_id: str) -> str:
        """When anything of an enrolment's sessions last changed, and how many there are."""
        return self._changes(NOW.enrolment_id == enrolment_id)[enrolment_id]

    def all_changed_at(self) -> dict[str, str]:
        """The same of every enrolment at once, by its id."""
        return self._changes()

    def _changes(self, *which) -> dict[str, str]:  # noqa: ANN002 - column conditions
        query = (
            select(NOW.enrolment_id, func.count(), func.sum(NOW.version), func.max(NOW.changed_at))
            .where(NOW.school_id == self._school, *which)
            .group_by(NOW.enrolment_id)
        )
        rows = self._session.exec(query).all()
        return defaultdict(lambda: "0/0/None", {one: "/".join(map(str, rest)) for one, *rest in rows})

    def changed_since(self, enrolment_id: str, at: datetime) -> dict[str, list[tuple[int, datetime]]]:
        """The sessions of an enrolment that changed after `at`, each with its versions and when they were logged."""
        key = (NOW.school_id == VERSION.school_id) & (NOW.session_id == VERSION.session_id)
        rows = self._session.execute(
            select(VERSION.session_id, VERSION.version, VERSION.logged_at)
            .join(NOW, key)
            .where(NOW.school_id == self._school, NOW.enrolment_id == enrolment_id, NOW.changed_at > at)
            .order_by(VERSION.session_id, VERSION.version)
        )
        found: dict[str, list[tuple[int, datetime]]] = defaultdict(list)
        for session_id, version, logged_at in rows:
            found[session_id].append((version, logged_at))
        return dict(found)

    def every_version(self) -> list[tuple[str, str, Session]]:
        """Every version there ever was: enrolment, evidence, the session (its state is not of the version: empty)."""
        parts: dict[tuple[str, int], list[Part]] = defaultdict(list)
        for row in self._session.exec(select(PART).where(PART.school_id == self._school).order_by(PART.place)):
            more = json.loads(row.more)
            part = Part(row.minutes, row.activity, row.apparatus, row.level, row.mode, row.client, more)
            parts[row.session_id, row.version].append(part)
        return [
            (row.enrolment_id, row.evidence, _version(row, tuple(parts[row.session_id, row.version])))
            for row in self._session.exec(select(VERSION).where(VERSION.school_id == self._school))
        ]

    def logged_at(self) -> dict[str, tuple[str, datetime]]:
        """Of every session the enrolment it belongs to, and when it was first logged."""
        query = select(VERSION.session_id, VERSION.enrolment_id, VERSION.logged_at)
        rows = self._session.exec(query.where(VERSION.school_id == self._school, VERSION.version == 1))
        return {session: (enrolment, at) for session, enrolment, at in rows}

    def notes_to(self) -> dict[str, str]:
        """The words of the note to each session as it stands that has one; erased words are left out."""
        key = (NOW.school_id == VERSION.school_id) & (NOW.session_id == VERSION.session_id)
        words = (VERSION.school_id == PersonalTextRow.school_id) & (VERSION.note_id == PersonalTextRow.id)
        rows = self._session.execute(
            select(NOW.session_id, PersonalTextRow.words)
            .join(VERSION, key & (NOW.version == VERSION.version))
            .join(PersonalTextRow, words)
            .where(NOW.school_id == self._school, PersonalTextRow.words.is_not(None))
        )
        return {session: words for session, words in rows}  # noqa: C416

    def states(self) -> dict[str, tuple[int, str]]:
        """Version and state of every session as it stands."""
        query = select(NOW.session_id, NOW.version, NOW.state).where(NOW.school_id == self._school)
        return {id: (version, state) for id, version, state in self._session.exec(query)}

    def _of_host(self, host_id: str, state: str) -> tuple[tuple[str, Session], ...]:
        own = (NOW.host_id == host_id) & (NOW.state == state)
        query = select(NOW.session_id, NOW.enrolment_id).where(NOW.school_id == self._school, own)
        enrolments = dict(self._session.exec(query).all())
        return tuple((enrolments[session.id], session) for session in self._sessions(own))

    def _stand(self, session: Session, enrolment_id: str, at: datetime) -> None:
        now = {
            "host_id": session.host or None, "day": session.day, "version": session.version, "state": session.state,
            "changed_at": at,
        }  # fmt: skip
        if session.version == 1:
            key = {"school_id": self._school, "session_id": session.id, "enrolment_id": enrolment_id}
            self._insert(NOW, key | now)
            return
        row = self._session.get(NOW, (self._school, session.id))
        for name, value in now.items():
            setattr(row, name, value)
        self._add(row)

    def _sessions(self, which) -> tuple[Session, ...]:  # noqa: ANN001 - a column condition
        key = (NOW.school_id == VERSION.school_id) & (NOW.session_id == VERSION.session_id)
        version_columns = (
            VERSION.session_id, VERSION.day, VERSION.start_minute, VERSION.end_minute, VERSION.break_minutes,
            VERSION.host_id, VERSION.site, VERSION.setting, VERSION.proof, VERSION.version, VERSION.first_day,
        )  # fmt: skip
        rows = self._session.execute(
            select(*version_columns, NOW.state)
            .join(VERSION, key & (NOW.version == VERSION.version))
            .where(NOW.school_id == self._school, which)
            .order_by(VERSION.day, VERSION.session_id)
        ).all()
        parts = self._parts(which) if rows else {}
        return tuple(
            Session(id, day, start, end, parts[id], breaks, host or "", site, setting, proof, version, state, first)
            for id, day, start, end, breaks, host, site, setting, proof, version, first, state in rows
        )

    def _parts(self, which) -> dict[str, tuple[Part, ...]]:  # noqa: ANN001
        key = (NOW.school_id == PART.school_id) & (NOW.session_id == PART.session_id) & (NOW.version == PART.version)
        columns = (PART.minutes, PART.activity, PART.apparatus, PART.level, PART.mode, PART.client, PART.more)
        rows: Iterable = self._session.execute(
            select(PART.session_id, *columns)
            .join(NOW, key)
            .where(NOW.school_id == self._school, which)
            .order_by(PART.session_id, PART.place)
        ).all()
        found: dict[str, list[Part]] = defaultdict(list)
        for session_id, *values, more in rows:
            found[session_id].append(Part(*values, json.loads(more) if more != "{}" else {}))
        return defaultdict(tuple, {session_id: tuple(parts) for session_id, parts in found.items()})


def _part_columns(part: Part) -> dict[str, object]:
    return {
        "minutes": part.minutes, "activity": part.activity, "apparatus": part.apparatus, "level": part.level,
        "mode": part.mode, "client": part.client, "more": json.dumps(dict(part.more), sort_keys=True),
    }  # fmt: skip


def _version(row: VERSION, parts: tuple[Part, ...]) -> Session:
    return Session(
        row.session_id, row.day, row.start_minute, row.end_minute, parts, row.break_minutes, row.host_id or "",
        row.site, row.setting, row.proof, row.version, "", row.first_day,
    )  # fmt: skip
