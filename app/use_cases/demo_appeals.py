"""A complaint of the demo school's first trainee about an exam: filed, given to the deputy, ended. Invented."""

from datetime import datetime, timedelta

from app.storage.work import School, Store
from app.use_cases.appealing import DecideAppeal, assign, decide_appeal, file_appeal
from app.use_cases.asker import Asker
from assessments.practicals.appeal import Filing

COMPLAINT = "complaint-of-the-demo"
WORDS = "People walked through the studio twice while I taught. I ask that the door is kept shut during exams."
ANSWER = "You are right: a class used the same door. Exams have a sign and somebody at the door from now on."
ADDRESS = "http://127.0.0.1:8000"


def add_demo_complaint(store: Store, school: School, exam_id: str, now: datetime) -> None:
    """About an exam of sixty days ago; filed in time, answered within three weeks."""
    with store.reading(school.id) as work:
        name = work.people.names()["trainee-1"]
    trainee = Asker(school, "trainee-1", name, now - timedelta(days=50))
    file_appeal(store, trainee, exam_id, COMPLAINT, Filing("complaint", (), WORDS), ADDRESS)
    director = Asker(school, "director", "director", now - timedelta(days=48))
    assign(store, director, COMPLAINT, "director-2", 0, ADDRESS)
    deputy = Asker(school, "director-2", "director-2", now - timedelta(days=40))
    decide_appeal(store, deputy, DecideAppeal(COMPLAINT, "upheld", ANSWER, 1), ADDRESS)
