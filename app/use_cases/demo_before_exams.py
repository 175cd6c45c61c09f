"""What the demo school has on file before the exam of today: its client, who told of a wrist and a disc. All invented."""

from datetime import datetime

from app.storage.work import School, Store
from app.use_cases.asker import Asker
from app.use_cases.exam_clients import TellClient, tell_client
from assessments.practicals.client import Intake

CLIENT = Intake("C-014", "candidate", True, ("disc", "wrist"), True, True, True)
RESERVE = Intake("C-022", "candidate", True, (), True, False, False)


def add_demo_papers(store: Store, school: School, now: datetime) -> None:
    """The client of the exam to be scored today."""
    tell_client(store, Asker(school, "director", "director", now), TellClient("exam-to-score", CLIENT, RESERVE, "", 0))
