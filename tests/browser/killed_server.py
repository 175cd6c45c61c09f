"""The demo school served by a process of its own that is killed (SIGKILL) while it takes what a device sends.

One process imports everything and forks each life of the server; a life ends where its death is due: `before` in the middle of
a transaction, `after` when it is done and not answered yet, a chance such as `0.2` at one of the two, "" never.
"""

import os
import signal
import socket
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from random import Random

import uvicorn

import app.pages.sheet_room as room
from app.main import create_app
from app.settings import Settings
from app.storage.sheet_records import SheetRecords
from tests.browser.site import NOW

ROOT = Path(__file__).parents[2]


@dataclass(frozen=True, slots=True)
class Lives:
    """Where it answers, and where each death is told."""

    address: str
    told: Path

    def killed(self) -> int:
        return len(self.told.read_text().splitlines())


@contextmanager
def served_in_lives(url: str, *deaths: str) -> Iterator[Lives]:
    """The socket is held here, so that whoever comes between two lives waits."""
    with socket.socket() as listening, tempfile.TemporaryDirectory() as folder:
        listening.bind(("127.0.0.1", 0))
        listening.listen(64)
        told = Path(folder) / "deaths"
        command = [sys.executable, "-m", "tests.browser.killed_server", url, str(listening.fileno()), *deaths]
        with told.open("w") as out:
            process = subprocess.Popen(  # noqa: S603 - our own
                command, cwd=ROOT, pass_fds=[listening.fileno()], stdout=out, start_new_session=True
            )
        try:
            yield Lives(f"http://127.0.0.1:{listening.getsockname()[1]}", told)
        finally:
            os.killpg(process.pid, signal.SIGKILL)
            process.wait()


def main(url: str, socket_number: int, deaths: list[str]) -> None:
    """One life after another; the last due death is due again and again."""
    number = 0
    while True:
        child = os.fork()
        if not child:
            _live(url, socket_number, deaths[min(number, len(deaths) - 1)], number)
        _, status = os.waitpid(child, 0)
        assert os.WIFSIGNALED(status), f"it ended by itself with {status}"
        number += 1
        print(f"killed {number}", flush=True)


def _live(url: str, socket_number: int, death: str, number: int) -> None:
    chance = Random(number)
    add, take = SheetRecords.add, room.take_records

    def due(place: str) -> bool:
        return death == place or (death[:2] == "0." and chance.random() < float(death) / 2)

    def half(self, exam_id, examiner_id, records, at) -> None:  # noqa: ANN001
        records = list(records)
        if due("before"):
            add(self, exam_id, examiner_id, records[: len(records) // 2 + 1], at)
            _die()
        add(self, exam_id, examiner_id, records, at)

    def unanswered(*asked):  # noqa: ANN002, ANN202
        taken = take(*asked)
        if due("after"):
            _die()
        return taken

    SheetRecords.add, room.take_records = half, unanswered
    app = create_app(Settings(url, key_passphrase="a passphrase"), now=lambda: NOW)
    server = uvicorn.Server(uvicorn.Config(app, log_level="error", access_log=False, ws="none"))
    server.run([socket.socket(fileno=socket_number)])
    os._exit(1)


def _die() -> None:
    os.kill(os.getpid(), signal.SIGKILL)


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]), sys.argv[3:])
