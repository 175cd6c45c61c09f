"""Keep summaries that were solved anew, so that the next look at the cohort need not solve them."""

from app.storage.standings import KeptStanding
from app.storage.work import Store


def keep_standings(store: Store, school_id: str, solved: dict[str, KeptStanding]) -> None:
    """Write what was solved, in one short transaction; nothing if nothing was."""
    if not solved:
        return
    with store.writing(school_id) as work:
        for enrolment_id, kept in solved.items():
            work.standings.put(enrolment_id, kept.fingerprint, kept.result)
        work.commit()
