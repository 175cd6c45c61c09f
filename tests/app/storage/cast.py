"""Who and what storage tests need to stand: a trainee enrolled, an examiner, a host, their editions."""

from datetime import date, datetime

from app.storage.editions import KINDS, Edition
from app.storage.enrolments import Enrolment, Programme
from app.storage.hosts import Host
from app.storage.people import Person
from app.storage.work import Work

ADA = Person("ada", "Ada Vik", "ada@halden.example", "hash")
BO = Person("bo", "Bo Lund", "bo@halden.example", "hash")
HOST = Host("host", "Hege Moe", "hege@site.example", "Studio", "full", date(2025, 1, 1))
PROGRAMME = Programme("programme", "Full programme", "requirements", "repertoire", "readiness")
ENROLMENT = Enrolment("enrolment", "ada", "programme", date(2026, 1, 5), "requirements", "repertoire", "readiness")


def enrol(work: Work, now: datetime) -> None:
    """Editions have their kind as id."""
    work.people.add(ADA, frozenset({"trainee"}), now)
    work.people.add(BO, frozenset({"examiner", "director"}), now)
    for kind in KINDS:
        work.editions.add(Edition(kind, kind, f"The {kind}", "1", {"one.yaml": "title: Å\n"}, now))
    work.enrolments.add_programme(PROGRAMME)
    work.enrolments.add(ENROLMENT)
    work.hosts.add(HOST)
