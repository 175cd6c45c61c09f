"""Feedback of host teachers on some lessons that the demo's trainees taught. All invented."""

from datetime import datetime

from app.queries.feedback import can_have_feedback
from app.storage.work import School, Store
from app.use_cases.feedback import give_feedback
from curriculum.competencies.feedback import Said

SAID = (
    Said(
        "cue", "with-a-word", "reformer-footwork",
        "Your rhythm carried the whole footwork, and the client breathed with it.",
        "You said four things at once when the heels dropped; one would have done.",
        "Teach the footwork with one word for each phase, and keep the rest for afterwards.",
    ),
    Said(
        "see-and-correct", "with-help", "",
        "You saw the hips lift before I did.",
        "You named the fault, and then left the client alone with it.",
        "Choose one fault before the lesson, and mend it each time it comes.",
    ),
)  # fmt: skip


def add_demo_feedback(store: Store, school: School, now: datetime) -> None:
    """The newest lessons of the first trainee that were signed, one piece each."""
    with store.reading(school.id) as work:
        lessons = [one for one in work.ledger.of_enrolment("enrolment-1") if can_have_feedback(one)]
        hosts = {host.id: host for host in work.hosts.all()}
    for number, (session, said) in enumerate(zip(reversed(lessons), SAID, strict=False), start=1):
        give_feedback(store, school, hosts[session.host], session.id, f"feedback-{number}", said, now)
