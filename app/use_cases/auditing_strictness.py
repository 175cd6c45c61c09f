"""Each night the strictness of every season is reckoned a second way, and what comes of it is kept for its page."""

import importlib
import logging

from app.files.seasons import read_picture, write_picture
from app.queries.season_audit import STRICTNESS_AUDIT
from app.queries.season_ratings import fingerprint, gathered_season
from app.storage.chores import Done
from app.storage.work import Store
from app.use_cases.asker import Asker

LOG = logging.getLogger("throughline")


def nightly_strictness_audit(store: Store, asker: Asker) -> int:
    """Audit, once a day, each season whose sheets changed since it was last audited; gives how many were audited.

    Of one that has not changed the last answer stands. A season that fails is told of, and tried again the next night.
    """
    with store.reading(asker.school.id) as work:
        if work.chores.done(STRICTNESS_AUDIT, asker.today) is not None:
            return 0
        last = work.chores.last_done(STRICTNESS_AUDIT)
        seasons = sorted(practical for practical, (_, sheets) in work.seasons.numbers().items() if sheets)
    before, found, made = read_picture(last.said) if last else {}, {}, 0
    for practical_id in seasons:
        try:
            found[practical_id], new = _audited(store, asker, practical_id, before.get(practical_id))
            made += new
        except Exception:
            LOG.exception("the strictness of season %s was not audited", practical_id)
    with store.writing(asker.school.id) as work:
        if work.chores.done(STRICTNESS_AUDIT, asker.today) is None:
            work.chores.add_done(Done(STRICTNESS_AUDIT, asker.today, write_picture(found), asker.now))
            work.commit()
    return made


def _audited(store: Store, asker: Asker, practical_id: str, before: dict | None) -> tuple[dict, bool]:
    with store.reading(asker.school.id) as work:
        mark = fingerprint(work, practical_id)
        if before is not None and before["fingerprint"] == mark:
            return before, False
        practical, gathered = gathered_season(work, practical_id)
    measurement = importlib.import_module("assessments.season.strictness_audit")
    limits = importlib.import_module("assessments.measurement.limits").DEFAULT_LIMITS
    answer = measurement.strictness_audit(practical, gathered, limits)
    return {"fingerprint": mark, "day": asker.today, **answer}, True
