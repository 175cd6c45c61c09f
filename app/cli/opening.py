"""The installation's database, for commands that need it as `serve` left it."""

from app.settings import Settings
from app.storage.engine import open_engine
from app.storage.migrating import is_migrated
from app.storage.work import Store
from curriculum.faults import N_, ThroughlineError


class NotMigratedError(ThroughlineError):
    """The database is of another version."""


def opened_store(settings: Settings) -> Store:
    """The store of the settings' database; `NotMigratedError` if its tables are not today's."""
    engine = open_engine(settings.database)
    if not is_migrated(engine):
        raise NotMigratedError(
            N_("The database is of another version; start `throughline serve` once to bring it up to date.")
        )
    return Store(engine)
