"""What went wrong or nearly did at the demo school: a near miss that is closed, and a fault that keeps a machine out of use. Invented."""

from datetime import datetime, timedelta

from app.clock import day_in
from app.storage.work import School, Store
from app.use_cases.asker import Asker
from app.use_cases.reporting_incidents import close_incident, report_incident
from assessments.incidents.report import Report

NEAR_MISS, FAULT = "near-miss-of-the-demo", "fault-of-the-demo"
ADDRESS = "http://127.0.0.1:8000"


def add_demo_incidents(store: Store, school: School, now: datetime) -> None:
    """Reported by the first examiner and the first trainee."""
    then, since = now - timedelta(days=33), now - timedelta(days=3)
    near_miss = Report(
        "near-miss", "lesson", day_in(then, school.time_zone), "River studio",
        "The client stepped off before the second spring was back on; the teacher stood close and held the bar.",
        "The director the same afternoon.", "Getting off is now said aloud before any spring is changed.",
    )  # fmt: skip
    report_incident(store, Asker(school, "examiner-1", "examiner-1", then), NEAR_MISS, near_miss, "", ADDRESS)
    close = Asker(school, "director", "director", then + timedelta(days=2))
    close_incident(
        store, close, NEAR_MISS, "Talked over with all teachers of the studio; the poster at the door says it too."
    )
    fault = Report(
        "fault-found", "practice", day_in(since, school.time_zone), "Upper hall",
        "The left spring of the chair has an open coil near the hook.", "", "A note hangs on the chair.", ("chair two",),
    )  # fmt: skip
    report_incident(store, Asker(school, "trainee-1", "trainee-1", since), FAULT, fault, "", ADDRESS)
