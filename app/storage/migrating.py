"""Bring a database to the newest (or a named) shape."""

from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Engine

import migrations

FOLDER = Path(migrations.__path__[0]).resolve()


def migrate(engine: Engine, revision: str = "head") -> None:
    """Run every step up to `revision`, each in its own transaction."""
    command.upgrade(_config(engine), revision)


def migrate_back(engine: Engine, revision: str) -> None:
    """Undo steps down to `revision` (`base` for none)."""
    command.downgrade(_config(engine), revision)


def is_migrated(engine: Engine) -> bool:
    """Whether the database has the newest shape."""
    with engine.connect() as connection:
        found = MigrationContext.configure(connection).get_current_revision()
    return found == ScriptDirectory.from_config(_config(engine)).get_current_head()


def _config(engine: Engine) -> Config:
    config = Config()
    config.set_main_option("script_location", str(FOLDER).replace("%", "%%"))
    config.attributes["engine"] = engine
    return config
