"""What the last nightly audit of strictness said of a season, if it was of the sheets there are."""

from app.files.seasons import read_picture
from app.queries.season_ratings import fingerprint
from app.storage.work import Work
from app.wording.languages import Language
from app.wording.season_audit import audit_text

STRICTNESS_AUDIT = "strictness audit"
"""The name of the job, and of what is kept of it: by season the fingerprint of its sheets, the day, and the answer."""


def season_audit(work: Work, practical_id: str, language: Language) -> str:
    """In words, for directors."""
    last = work.chores.last_done(STRICTNESS_AUDIT)
    found = read_picture(last.said).get(practical_id) if last else None
    if found is not None and found["fingerprint"] != fingerprint(work, practical_id):
        found = None
    return audit_text(found, work.people.names(), language)
