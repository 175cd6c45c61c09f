"""What the product asks of SQLite; the other tests do not wait for the disk."""

from pathlib import Path

import pytest

from app.storage import engine
from tests.app.conftest import PRODUCTS_PRAGMAS


def test_what_is_committed_survives_a_power_cut(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """https://www.sqlite.org/pragma.html#pragma_synchronous: in WAL only FULL (2) or more keeps every commit."""
    monkeypatch.setattr(engine, "PRAGMAS", PRODUCTS_PRAGMAS)
    opened = engine.open_engine(f"sqlite:///{tmp_path / 'own.db'}")
    with opened.connect() as connection:
        asked = [connection.exec_driver_sql(f"pragma {name}").scalar() for name in ("journal_mode", "synchronous")]
    opened.dispose()
    assert asked == ["wal", 2]
