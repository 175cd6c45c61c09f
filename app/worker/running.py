"""The worker: takes jobs from the queue, one at a time, beside the requests of one process or in a process of its own."""

import logging
from functools import partial

from huey.consumer import Consumer

from app.clock import Clock, system_clock
from app.mail.post import smtp_post
from app.settings import Settings
from app.storage.queue import Queue
from app.storage.work import Store
from app.worker.bench import Bench
from app.worker.jobs import JOBS, Job

LOG = logging.getLogger("throughline")
# How long an empty queue is left alone at most.
SECONDS = 2
PATIENCE = 20


class Beside(Consumer):
    """A consumer on threads of a process whose signals belong to somebody else."""

    def _set_signal_handlers(self) -> None:
        pass


class Worker:
    """Does the jobs of one installation."""

    def __init__(self, bench: Bench, jobs: tuple[Job, ...] = JOBS) -> None:
        self.bench = bench
        self.jobs = {job.name: job for job in jobs}
        self.queue = Queue(bench.settings.database, self.do)
        for job in jobs:
            if job.minutes:
                self.queue.every(job.minutes, job.name)
        self._beside: Beside | None = None

    def do(self, name: str, school_id: str = "", about: str = "") -> None:
        """One job for one school or for each; what fails at one school is told of and stops no other."""
        job = self.jobs.get(name)
        if job is None:
            LOG.error("there is no job called %s", name)
            return
        for school in self.bench.store.schools():
            if school_id in ("", school.id):
                try:
                    job.act(self.bench, school, about)
                except Exception:
                    LOG.exception("%s failed for %s", name, school.slug)

    def do_all(self) -> None:
        """Every job that runs by the clock, once, now."""
        for job in self.jobs.values():
            if job.minutes:
                self.do(job.name)

    def start_beside(self) -> None:
        """Work on threads until `stop`."""
        self._beside = Beside(self.queue.huey, workers=1, max_delay=SECONDS, shutdown_timeout=PATIENCE)
        self._beside.start()

    def stop(self) -> None:
        """Finish what is being done, and take nothing more."""
        if self._beside is not None:
            self._beside.stop(graceful=True)
        self.queue.close()

    def run(self) -> None:
        """Work until the process is told to stop."""
        Consumer(self.queue.huey, workers=1, max_delay=SECONDS, shutdown_timeout=PATIENCE).run()


def bench_of(settings: Settings, store: Store, now: Clock = system_clock) -> Bench:
    """The bench of an installation as it is set up."""
    post = partial(smtp_post, settings.mail_server) if settings.mail_server else None
    return Bench(store, settings, now, post)
