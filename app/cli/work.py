"""`throughline work`: do what outlives a request in a process of its own, beside `serve` or on another machine."""

import argparse

from app.cli.opening import opened_store
from app.cli.speaking import spoken
from app.settings import settings_from
from app.worker.running import Worker, bench_of
from curriculum.faults import N_


def add_to(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--once", action="store_true", help="do everything that is due once, and end")
    parser.set_defaults(act=work)


def work(options: argparse.Namespace) -> int:
    """Work until stopped, or once."""
    settings, language = settings_from(), spoken()
    store = opened_store(settings)
    worker = Worker(bench_of(settings, store))
    if options.once:
        worker.do_all()
        return 0
    print(language(N_("Throughline works for {database}"), database=store.engine.url.render_as_string()), flush=True)
    worker.run()
    return 0
