"""What the demo school has on file before the exam of today: its admission and its client. All invented."""

from datetime import datetime

from app.storage.work import School, Store
from app.use_cases.admitting import decide_admission
from app.use_cases.asker import Asker
from app.use_cases.exam_clients import TellClient, tell_client
from assessments.practicals.admission import TICKED, Admission
from assessments.practicals.client import Intake

CLIENT = Intake("C-014", "candidate", True, ("disc", "wrist"), True, True, True)
RESERVE = Intake("C-022", "candidate", True, (), True, False, False)


ADMISSION = Admission(
    TICKED, "A quarter more time to prepare.", "Ten minutes more before the start; reads the list aloud first.", "waived",
    "Hours that wait for a signature are enough; agreed with the candidate.",
)  # fmt: skip


def add_demo_papers(store: Store, school: School, now: datetime) -> None:
    """Admission and client of the exam to be scored today."""
    director = Asker(school, "director", "director", now)
    decide_admission(store, director, "exam-to-score", ADMISSION, 0)
    tell_client(store, director, TellClient("exam-to-score", CLIENT, RESERVE, "", 0))
