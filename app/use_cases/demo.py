"""Fills a demo school of our own invention: people, hosts, a programme, and a year and a half of hours."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from random import Random

from app.clock import day_in
from app.settings import ROOT
from app.storage.editions import Edition
from app.storage.enrolments import Enrolment, Programme, ShownDocument
from app.storage.hosts import Host
from app.storage.people import Person
from app.storage.work import School, Store, Work
from app.use_cases.certifying import Signing
from app.use_cases.demo_before_exams import add_demo_papers
from app.use_cases.demo_calibration import add_demo_calibration
from app.use_cases.demo_certificates import add_demo_certificate
from app.use_cases.demo_days import add_demo_day
from app.use_cases.demo_exams import add_demo_exams, add_own_exam
from app.use_cases.demo_feedback import add_demo_feedback
from app.use_cases.demo_hosts import PIN, add_demo_hosts
from app.use_cases.demo_hours import keep_demo_hours
from app.use_cases.demo_incidents import add_demo_incidents
from app.use_cases.demo_judging import add_demo_judging
from app.use_cases.demo_notes import add_demo_notes
from app.use_cases.demo_requests import add_demo_requests
from app.use_cases.demo_season import add_demo_season
from app.use_cases.demo_spotting import add_demo_spotting
from app.use_cases.signing_in import password_hash

SEED = ROOT / "seed_data"
SCHOOL = School("halden-row", "halden-row", "Halden Row", "Europe/Vienna", "en_GB")
PASSWORD = "practice notebook"
STAFF = (
    ("director", "Maren Tollefsby", "director@halden-row.example", frozenset({"director"})),
    ("examiner-1", "Piet Oosterhall", "examiner@halden-row.example", frozenset({"examiner"})),
    ("examiner-2", "Runa Calloway", "examiner2@halden-row.example", frozenset({"examiner"})),
    ("director-2", "Isolde Farrant", "deputy@halden-row.example", frozenset({"director"})),
)
Trainees = tuple[tuple[str, int, float], ...]
TRAINEES: Trainees = (
    ("Ida Marlowe", 300, 0.62),
    ("Tomas Verrin", 420, 0.55),
    ("Lene Askeby", 180, 0.40),
    ("Noor Halvane", 500, 0.97),
    ("Bram Quillon", 90, 0.12),
    ("Sanna Dovrey", 260, 0.22),
    ("Emil Torrach", 360, 0.80),
    ("Yara Fennwick", 30, 0.05),
)
HOSTS = (
    ("Greta Lindqvale", "North room"),
    ("Oskar Benholm", "North room"),
    ("Vida Strandmoor", "River studio"),
    ("Jonas Pelling", "River studio"),
    ("Abel Cransworth", "Upper hall"),
)


@dataclass(frozen=True, slots=True)
class DemoEditions:
    """The ids of the demo's editions."""

    requirements: str
    repertoire: str
    readiness: str


def fill_demo(store: Store, now: datetime, signing: Signing) -> bool:
    """Make the demo school if this installation has none; says whether it did."""
    if store.schools():
        return False
    fill_school(store, SCHOOL, now)
    add_demo_certificate(store, SCHOOL, signing, now)
    return True


def fill_school(
    store: Store, school: School, now: datetime, trainees: int | None = None, people: Trainees = TRAINEES
) -> None:
    """Make a school with the demo's hours; `trainees` takes only the first so many of `people`, and no past season."""
    store.add_school(school)
    chosen = people[:trainees]
    with store.writing(school.id) as work:
        editions = _editions(work, now - timedelta(days=600))
        _people(work, chosen, now - timedelta(days=600))
        hosts = _hosts(work, now)
        programme = Programme(
            "comprehensive", "Comprehensive", editions.requirements, editions.repertoire, editions.readiness
        )
        work.enrolments.add_programme(programme)
        chance = Random(19)
        enrolled = [_trainee(work, programme, number, days, now) for number, (_, days, _) in enumerate(chosen, start=1)]
        shares = [share for *_, share in chosen]
        keep_demo_hours(work, chance, hosts, list(zip(enrolled, shares, strict=True)), school, now)
        work.commit()
    add_demo_notes(store, school, now)
    add_demo_feedback(store, school, now)
    add_demo_exams(store, school, now)
    if trainees is None and people is TRAINEES:
        add_own_exam(store, school, now)
        add_demo_requests(store, school, now)
        add_demo_papers(store, school, now)
        add_demo_season(store, school, programme, password_hash(PASSWORD), now)
        add_demo_day(store, school, now)
        add_demo_judging(store, school, now)
        add_demo_incidents(store, school, now)
        add_demo_spotting(store, school, now)
        add_demo_hosts(store, school, password_hash(PIN), now)
    add_demo_calibration(store, school, now)


def _editions(work: Work, at: datetime) -> DemoEditions:
    files = {
        "requirements": ("comprehensive", [SEED / "requirements" / "comprehensive.yaml"]),
        "repertoire": ("classical", sorted((SEED / "repertoire" / "classical-2026.1").glob("*.yaml"))),
        "readiness": ("comprehensive", [SEED / "readiness" / "comprehensive.yaml"]),
        "machines": ("studio", [SEED / "repertoire" / "machines.yaml"]),
        "spotting": ("lessons", [SEED / "spotting" / "lessons.yaml"]),
    }
    for kind, (name, paths) in files.items():
        work.editions.add(Edition(f"{kind}-2026-1", kind, name, "2026.1", _documents(paths), at))
    for kind, folder in (("practical", "practicals"), ("performances", "calibration")):
        for path in sorted((SEED / folder).glob("*.yaml")):
            work.editions.add(Edition(f"{kind}-{path.stem}", kind, path.stem, "2026.1", _documents([path]), at))
    return DemoEditions("requirements-2026-1", "repertoire-2026-1", "readiness-2026-1")


def _documents(paths: list[Path]) -> dict[str, str]:
    return {path.name: path.read_text(encoding="utf-8") for path in paths}


def _people(work: Work, trainees: Trainees, at: datetime) -> None:
    secret = password_hash(PASSWORD)
    for id, name, email, roles in STAFF:
        work.people.add(Person(id, name, email, secret), roles, at)
    for number, (name, *_) in enumerate(trainees, start=1):
        email = "trainee@halden-row.example" if number == 1 else f"trainee{number}@halden-row.example"
        work.people.add(Person(f"trainee-{number}", name, email, secret), frozenset({"trainee"}), at)


def _hosts(work: Work, now: datetime) -> list[Host]:
    since = (now - timedelta(days=900)).date()
    hosts = [
        Host(f"host-{i}", name, f"host{i}@halden-row.example", site, "comprehensive", since)
        for i, (name, site) in enumerate(HOSTS, start=1)
    ]
    for host in hosts:
        work.hosts.add(host)
    return hosts


def _trainee(work: Work, programme: Programme, number: int, days: int, now: datetime) -> Enrolment:
    today = day_in(now, SCHOOL.time_zone)
    enrolment = Enrolment(
        f"enrolment-{number}", f"trainee-{number}", programme.id, today - timedelta(days=days),
        programme.requirements_id, programme.repertoire_id, programme.readiness_id,
    )  # fmt: skip
    work.enrolments.add(enrolment)
    _shown(work, enrolment, now, number)
    return enrolment


def _shown(work: Work, enrolment: Enrolment, now: datetime, number: int) -> None:
    ends = enrolment.enrolled_on + timedelta(days=365 if number % 3 else 200)
    for kind in ("insurance", "first-aid", "agreement")[: 1 + number % 3]:
        document = ShownDocument(
            f"{enrolment.id}-{kind}",
            kind,
            enrolment.enrolled_on,
            None if kind == "agreement" else ends,
            "director",
            now,
        )
        work.enrolments.add_document(enrolment.id, document)
