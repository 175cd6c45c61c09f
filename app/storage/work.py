"""One transaction in one school: opened for reading or writing, kept only when committed."""

from collections.abc import Iterator
from contextlib import contextmanager, nullcontext
from dataclasses import dataclass
from functools import cached_property
from threading import Lock, local

from sqlalchemy import Engine, text
from sqlmodel import Session, select

from app.storage.appeals import AppealsKept
from app.storage.calibration import Calibrations
from app.storage.certificates import Certificates
from app.storage.chores import Chores
from app.storage.editions import Editions
from app.storage.engine import is_sqlite
from app.storage.enrolments import Enrolments
from app.storage.exam_papers import ExamPapers
from app.storage.exam_seats import ExamSeats
from app.storage.exams import Exams
from app.storage.feedback import Feedback
from app.storage.held import Held
from app.storage.host_terms import HostTerms
from app.storage.hosts import Hosts
from app.storage.incidents import Incidents
from app.storage.judging import Judgings
from app.storage.ledger import Ledger
from app.storage.lists import Lists
from app.storage.mail import Mail
from app.storage.notes import Notes
from app.storage.notices import Notices
from app.storage.people import People
from app.storage.places import Places
from app.storage.plans import Plans
from app.storage.recalls import Recalls
from app.storage.record import Record
from app.storage.requests import Requests
from app.storage.room_checks import RoomChecks
from app.storage.seasons import Seasons
from app.storage.sheet_records import SheetRecords
from app.storage.sign_ins import SignIns
from app.storage.spot_codes import SpotCodes
from app.storage.spotting import SpottingAttempts
from app.storage.standings import Standings
from app.storage.tables.people import SchoolRow
from app.storage.tables.records import EventCountRow
from app.storage.tokens import Tokens
from app.storage.worries import Worries
from curriculum.faults import ThroughlineError


class NestedWorkError(ThroughlineError):
    """Writing was opened inside writing of the same thread: it would wait for itself for ever."""


@dataclass(frozen=True, slots=True)
class School:
    """A school of this installation; `time_zone` is a name of the tz database."""

    id: str
    slug: str
    name: str
    time_zone: str
    locale: str = "en"


class Work:
    """Everything one school keeps, within one transaction."""

    def __init__(self, session: Session, school_id: str) -> None:
        self.session = session
        self.school_id = school_id

    def commit(self) -> None:
        """Keep what was done; the work is over then."""
        self.session.commit()

    @cached_property
    def people(self) -> People:
        return People(self.session, self.school_id)

    @cached_property
    def sign_ins(self) -> SignIns:
        return SignIns(self.session, self.school_id)

    @cached_property
    def editions(self) -> Editions:
        return Editions(self.session, self.school_id)

    @cached_property
    def enrolments(self) -> Enrolments:
        return Enrolments(self.session, self.school_id)

    @cached_property
    def held(self) -> Held:
        return Held(self.session, self.school_id)

    @cached_property
    def host_terms(self) -> HostTerms:
        return HostTerms(self.session, self.school_id)

    @cached_property
    def hosts(self) -> Hosts:
        return Hosts(self.session, self.school_id)

    @cached_property
    def ledger(self) -> Ledger:
        return Ledger(self.session, self.school_id)

    @cached_property
    def record(self) -> Record:
        return Record(self.session, self.school_id)

    @cached_property
    def mail(self) -> Mail:
        return Mail(self.session, self.school_id)

    @cached_property
    def appeals(self) -> AppealsKept:
        return AppealsKept(self.session, self.school_id)

    @cached_property
    def calibrations(self) -> Calibrations:
        return Calibrations(self.session, self.school_id)

    @cached_property
    def chores(self) -> Chores:
        return Chores(self.session, self.school_id)

    @cached_property
    def certificates(self) -> Certificates:
        return Certificates(self.session, self.school_id)

    @cached_property
    def exam_papers(self) -> ExamPapers:
        return ExamPapers(self.session, self.school_id)

    @cached_property
    def exam_seats(self) -> ExamSeats:
        return ExamSeats(self.session, self.school_id)

    @cached_property
    def exams(self) -> Exams:
        return Exams(self.session, self.school_id)

    @cached_property
    def sheet_records(self) -> SheetRecords:
        return SheetRecords(self.session, self.school_id)

    @cached_property
    def feedback(self) -> Feedback:
        return Feedback(self.session, self.school_id)

    @cached_property
    def incidents(self) -> Incidents:
        return Incidents(self.session, self.school_id)

    @cached_property
    def room_checks(self) -> RoomChecks:
        return RoomChecks(self.session, self.school_id)

    @cached_property
    def judgings(self) -> Judgings:
        return Judgings(self.session, self.school_id)

    @cached_property
    def lists(self) -> Lists:
        return Lists(self.session, self.school_id)

    @cached_property
    def notes(self) -> Notes:
        return Notes(self.session, self.school_id)

    @cached_property
    def notices(self) -> Notices:
        return Notices(self.session, self.school_id)

    @cached_property
    def places(self) -> Places:
        return Places(self.session, self.school_id)

    @cached_property
    def plans(self) -> Plans:
        return Plans(self.session, self.school_id)

    @cached_property
    def recalls(self) -> Recalls:
        return Recalls(self.session, self.school_id)

    @cached_property
    def requests(self) -> Requests:
        return Requests(self.session, self.school_id)

    @cached_property
    def seasons(self) -> Seasons:
        return Seasons(self.session, self.school_id)

    @cached_property
    def spot_codes(self) -> SpotCodes:
        return SpotCodes(self.session, self.school_id)

    @cached_property
    def spotting(self) -> SpottingAttempts:
        return SpottingAttempts(self.session, self.school_id)

    @cached_property
    def standings(self) -> Standings:
        return Standings(self.session, self.school_id)

    @cached_property
    def tokens(self) -> Tokens:
        return Tokens(self.session, self.school_id)

    @cached_property
    def worries(self) -> Worries:
        return Worries(self.session, self.school_id)


def begin_on_server(session: Session, school_id: str, writing: bool) -> None:
    """As on SQLite: a reader sees one moment, and a school has one writer at a time, so a check stays true."""
    if not writing:
        session.execute(text("set transaction isolation level repeatable read"))
    session.execute(text("select set_config('app.school', :id, true)"), {"id": school_id})
    if writing:
        session.execute(select(EventCountRow.school_id).filter_by(school_id=school_id).with_for_update())


class Store:
    """The database of an installation. Writers of one process queue here when it is SQLite."""

    def __init__(self, engine: Engine) -> None:
        self.engine = engine
        self.lane = Lock() if is_sqlite(engine) else nullcontext()
        self.here = local()

    @contextmanager
    def reading(self, school_id: str) -> Iterator[Work]:
        with self.opened(school_id, writing=False) as session:
            yield Work(session, school_id)

    @contextmanager
    def writing(self, school_id: str) -> Iterator[Work]:
        """Work that is undone unless `commit` is called; raises `NestedWorkError` inside other writing.

        Reading inside it is let through, and sees what was committed before.
        """
        with self._alone(), self.opened(school_id, writing=True) as session:
            yield Work(session, school_id)

    @contextmanager
    def _alone(self) -> Iterator[None]:
        """One writer of this thread, and on SQLite of this process."""
        if getattr(self.here, "writing", False):
            raise NestedWorkError("writing inside writing: pass the work that is open on, or commit it first")
        with self.lane:
            self.here.writing = True
            try:
                yield
            finally:
                self.here.writing = False

    @contextmanager
    def opened(self, school_id: str, writing: bool) -> Iterator[Session]:
        with Session(self.engine.execution_options(writing=writing), expire_on_commit=False) as session:
            session.connection()
            if not is_sqlite(self.engine):
                begin_on_server(session, school_id, writing)
            yield session

    def schools(self) -> tuple[School, ...]:
        """Every school of the installation, by its short name."""
        with Session(self.engine) as session:
            rows = session.exec(select(SchoolRow)).all()
        return tuple(sorted(map(_school, rows), key=lambda school: school.slug))

    def school(self, school_id: str) -> School | None:
        """A school of the installation by its id, which may be anything somebody sent."""
        with Session(self.engine) as session:
            row = session.get(SchoolRow, school_id) if school_id and "\x00" not in school_id else None
        return _school(row) if row else None

    def add_school(self, school: School) -> None:
        with self._alone(), self.opened(school.id, writing=True) as session:
            session.add(
                SchoolRow(
                    id=school.id,
                    slug=school.slug,
                    name=school.name,
                    time_zone=school.time_zone,
                    locale=school.locale,
                )
            )
            session.flush()
            session.add(EventCountRow(school_id=school.id))
            session.commit()


def _school(row: SchoolRow) -> School:
    return School(row.id, row.slug, row.name, row.time_zone, row.locale)
