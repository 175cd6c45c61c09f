"""Keep each season's picture up to date, outside any request: the worker makes what was asked for, and looks for the rest."""

import importlib
import logging

from app.clock import Clock
from app.files.seasons import write_picture
from app.queries.season_ratings import fingerprint, gathered_season
from app.storage.queue import Ask
from app.storage.seasons import KeptPicture
from app.storage.work import Store
from assessments.practicals.specification import Practical
from assessments.season.gathered import Gathered

LOG = logging.getLogger("throughline")
JOB = "season picture"


def season_picture(practical: Practical, gathered: Gathered) -> dict[str, object]:
    """The measurement is loaded when it is first needed: it is half a second of every start."""
    return importlib.import_module("assessments.season.picture").season_picture(practical, gathered)


def sheet_sent(store: Store, school_id: str, exam_id: str, ask: Ask) -> None:
    """A sheet of this exam was sent, or a new version of it: its season's picture follows."""
    with store.reading(school_id) as work:
        exam = work.exams.by_id(exam_id)
    if exam is not None:
        ask(JOB, school_id, exam.practical_id)


def bring_up_to_date(store: Store, school_id: str, practical_id: str, now: Clock) -> bool:
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


def bring_all_up_to_date(store: Store, school_id: str, now: Clock) -> int:
    """Every season with a sheet whose picture is older than its sheets; gives how many were made."""
    with store.reading(school_id) as work:
        seasons = sorted(practical for practical, (_, sheets) in work.seasons.numbers().items() if sheets)
    made = 0
    for practical_id in seasons:
        try:
            made += bring_up_to_date(store, school_id, practical_id, now)
        except Exception:
            LOG.exception("the picture of season %s was not made", practical_id)
    return made
