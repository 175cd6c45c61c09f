"""`throughline serve`: bring the database up to date, fill the demo school if there is none, and serve."""

import argparse
import sys

import uvicorn

from app.cli.speaking import spoken
from app.clock import system_clock
from app.main import create_app
from app.settings import settings_from
from app.storage.engine import open_engine
from app.storage.migrating import migrate
from app.storage.work import Store
from app.use_cases.certifying import signing_of
from app.use_cases.demo import PASSWORD, SCHOOL, STAFF, fill_demo
from app.worker.running import Worker, bench_of
from curriculum.faults import N_


def add_to(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--empty", action="store_true", help="do not fill a demo school")
    parser.set_defaults(act=serve)


def serve(options: argparse.Namespace) -> int:
    """Serve until stopped."""
    settings, language = settings_from(), spoken()
    engine = open_engine(settings.database)
    migrate(engine)
    if not options.empty and fill_demo(Store(engine), system_clock(), signing_of(settings)):
        print(language(N_("Filled the demo school, {school} (invented)."), school=SCHOOL.name), file=sys.stderr)
    app = create_app(settings)
    # The store of the app: on SQLite those who write queue up in it.
    worker = Worker(bench_of(settings, app.state.store))
    app.state.ask = worker.queue.ask
    address = f"http://{settings.host}:{settings.port}/"
    print(language(N_("Throughline is at {address}"), address=address), flush=True)
    if not options.empty:
        print(language(N_("Sign in to the demo with the password '{password}' as"), password=PASSWORD), flush=True)
        for role, email in (("trainee", "trainee@halden-row.example"), *((staff[0], staff[2]) for staff in STAFF[:2])):
            print(f"  {role.split('-')[0]:9} {email}", flush=True)
    if settings.worker == "inside":
        worker.start_beside()
    try:
        uvicorn.run(app, host=settings.host, port=settings.port, log_level="warning", access_log=False)
    finally:
        worker.stop()
    return 0
