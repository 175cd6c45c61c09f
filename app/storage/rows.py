"""What every collection shares: the open session and the school whose rows it may touch."""

from typing import Any, TypeVar

from sqlmodel import Session, SQLModel, select

Row = TypeVar("Row", bound=SQLModel)


class Rows:
    """A collection within one school and one transaction."""

    def __init__(self, session: Session, school_id: str) -> None:
        self.session = session
        self.school_id = school_id

    def put_row(self, row: SQLModel) -> None:
        """Store at once, so that a refusal by the database is raised here."""
        self.session.add(row)
        self.session.flush()

    def one(self, table: type[Row], **values: Any) -> Row | None:
        return self.session.exec(self.where(table, **values)).first()

    def many(self, table: type[Row], *order: Any, **values: Any) -> list[Row]:
        return list(self.session.exec(self.where(table, **values).order_by(*order)))

    def where(self, table: type[Row], **values: Any):  # noqa: ANN201 - SQLModel's own select type
        return select(table).filter_by(school_id=self.school_id, **values)
