"""A certificate in the demo school: of somebody who finished when hours were still kept on paper."""

from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

from app.settings import ROOT
from app.storage.editions import Edition
from app.storage.enrolments import Enrolment, ShownDocument
from app.storage.people import Person
from app.storage.work import School, Store
from app.use_cases.asker import Asker
from app.use_cases.certifying import Signing, decide
from assessments.hours.calendar import months_after

GRADUATE, NAME = "graduate", "Tilda Rowan"
PAPERS, MODULES = ("agreement", "paper-log", "paper-final"), ("anatomy", "safety-workshop")
SOURCE: Path = ROOT / "seed_data" / "readiness" / "comprehensive-2024.yaml"


def add_demo_certificate(store: Store, school: School, signing: Signing, now: datetime) -> str:
    """Decided by two people three weeks ago; the id of the certificate."""
    at = now - timedelta(days=21)
    began = months_after(at.date(), -20)
    with store.writing(school.id) as work:
        text = SOURCE.read_text(encoding="utf-8")
        edition = Edition(
            "readiness-2024-1", "readiness", "comprehensive", "2024.1", {SOURCE.name: text}, now - timedelta(days=900)
        )
        work.editions.add(edition)
        director = work.people.by_id("director")
        person = Person(GRADUATE, NAME, "graduate@halden-row.example", director.password_hash)
        work.people.add(person, frozenset({"trainee"}), now - timedelta(days=640))
        known = work.enrolments.programmes()[0]
        work.enrolments.add(
            Enrolment(GRADUATE, GRADUATE, known.id, began, known.requirements_id, known.repertoire_id, edition.id)
        )
        for kind in PAPERS:
            work.enrolments.add_document(
                GRADUATE, ShownDocument(f"{GRADUATE}-{kind}", kind, began, None, "director", at)
            )
        for module in MODULES:
            work.enrolments.add_module(GRADUATE, module, at.date(), "director")
        work.commit()
    asker = Asker(school, "director", director.name, at)
    reason = "Every paper was seen and counted; hours and practicals as the school asked for them in 2024."
    decide(store, asker, signing, GRADUATE, "certify", reason)
    second = replace(asker, person_id="director-2", name="", now=at + timedelta(hours=3))
    return decide(store, second, signing, GRADUATE, "certify", "Looked at the same papers.")
