"""Sessions logged through the API at 16 connections, against a bare endpoint of the framework that commits the same row."""

import http.client
import json
import multiprocessing
import socket
import sqlite3
import statistics
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime, timedelta
from pathlib import Path

import uvicorn
from fastapi import FastAPI

from app.main import create_app
from app.settings import Settings
from app.storage.engine import open_engine
from app.storage.migrating import migrate
from app.storage.work import Store
from app.use_cases.asker import Asker
from app.use_cases.demo import SCHOOL, fill_school
from app.use_cases.tokens import MakeToken, make_token
from app.wording.languages import ENGLISH

NOW = datetime(2026, 11, 25, 15, 0, tzinfo=UTC)
LEAST_A_SECOND, MOST_P99 = 100.0, 60.0
ROW = "create table row (id text primary key, body text)"
DURABLE = ("pragma journal_mode = wal", "pragma synchronous = full")


def measure(connections: int = 16, each: int = 120) -> dict[str, float]:
    """Acknowledged requests a second and p99 in milliseconds, of ours and of the bare endpoint in the same run.

    Each server has answered each connection once before the time runs.
    """
    with tempfile.TemporaryDirectory() as folder:
        url = f"sqlite:///{Path(folder) / 'bench.db'}"
        tokens = _school(url, connections)
        ours = _timed(_ours, url, "/api/v1/sessions", tokens, each)
        bare = _timed(_bare, str(Path(folder) / "bare.db"), "/rows", tokens, each)
    return {
        "connections": connections, "requests": connections * each, "a_second": ours[0], "p50_ms": ours[1],
        "p99_ms": ours[2], "bare_a_second": bare[0], "bare_p99_ms": bare[2], "ratio": bare[0] / ours[0],
        "least_a_second": LEAST_A_SECOND, "most_p99_ms": MOST_P99,
    }  # fmt: skip


def _school(url: str, trainees: int) -> list[str]:
    """A school with so many trainees, and a token for each."""
    engine = open_engine(url)
    migrate(engine)
    store = Store(engine)
    fill_school(store, SCHOOL, NOW, people=tuple((f"Trainee {i}", 400, 0.1) for i in range(trainees)))
    with store.reading(SCHOOL.id) as work:
        people = [work.people.by_id(one.person_id) for one in work.enrolments.all()]
    roles, tokens = frozenset({"trainee"}), []
    for number, person in enumerate(people):
        request = MakeToken(f"{number:032x}", "bench", frozenset({"hours:write"}), 30)
        tokens.append(make_token(store, Asker(SCHOOL, person.id, person.name, NOW, ENGLISH), roles, request))
    engine.dispose()
    return tokens


def _ours(url: str, port: int) -> None:
    app = create_app(Settings(url, requests_a_minute=10**9), now=lambda: NOW)
    uvicorn.run(app, port=port, log_level="error", access_log=False)


def _bare(path: str, port: int) -> None:
    """The framework as it comes: a body is read, one row is committed as durably, in a thread of the framework."""
    kept = sqlite3.connect(path, check_same_thread=False, isolation_level=None, timeout=30)
    for pragma in DURABLE:
        kept.execute(pragma)
    kept.execute(ROW)
    app = FastAPI()

    @app.post("/rows")
    def add(body: dict) -> dict:
        kept.execute("insert into row values (?, ?)", (body["id"], json.dumps(body)))
        return body

    uvicorn.run(app, port=port, log_level="error", access_log=False)


def _timed(serve, where: str, path: str, tokens: list[str], each: int) -> tuple[float, float, float]:  # noqa: ANN001
    port = _free_port()
    process = multiprocessing.get_context("spawn").Process(target=serve, args=(where, port), daemon=True)
    process.start()
    _wait_for(port)
    try:
        with ThreadPoolExecutor(len(tokens)) as threads:
            list(threads.map(lambda one: _connection(port, path, *one, range(1)), enumerate(tokens)))
            start = time.perf_counter()
            runs = list(threads.map(lambda one: _connection(port, path, *one, range(1, 1 + each)), enumerate(tokens)))
            took = time.perf_counter() - start
    finally:
        process.terminate()
        process.join()
    times = sorted(1000 * one for run in runs for one in run)
    return len(times) / took, statistics.median(times), times[int(0.99 * (len(times) - 1))]


def _connection(port: int, path: str, number: int, token: str, sessions: range) -> list[float]:
    """One connection that is kept open: each request waits for the answer to the one before."""
    link, times = http.client.HTTPConnection("127.0.0.1", port, timeout=60), []
    headers = {"authorization": f"Bearer {token}", "content-type": "application/json"}
    for one in sessions:
        day = (NOW - timedelta(days=1 + one)).date().isoformat()
        part = {"minutes": 30, "activity": "self_practice", "apparatus": "mat"}
        body = {"id": f"b{number}-{one}", "day": day, "start": "05:00", "end": "05:30", "parts": [part]}
        start = time.perf_counter()
        link.request("POST", path, json.dumps(body), headers)
        answer = link.getresponse()
        said = answer.read()
        times.append(time.perf_counter() - start)
        if answer.status not in (200, 201):
            raise RuntimeError(said.decode())
    return times


def _free_port() -> int:
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return one.getsockname()[1]


def _wait_for(port: int) -> None:
    for _ in range(300):
        try:
            socket.create_connection(("127.0.0.1", port), timeout=1).close()
        except OSError:
            time.sleep(0.1)
        else:
            return
    raise RuntimeError("the server did not come up")
