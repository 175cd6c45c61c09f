"""Keep each season's picture up to date, outside any request: computed beside the visit, never in its way."""

import importlib
import logging
from collections.abc import Callable
from datetime import datetime
from threading import Lock, Thread
from weakref import WeakKeyDictionary

from app.files.seasons import write_picture
from app.queries.season_ratings import fingerprint, gathered_season
from app.storage.seasons import KeptPicture
from app.storage.work import Store
from assessments.practicals.specification import Practical
from assessments.season.gathered import Gathered

LOG = logging.getLogger("throughline")
Wanted = tuple[str, str]


class Keeper:
    """One thread at most makes the pictures that were asked for, one after the other, and ends when none is left."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._wanted: dict[Wanted, None] = {}
        self._thread: Thread | None = None

    def want(self, store: Store, school_id: str, practical_id: str, now: Callable[[], datetime]) -> Thread:
        """Ask for a picture; returns at once. Asking twice is asking once, unless it is being made already."""
        with self._lock:
            self._wanted[school_id, practical_id] = None
            if self._thread is None:
                self._thread = Thread(target=self._work, args=(store, now), name="seasons", daemon=True)
                self._thread.start()
            return self._thread

    def _work(self, store: Store, now: Callable[[], datetime]) -> None:
        while wanted := self._next():
            try:
                bring_up_to_date(store, *wanted, now)
            except Exception:
                LOG.exception("the picture of season %s was not made", wanted[1])

    def _next(self) -> Wanted | None:
        with self._lock:
            if not self._wanted:
                self._thread = None
                return None
            wanted = next(iter(self._wanted))
            del self._wanted[wanted]
            return wanted


_KEEPERS: WeakKeyDictionary[Store, Keeper] = WeakKeyDictionary()
_KEEPERS_LOCK = Lock()


def season_picture(practical: Practical, gathered: Gathered) -> dict[str, object]:
    """The measurement is loaded when it is first needed: it is half a second of every start."""
    return importlib.import_module("assessments.season.picture").season_picture(practical, gathered)


def season_changed(store: Store, school_id: str, practical_id: str, now: Callable[[], datetime]) -> Thread:
    """Say that a sheet of a practical was sent; its season's picture follows on a thread of its own."""
    with _KEEPERS_LOCK:
        keeper = _KEEPERS.setdefault(store, Keeper())
    return keeper.want(store, school_id, practical_id, now)


def sheet_sent(store: Store, school_id: str, exam_id: str, now: Callable[[], datetime]) -> None:
    """A sheet of this exam was sent, or a new version of it: its season's picture follows."""
    with store.reading(school_id) as work:
        exam = work.exams.by_id(exam_id)
    if exam is not None:
        season_changed(store, school_id, exam.practical_id, now)


def bring_up_to_date(store: Store, school_id: str, practical_id: str, now: Callable[[], datetime]) -> bool:
    """Make the picture unless the one kept is of these very sheets; says whether it was made.

    What is sent meanwhile is seen when the picture is kept: then it is made again, so that no sheet is left out.
    """
    made = False
    while True:
        with store.reading(school_id) as work:
            mark, kept = fingerprint(work, practical_id), work.seasons.picture(practical_id)
            if kept is not None and kept.fingerprint == mark:
                return made
            practical, gathered = gathered_season(work, practical_id)
        content = write_picture(season_picture(practical, gathered))
        with store.writing(school_id) as work:
            work.seasons.put_picture(KeptPicture(practical_id, mark, content, now()))
            work.commit()
        made = True
