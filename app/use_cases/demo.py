"""Fills a demo school of our own invention: people, hosts, a programme, and a year and a half of hours."""

import hashlib
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import count
from pathlib import Path
from random import Random

from app.clock import day_in
from app.settings import ROOT
from app.storage.editions import Edition
from app.storage.enrolments import Enrolment, Programme, ShownDocument
from app.storage.hosts import Host, HostDecision
from app.storage.people import Person
from app.storage.work import School, Store, Work
from app.use_cases.demo_exams import add_demo_exams
from app.use_cases.demo_judging import add_demo_judging
from app.use_cases.demo_notes import add_demo_notes
from app.use_cases.demo_season import add_demo_season
from app.use_cases.demo_spotting import add_demo_spotting
from app.use_cases.signing_in import password_hash
from assessments.hours.recorded import version_body
from assessments.hours.session import Part, Session

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
# What a trainee does over a full programme: activity, apparatus, hours, proof.
WORK = (
    ("workshop", "", 120, "registered"),
    ("observation", "reformer", 50, "signature"),
    ("observation", "mat", 30, "signature"),
    ("observation", "chair", 20, "signature"),
    ("self_practice", "mat", 60, "attested"),
    ("self_practice", "reformer", 50, "attested"),
    ("assisting", "reformer", 40, "signature"),
    ("practice_teaching", "reformer", 26, "signature"),
    ("practice_teaching", "mat", 18, "signature"),
    ("practice_teaching", "trapeze_table", 16, "signature"),
    ("supervised_teaching", "reformer", 20, "signature"),
)


@dataclass(frozen=True, slots=True)
class DemoEditions:
    """The ids of the demo's editions."""

    requirements: str
    repertoire: str
    readiness: str


def fill_demo(store: Store, now: datetime) -> bool:
    """Make the demo school if this installation has none; says whether it did."""
    if store.schools():
        return False
    fill_school(store, SCHOOL, now)
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
        for number, (_, days, share) in enumerate(chosen, start=1):
            _trainee(work, chance, programme, hosts, number, days, share, now)
        work.commit()
    add_demo_notes(store, school, now)
    add_demo_exams(store, school, now)
    if trainees is None and people is TRAINEES:
        add_demo_season(store, school, programme, password_hash(PASSWORD), now)
        add_demo_judging(store, school, now)
        add_demo_spotting(store, school, now)


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
    for path in sorted((SEED / "practicals").glob("*.yaml")):
        work.editions.add(Edition(f"practical-{path.stem}", "practical", path.stem, "2026.1", _documents([path]), at))
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


def _trainee(  # noqa: PLR0913 - the demo's one recipe
    work: Work, chance: Random, programme: Programme, hosts: list[Host], number: int, days: int,
    share: float, now: datetime,
) -> None:  # fmt: skip
    today = day_in(now, SCHOOL.time_zone)
    enrolment = Enrolment(
        f"enrolment-{number}", f"trainee-{number}", programme.id, today - timedelta(days=days),
        programme.requirements_id, programme.repertoire_id, programme.readiness_id,
    )  # fmt: skip
    work.enrolments.add(enrolment)
    _shown(work, enrolment, now, number)
    for session in _sessions(chance, enrolment, hosts, days, share, now):
        registered = session.proof == "registered"
        evidence, by = ("Register of the taught module", "director") if registered else ("", enrolment.person_id)
        work.ledger.add_version(session, enrolment.id, None, evidence, by, now)
        kind = "hours-registered" if registered else "session-logged"
        work.record.append(kind, session.id, by, now, version_body(session, enrolment.id, evidence))
        if session.state == "signed_off":
            _signed(work, session, now)


def _signed(work: Work, session: Session, at: datetime) -> None:
    """The host's signature; the demo's receipts are numbered so that every start gives the same."""
    receipt = hashlib.sha256(session.id.encode()).hexdigest()[:16].upper()
    work.hosts.add_decision(HostDecision(session.id, 1, session.host, "signed_off", None, receipt, at))
    body = {"session": session.id, "version": 1, "host": session.host, "receipt": receipt, "reason": ""}
    work.record.append("session-signed", session.id, f"host:{session.host}", at, body)


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


def _free_hour(taken: set[tuple[date, int]], day: date, wanted: int, hours: int) -> int:
    """`wanted`, else the first hour from eight with an hour on the way before and after; it is taken then."""
    for first in (wanted, *range(8, 24 - hours)):
        if not {(day, hour) for hour in range(first - 1, first + hours + 1)} & taken:
            taken |= {(day, hour) for hour in range(first, first + hours)}
            return first
    return wanted


def _sessions(chance: Random, enrolment: Enrolment, hosts: list[Host], days: int, share: float, now: datetime):  # noqa: ANN202
    numbers, taken = count(1), set()
    for activity, apparatus, whole, proof in WORK:
        length = 240 if activity == "workshop" else 120 if activity in ("observation", "assisting") else 60
        for place in range(int(whole * 60 * share / length)):
            number = next(numbers)
            wanted = 8 + number % 3 if length < 240 else 13
            day = enrolment.enrolled_on + timedelta(days=(number * 37 + place) % max(days - 1, 1))
            start = 60 * _free_hour(taken, day, wanted, length // 60)
            host = hosts[chance.randrange(len(hosts))] if proof == "signature" else None
            recent = (day_in(now, SCHOOL.time_zone) - day).days < 12
            state = {"attested": "attested", "registered": "registered"}.get(
                proof, "waiting" if recent else "signed_off"
            )
            client = f"C{number % 14}" if activity.endswith("teaching") else ""
            more = {"client_stage": "beginner"} if client and number % 4 == 0 else {}
            part = Part(length, activity, apparatus, "beginner", "live", client, more)
            yield Session(
                f"{enrolment.id}-s{number}", day, start, start + length, (part,), 0, host.id if host else "",
                host.site if host else "", "private", proof, 1, state,
            )  # fmt: skip
