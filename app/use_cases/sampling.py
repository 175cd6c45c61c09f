"""The director draws the random share of exams that a further examiner also marks."""

import secrets

from app.queries.exam_facts import practical_edition
from app.queries.second_marking import SEEDED, seeds_of
from app.storage.work import Store
from app.use_cases.asker import Asker


def draw_random_share(store: Store, asker: Asker, practical_id: str) -> None:
    """Fix the seed of a practical's edition, once for all: drawn again it could be fished for."""
    with store.writing(asker.school.id) as work:
        practical = practical_edition(work, practical_id)
        if seeds_of(work, [practical_id]):
            return
        body = {"practical": practical_id, "share": str(practical.sample.random), "seed": secrets.token_hex(16)}
        work.record.append(SEEDED, practical_id, asker.person_id, asker.now, body)
        work.commit()
