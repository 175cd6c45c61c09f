"""What the demo school was asked about exams: a complaint of the first trainee, an appeal of the past season. Invented."""

from datetime import datetime, timedelta

from app.storage.work import School, Store
from app.use_cases.appealing import DecideAppeal, assign, decide_appeal, file_appeal
from app.use_cases.asker import Asker
from assessments.practicals.appeal import Filing

COMPLAINT = "complaint-of-the-demo"
WORDS = "People walked through the studio twice while I taught. I ask that the door is kept shut during exams."
ANSWER = "You are right: a class used the same door. Exams have a sign and somebody at the door from now on."
APPEAL = "appeal-of-the-demo"
GROUNDS = "The last exercise was called after the time had ended, and I was marked down for it."
KEPT = "Both sheets and the clock of the exam agree: it was called within the time. The marks of that part stand."
JUDGE = "examiner-1"
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


def add_demo_appeal(store: Store, school: School) -> None:
    """Against the first decision of the past season in which the demo's first examiner had no part; it was kept."""
    with store.reading(school.id) as work:
        decisions, seats = work.exams.all_decisions(), work.exams.all_seats()
        decided = (one for id, one in decisions.items() if one.outcome in ("refer", "fail") and JUDGE not in seats[id])
        decision = min(decided, key=lambda one: (one.decided_at, one.exam_id))
        candidate = work.enrolments.by_id(work.exams.by_id(decision.exam_id).enrolment_id).person_id

    def person(id: str, days: int) -> Asker:
        return Asker(school, id, id, decision.decided_at + timedelta(days=days))

    filing = Filing("appeal", ("procedure",), GROUNDS)
    file_appeal(store, person(candidate, 6), decision.exam_id, APPEAL, filing, ADDRESS)
    assign(store, person("director", 8), APPEAL, JUDGE, 0, ADDRESS)
    decide_appeal(store, person(JUDGE, 19), DecideAppeal(APPEAL, decision.outcome, KEPT, 1), ADDRESS)
