"""The demo school served for a browser: by a real server, on a free port, with a fixed clock."""

import shutil
import socket
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime, timedelta
from fractions import Fraction
from pathlib import Path
from threading import Thread

import uvicorn
from sqlalchemy import make_url

from app.main import create_app
from app.settings import Settings
from app.storage.engine import open_engine
from app.storage.exam_seats import Invitation
from app.storage.migrating import migrate
from app.storage.work import School, Store
from app.use_cases.asker import Asker
from app.use_cases.certifying import Signing, TakeStep, decide, take_step
from app.use_cases.demo import SCHOOL, fill_school
from app.use_cases.demo_certificates import GRADUATE, add_demo_certificate
from app.use_cases.demo_incidents import FAULT, NEAR_MISS
from app.use_cases.editions import begin_draft
from app.use_cases.hours import LogHours, log_hours
from app.use_cases.notices import end_notice, issue_notice, read_notice
from app.use_cases.plans import begin_plan
from app.use_cases.setting_exams import SetExam, set_exam
from app.web.visit import token_hash
from assessments.certificates.number import written
from assessments.hours.session import Part, Session
from curriculum.sessions.plan import Plan

NOW = datetime(2026, 11, 25, 15, 0, tzinfo=UTC)
OTHER = School("other", "other-school", "Tern Street", "Europe/Vienna", "en_GB")
WAITING = "waits-for-its-host"
LINK_DAYS = 21
DIRECTOR = Asker(SCHOOL, "director", "Maren Tollefsby", NOW)
EXAMINER = Asker(SCHOOL, "examiner-1", "Piet Oosterhall", NOW)
TRAINEE = Asker(SCHOOL, "trainee-1", "Ida Marlowe", NOW)
# Attempts of the demo that are over: first-mat, the first time through.
ATTEMPTS = {("trainee", "attempt_id"): "spotting-trainee-1-1", ("examiner", "attempt_id"): "spotting-examiner-1-1"}
ASKERS = {"director": DIRECTOR, "examiner": EXAMINER, "trainee": TRAINEE}
SIGNING = Signing("http://127.0.0.1:8000", "a passphrase")
PLAN = Plan(
    ("mat-hundred", "mat-roll-up", "reformer-footwork", "reformer-hundred", "mat-one-leg-circle"),
    title="A first lesson", minutes=55, factor=Fraction(9, 4), client=("osteoporosis",),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Site:
    """A served school: where it answers, the store behind it, and ids made there: by role (or "" for all) and place."""

    address: str
    store: Store
    made: Mapping[tuple[str, str], str] = field(default_factory=dict)

    def made_for(self, role: str, place: str) -> str:
        """The id made for a place in an address, for this role if it has one of its own."""
        return self.made.get((role, place)) or self.made["", place]


def fill(url: str) -> None:
    """The demo school with an exam set, and a second school without anybody, in an SQLite file."""
    engine = open_engine(url)
    migrate(engine)
    store = Store(engine)
    fill_school(store, SCHOOL, NOW)
    store.add_school(OTHER)
    with store.reading(SCHOOL.id) as work:
        practical = next(one.id for one in work.editions.of_kind("practical") if one.name == "basic")
    examiners = ("examiner-1", "examiner-2")
    set_exam(store, DIRECTOR, SetExam("exam-1", "enrolment-4", practical, NOW.date(), 9 * 60, "Upper hall", examiners))
    engine.dispose()


def copied(url: str, folder: Path) -> str:
    """The URL of a copy of a filled file that nobody has open."""
    path = folder / "school.db"
    shutil.copy(make_url(url).database, path)
    return f"sqlite:///{path}"


@contextmanager
def served(url: str) -> Iterator[Site]:
    """Serve until left; the socket listens before the server runs, so that nobody has to wait for it."""
    app = create_app(Settings(url, key_passphrase=SIGNING.passphrase), now=lambda: NOW)
    with socket.socket() as listening:
        listening.bind(("127.0.0.1", 0))
        listening.listen(64)
        config = uvicorn.Config(app, log_level="error", access_log=False, ws="none", timeout_graceful_shutdown=2)
        server = uvicorn.Server(config)
        thread = Thread(target=server.run, args=([listening],), daemon=True)
        thread.start()
        try:
            yield Site(f"http://127.0.0.1:{listening.getsockname()[1]}", app.state.store)
        finally:
            server.should_exit = True
            thread.join(20)
            app.state.store.engine.dispose()


def with_work_waiting(site: Site) -> Site:
    """The site with what the demo school lacks: a private link, an edition being written, plans, safety notices."""
    draft = begin_draft(site.store, DIRECTOR, "requirements-2026-1")
    with site.store.writing(SCHOOL.id) as work:
        base = work.editions.by_id("repertoire-2026-1")
        whole = replace(draft, id="draft-of-the-repertoire", kind=base.kind, name=base.name, based_on=base.id)
        work.editions.put_draft(replace(whole, documents=base.documents))
        basic = work.editions.by_id("practical-basic")
        own = {"id": "draft-of-a-practical", "kind": basic.kind, "name": basic.name, "based_on": basic.id}
        work.editions.put_draft(replace(draft, **own, documents=basic.documents))
        work.commit()
    _notices(site.store)
    add_demo_certificate(site.store, SCHOOL, SIGNING, NOW)
    made = {
        ("", "written"): _certified(site.store),
        ("", "link"): _link(site),
        ("", "invitation"): _invited(site.store),
        ("", "draft_id"): draft.id,
        ("", "receipt_number"): _signed_on_the_spot(site),
    }
    plans = {(role, "plan_id"): begin_plan(site.store, asker, PLAN).id for role, asker in ASKERS.items()}
    incidents = {("", "incident_id"): NEAR_MISS, ("trainee", "incident_id"): FAULT}
    return replace(site, made=made | incidents | plans | ATTEMPTS)


def _certified(store: Store) -> str:
    """A certificate of a short course for the trainee, who shows its results; its number with the code."""
    with store.writing(SCHOOL.id) as work:
        known = work.enrolments.programmes()[0]
        work.enrolments.add_programme(replace(known, id="short", title="Short course", readiness_id="readiness-2024-1"))
        of_trainee = replace(work.enrolments.by_id(GRADUATE), id="short", person_id="trainee-1", programme_id="short")
        work.enrolments.add(replace(of_trainee, enrolled_on=date(2024, 1, 8)))
        for document in work.enrolments.documents(GRADUATE):
            work.enrolments.add_document("short", replace(document, id=f"short-{document.kind}"))
        for module, day in work.enrolments.modules_done(GRADUATE).items():
            work.enrolments.add_module("short", module, day, "director")
        work.commit()
    decide(store, DIRECTOR, SIGNING, "short", "certify", "All is there.")
    number = decide(store, replace(DIRECTOR, person_id="director-2"), SIGNING, "short", "certify", "So it is.")
    take_step(store, TRAINEE, SIGNING, TakeStep(number, "shows-results"))
    with store.reading(SCHOOL.id) as work:
        return written(number, work.certificates.by_id(number).code)


def _invited(store: Store) -> str:
    """The private link of somebody asked from outside to examine."""
    token = "a-private-link"
    with store.writing(SCHOOL.id) as work:
        ends = NOW + timedelta(days=LINK_DAYS)
        work.exam_seats.invite(Invitation(token_hash(token), "exam-1", "examiner-2", NOW, ends))
        work.commit()
    return f"{SCHOOL.id}.{token}"


def _notices(store: Store) -> None:
    """One that stands, read by all but the trainee, and one that is ended."""
    stands = issue_notice(store, DIRECTOR, "reformer", "Check the straps of the two machines in the north room.")
    ended = issue_notice(store, DIRECTOR, "mat-hundred", "Wait for the new mats.")
    end_notice(store, DIRECTOR, ended.id, "They have come.")
    for asker in (DIRECTOR, EXAMINER):
        read_notice(store, asker, stands.id)


def _link(site: Site) -> str:
    """The private link in the mail that goes out when a session is logged."""
    session = Session(
        WAITING, date(2026, 11, 25), 6 * 60, 7 * 60, (Part(60, "observation", "reformer", "beginner"),),
        0, "host-1", "North room", "private", "signature",
    )  # fmt: skip
    log_hours(site.store, TRAINEE, LogHours("enrolment-1", session), LINK_DAYS, site.address)
    with site.store.reading(SCHOOL.id) as work:
        words = next(mail.words for mail in work.mail.newest(20) if "/h/" in mail.words)
    return words.split("/h/")[1].split()[0]


def _signed_on_the_spot(site: Site) -> str:
    """The receipt of the demo's signature with the PIN of the host whose link that is."""
    with site.store.reading(SCHOOL.id) as work:
        signed = {one.session_id: one.receipt for one in work.hosts.decided_by("host-1")}
        events = [event for one in signed for event in work.record.of_subject(one)]
    return next(event.content()["receipt"] for event in events if event.content().get("by") == "pin")
