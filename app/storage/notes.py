"""Notes of sessions: versions in, the newest out."""

import json
from collections import defaultdict
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy.orm import aliased
from sqlmodel import func, select

from app.storage.collection import Collection
from app.storage.tables.ledger import SessionNowRow
from app.storage.tables.notes import NotedExerciseRow, SessionNoteRow
from app.storage.tables.records import PersonalTextRow
from curriculum.competencies.notes import NotedExercise, NotedFault

NOTE, LINE, NOW = SessionNoteRow, NotedExerciseRow, SessionNowRow


@dataclass(frozen=True, slots=True)
class SessionNote:
    """One version of what was noted of one session."""

    session_id: str
    version: int
    enrolment_id: str
    edition_id: str
    noted_by: str
    noted_at: datetime
    lines: tuple[NotedExercise, ...] = ()


class Notes(Collection):
    def add_version(self, note: SessionNote, words_ids: tuple[str | None, ...]) -> None:
        """Write a version; `words_ids` name the personal texts of its lines, in their order."""
        names = ("session_id", "version", "enrolment_id", "edition_id", "noted_by", "noted_at")
        self._add(NOTE(school_id=self._school, **{name: getattr(note, name) for name in names}))
        for place, (line, words_id) in enumerate(zip(note.lines, words_ids, strict=True), start=1):
            faults = {one.fault: list(one.mended) for one in line.faults}
            self._add(
                LINE(
                    school_id=self._school, session_id=note.session_id, version=note.version, place=place,
                    activity=line.activity, exercise=line.exercise, cues=json.dumps(list(line.cues)),
                    faults=json.dumps(faults), words_id=words_id,
                )
            )  # fmt: skip

    def newest(self, session_id: str) -> SessionNote | None:
        """What is noted of a session now."""
        return next(iter(self._notes(NOTE.session_id == session_id)), None)

    def of_enrolment(self, enrolment_id: str) -> tuple[SessionNote, ...]:
        """What is noted now of every session of an enrolment, by the session's id."""
        return self._notes(NOTE.enrolment_id == enrolment_id)

    def seen_by_enrolment(self) -> tuple[tuple[str, str, str, str], ...]:
        """Of the whole school, once each: (enrolment id, session's state, activity, exercise) as noted now."""
        of_line = (LINE.school_id == NOTE.school_id) & (LINE.session_id == NOTE.session_id)
        of_now = (NOW.school_id == NOTE.school_id) & (NOW.session_id == NOTE.session_id)
        query = (
            select(NOTE.enrolment_id, NOW.state, LINE.activity, LINE.exercise)
            .join(LINE, of_line & (LINE.version == NOTE.version))
            .join(NOW, of_now)
            .where(NOTE.school_id == self._school, self._is_newest())
            .distinct()
        )
        return tuple(map(tuple, self._session.execute(query).all()))

    def _notes(self, which) -> tuple[SessionNote, ...]:  # noqa: ANN001 - a column condition
        own = (NOTE.school_id == self._school, which, self._is_newest())
        rows = self._session.exec(select(NOTE).where(*own).order_by(NOTE.session_id)).all()
        lines = self._lines(own)
        return tuple(
            SessionNote(
                row.session_id, row.version, row.enrolment_id, row.edition_id, row.noted_by, row.noted_at,
                tuple(lines[row.session_id]),
            )
            for row in rows
        )  # fmt: skip

    def _lines(self, own: tuple) -> dict[str, list[NotedExercise]]:
        of_note = (LINE.school_id == NOTE.school_id) & (LINE.session_id == NOTE.session_id)
        of_words = (PersonalTextRow.school_id == LINE.school_id) & (PersonalTextRow.id == LINE.words_id)
        query = (
            select(LINE, PersonalTextRow.words)
            .join(NOTE, of_note & (LINE.version == NOTE.version))
            .outerjoin(PersonalTextRow, of_words)
            .where(*own)
            .order_by(LINE.session_id, LINE.place)
        )
        found = defaultdict(list)
        for row, words in self._session.execute(query):
            faults = tuple(NotedFault(fault, tuple(mended)) for fault, mended in json.loads(row.faults).items())
            cues = tuple(json.loads(row.cues))
            found[row.session_id].append(NotedExercise(row.activity, row.exercise, cues, faults, words or ""))
        return found

    def _is_newest(self):  # noqa: ANN202 - a column condition
        later = aliased(NOTE)
        newest = select(func.max(later.version)).where(
            later.school_id == NOTE.school_id, later.session_id == NOTE.session_id
        )
        return NOTE.version == newest.correlate(NOTE).scalar_subquery()
