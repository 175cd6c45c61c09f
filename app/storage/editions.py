"""Published editions: their text, as it was published."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from sqlmodel import select

from app.storage.collection import Collection
from app.storage.tables.editions import EditionDraftRow, EditionRow

KINDS = ("requirements", "repertoire", "practical", "readiness", "machines", "spotting", "performances")


@dataclass(frozen=True, slots=True)
class Edition:
    """One edition; `documents` maps file names to YAML text and never changes."""

    id: str
    kind: str
    name: str
    number: str
    documents: Mapping[str, str]
    published_at: datetime


@dataclass(frozen=True, slots=True)
class EditionDraft:
    """An edition being written, maybe faulty; `version` grows with every change."""

    id: str
    kind: str
    name: str
    based_on: str | None
    documents: Mapping[str, str]
    version: int
    changed_by: str
    changed_at: datetime


class Editions(Collection):
    def add(self, edition: Edition) -> None:
        body = _body(edition.documents)
        self._add(
            EditionRow(
                school_id=self._school,
                id=edition.id,
                kind=edition.kind,
                name=edition.name,
                number=edition.number,
                documents=body,
                published_at=edition.published_at,
            )
        )

    def by_id(self, edition_id: str) -> Edition | None:
        """An edition, read once in a transaction: it never changes."""
        known = self.__dict__.setdefault("_read", {})
        if edition_id not in known:
            row = self._session.get(EditionRow, (self._school, edition_id))
            if row is None:
                return None
            known[edition_id] = _edition(row)
        return known[edition_id]

    def newest(self, kind: str) -> Edition | None:
        """The edition of a kind that was published last."""
        query = (
            select(EditionRow)
            .where(EditionRow.school_id == self._school, EditionRow.kind == kind)
            .order_by(EditionRow.published_at.desc(), EditionRow.id)
        )
        row = self._session.exec(query).first()
        return _edition(row) if row else None

    def of_kind(self, kind: str) -> list[Edition]:
        query = select(EditionRow).where(EditionRow.school_id == self._school, EditionRow.kind == kind)
        return sorted(map(_edition, self._session.exec(query)), key=lambda edition: (edition.name, edition.number))

    def all(self) -> list[Edition]:
        """Every edition, by kind, name and day of publishing."""
        rows = self._session.exec(select(EditionRow).where(EditionRow.school_id == self._school))
        return sorted(map(_edition, rows), key=lambda one: (KINDS.index(one.kind), one.name, one.published_at))

    def put_draft(self, draft: EditionDraft) -> None:
        row = self._session.get(EditionDraftRow, (self._school, draft.id)) or EditionDraftRow(
            school_id=self._school, id=draft.id, kind=draft.kind, name=draft.name, based_on=draft.based_on
        )
        row.documents, row.version = _body(draft.documents), draft.version
        row.changed_by, row.changed_at = draft.changed_by, draft.changed_at
        self._add(row)

    def draft(self, draft_id: str) -> EditionDraft | None:
        row = self._session.get(EditionDraftRow, (self._school, draft_id))
        return _draft(row) if row else None

    def drafts(self) -> list[EditionDraft]:
        rows = self._session.exec(select(EditionDraftRow).where(EditionDraftRow.school_id == self._school))
        return sorted(map(_draft, rows), key=lambda one: (KINDS.index(one.kind), one.name, one.changed_at))

    def drop_draft(self, draft_id: str) -> None:
        self._session.delete(self._session.get(EditionDraftRow, (self._school, draft_id)))
        self._session.flush()


def _body(documents: Mapping[str, str]) -> bytes:
    return json.dumps(dict(documents), sort_keys=True, ensure_ascii=False).encode()


def _draft(row: EditionDraftRow) -> EditionDraft:
    return EditionDraft(
        row.id, row.kind, row.name, row.based_on, json.loads(row.documents), row.version, row.changed_by, row.changed_at
    )


def _edition(row: EditionRow) -> Edition:
    return Edition(row.id, row.kind, row.name, row.number, json.loads(row.documents), row.published_at)
