"""Work that was asked for and is done later, kept by the queue library: on SQLite in a file beside the database, on
PostgreSQL in its own tables there, for several machines.

The queue only makes things soon. A process that is killed while it works loses what it had taken, so whatever is asked for
here must also be found by looking at what is kept (a mail that is due, a picture older than its sheets).
"""

import json
import logging
from collections.abc import Callable

from huey import Huey, MemoryHuey, PostgresHuey, SqliteHuey, crontab
from huey.registry import Message
from huey.serializer import Serializer
from sqlalchemy import make_url

LOG = logging.getLogger("throughline")
NAME = "throughline"
# What is to be done, for which school ("" for each), and about what.
Run = Callable[[str, str, str], None]
Ask = Callable[[str, str, str], None]


class Plain(Serializer):
    """Tasks as JSON: nothing that is read from a queue can be a program."""

    def _serialize(self, data: Message) -> bytes:
        return json.dumps(list(data)).encode()

    def _deserialize(self, data: bytes) -> Message:
        return Message(*json.loads(bytes(data)))


class Queue:
    """The queue that belongs to a database; `run` is given where its work is done, and nowhere else."""

    def __init__(self, database: str, run: Run | None = None) -> None:
        self.huey = _opened(database)
        self._run = run
        self._job = self.huey.task(name="job")(self._do)
        # A thread that waits on PostgreSQL has a connection of its own, which only it can close.
        self.huey.on_shutdown(name="close")(self.huey.storage.close)

    def ask(self, job: str, school_id: str, about: str = "") -> None:
        """Have a job done soon; what asks has kept its own already, so a queue that fails is only told of."""
        try:
            self._job(job, school_id, about)
        except Exception:
            LOG.exception("%s was not put on the queue; it is found by looking later", job)

    def every(self, minutes: str, job: str) -> None:
        """Have a job done for each school at these minutes of every hour, as crontab writes them."""
        self.huey.periodic_task(crontab(minute=minutes), name=f"every-{job}")(lambda: self._do(job))

    def close(self) -> None:
        self.huey.storage.close()

    def _do(self, job: str, school_id: str = "", about: str = "") -> None:
        if self._run is not None:
            self._run(job, school_id, about)


def _opened(database: str) -> Huey:
    url, options = make_url(database), {"results": False, "serializer": Plain()}
    if url.get_backend_name() != "sqlite":
        dsn = url.set(drivername="postgresql").render_as_string(hide_password=False)
        return PostgresHuey(NAME, dsn=dsn, table_prefix="queued", **options)
    if url.database in (None, "", ":memory:"):
        return MemoryHuey(NAME, **options)
    return SqliteHuey(NAME, filename=f"{url.database}.queue", **options)
