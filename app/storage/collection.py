"""What every collection has: the open session and the school it keeps to."""

from collections.abc import Mapping

from sqlmodel import Session, SQLModel


class Collection:
    """Rows of one school; reads only that school's and writes only that school's."""

    def __init__(self, session: Session, school_id: str) -> None:
        self._session = session
        self._school = school_id

    def _add(self, row: object) -> None:
        """Write one row now, so that a refusal of the database comes where it was caused."""
        self._session.add(row)
        self._session.flush()

    def _insert(self, table: type[SQLModel], *rows: Mapping[str, object]) -> None:
        """Write whole rows of one table now, every column given; much cheaper than `_add` where rows are many."""
        self._session.connection().execute(table.__table__.insert(), rows)


def fields_of(value: object) -> dict[str, object]:
    """The fields of a frozen value, by name."""
    return {name: getattr(value, name) for name in value.__dataclass_fields__}


def value_of(kind: type, row: object):  # noqa: ANN201 - an instance of `kind`
    """A frozen value of `kind` from a row whose columns have its fields' names."""
    return kind(**{name: getattr(row, name) for name in kind.__dataclass_fields__})
