"""The cohort page with kept standings, against the bare query and the bare template (the limit) in the same run."""

import tempfile
import time
from datetime import UTC, datetime
from pathlib import Path

from sqlalchemy import text

from app.main import create_app
from app.queries.cohort import cohort_overview
from app.settings import Settings
from app.storage.engine import open_engine
from app.storage.migrating import migrate
from app.storage.work import Store
from app.use_cases.demo import SCHOOL, TRAINEES, fill_school
from app.use_cases.standings import keep_standings
from app.web.pages import environment
from app.wording.languages import ENGLISH

NOW = datetime(2026, 11, 25, 15, 0, tzinfo=UTC)
ROUNDS = 5
MOST_TIMES_THE_BARE_PAGE = 3.0


def measure(trainees: int = 200) -> dict[str, float]:
    """Seconds of the page's query and rendering, of the bare query and template, and their ratio."""
    with tempfile.TemporaryDirectory() as folder:
        url = f"sqlite:///{Path(folder) / 'bench.db'}"
        engine = open_engine(url)
        migrate(engine)
        store = Store(engine)
        people = tuple((f"{name} {i}", days, share) for i in range(-(-trainees // 8)) for name, days, share in TRAINEES)
        fill_school(store, SCHOOL, NOW, people=people[:trainees])
        create_app(Settings(url), now=lambda: NOW).state.store.engine.dispose()
        first = _timed(lambda: _page(store), 1)
        ours = _timed(lambda: _page(store), ROUNDS)
        with store.reading(SCHOOL.id) as work:
            overview = cohort_overview(work, NOW.date(), ENGLISH)
        bare = _timed(lambda: (_rows(engine), _render(overview)), ROUNDS)
        engine.dispose()
    return {
        "trainees": trainees,
        "first": first,
        "seconds": ours,
        "bare query and template": bare,
        "ratio": ours / bare,
        "limit": MOST_TIMES_THE_BARE_PAGE,
    }


def _page(store: Store) -> None:
    with store.reading(SCHOOL.id) as work:
        overview = cohort_overview(work, NOW.date(), ENGLISH)
    keep_standings(store, SCHOOL.id, overview.solved)
    _render(overview)


def _render(overview) -> None:  # noqa: ANN001
    part = environment(ENGLISH).get_template("parts/trainee_line.html").module
    part.cohort_lines(overview.lines, overview.scale)


def _rows(engine) -> None:  # noqa: ANN001
    with engine.connect() as connection:
        connection.execute(text("select e.*, p.name, s.* from enrolment e join person p on p.id = e.person_id "
                                "left join standing s on s.enrolment_id = e.id")).all()  # fmt: skip


def _timed(act, rounds: int) -> float:  # noqa: ANN001
    times = []
    for _ in range(rounds):
        start = time.perf_counter()
        act()
        times.append(time.perf_counter() - start)
    return sorted(times)[len(times) // 2]
