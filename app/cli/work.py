"""`throughline work`: do what outlives a request in a process of its own, beside `serve` or on another machine."""

import argparse

from app.cli.speaking import spoken
from app.settings import settings_from
from app.storage.engine import open_engine
from app.storage.migrating import is_migrated
from app.storage.work import Store
from app.worker.running import Worker, bench_of
from curriculum.faults import N_, ThroughlineError


class NotMigratedError(ThroughlineError):
    """The database is of another version."""


def add_to(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--once", action="store_true", help="do everything that is due once, and end")
    parser.set_defaults(act=work)


def work(options: argparse.Namespace) -> int:
    """Work until stopped, or once."""
    settings, language = settings_from(), spoken()
    engine = open_engine(settings.database)
    if not is_migrated(engine):
        raise NotMigratedError(
            N_("The database is of another version; start `throughline serve` once to bring it up to date.")
        )
    worker = Worker(bench_of(settings, Store(engine)))
    if options.once:
        worker.do_all()
        return 0
    print(language(N_("Throughline works for {database}"), database=engine.url.render_as_string()), flush=True)
    worker.run()
    return 0
