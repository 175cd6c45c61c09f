"""Where trainees came from when they were moved to an edition, so that they can be moved back."""

from collections.abc import Iterable

from app.storage.editions import Edition
from app.storage.work import Work

MOST_EVENTS = 100_000


def came_from(work: Work, edition: Edition, enrolment_ids: Iterable[str]) -> dict[str, str]:
    """By enrolment the edition that its last move of this kind came from, where that move led to `edition`."""
    found: dict[str, tuple[str, str]] = {}
    for event in work.record.newest_of(list(enrolment_ids), MOST_EVENTS):
        if event.kind == "moved-to-edition" and event.subject not in found:
            body = event.content()
            if body["kind"] == edition.kind:
                found[event.subject] = body["from"], body["to"]
    return {one: was for one, (was, to) in found.items() if to == edition.id}
