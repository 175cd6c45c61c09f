"""Published editions: their text, as it was published."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from sqlmodel import select

from app.storage.collection import Collection
from app.storage.tables.editions import EditionRow

KINDS = ("requirements", "repertoire", "practical", "readiness")


@dataclass(frozen=True, slots=True)
class Edition:
    """One edition; `documents` maps file names to YAML text and never changes."""

    id: str
    kind: str
    name: str
    number: str
    documents: Mapping[str, str]
    published_at: datetime


class Editions(Collection):
    def add(self, edition: Edition) -> None:
        body = json.dumps(dict(edition.documents), sort_keys=True, ensure_ascii=False).encode()
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
        row = self._session.get(EditionRow, (self._school, edition_id))
        return _edition(row) if row else None

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


def _edition(row: EditionRow) -> Edition:
    return Edition(row.id, row.kind, row.name, row.number, json.loads(row.documents), row.published_at)
