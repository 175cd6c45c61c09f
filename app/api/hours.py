"""Sessions and the standing: one's own to log, correct, withdraw and read; anybody's to read for the director."""

from datetime import date
from typing import Annotated

from fastapi import Header, Response
from pydantic import Field

from app.api.asking import Asked
from app.api.door import Api
from app.api.enrolled import enrolment_named, own_enrolment, own_enrolment_in
from app.api.shapes import Answer, Cursor, Limit, LongText, Page, Question, Text, page
from app.queries.standing import standing_of
from app.storage.enrolments import Enrolment
from app.use_cases import hours as act
from app.use_cases.hours import LogHours
from app.web.errors import StaleError, VersionNeededError
from app.web.typed import typed_minute
from app.web.visit import Visit
from assessments.hours.log_rules import clock_time
from assessments.hours.session import Part, Session
from curriculum.faults import N_, Fault, NotFoundError, RefusedError

api = Api("hours")
CHANGED = N_("This session has changed since you read it. Read it again, then decide.")
SAY_WHICH = N_("Say with If-Match which version you have read: the ETag that came with it.")
IfMatch = Annotated[str | None, Header(description="The `ETag` that came with the session.")]
READ_ANY = {"may": "see any standing", "scope": "hours:read"}
READ_OWN = {"may": "see own standing", "scope": "hours:read"}
WRITE_OWN = {"may": "log own hours", "scope": "hours:write"}
ID = Field(min_length=1, max_length=36, pattern=r"^[A-Za-z0-9_-]+$", description="Made by the program, such as a UUID.")


class PartShape(Question):
    """One part of a session; the parts' minutes add up to at most the session's."""

    minutes: int = Field(ge=1, le=1440, examples=[60])
    activity: Text = Field(examples=["observation"])
    apparatus: Text = Field("", examples=["reformer"])
    level: Text = ""
    mode: Text = "live"
    client: Text = Field("", description="A code, never a name; several joined with |.")
    more: dict[Text, Text] = Field({}, max_length=20, description="Further fields that the requirement set names.")


class SessionShape(Question):
    """What a session is: one sitting, one signature. Days and times are the school's own."""

    day: date
    start: str = Field(examples=["09:30"], max_length=8)
    end: str = Field(examples=["10:30"], max_length=8)
    breaks: int = Field(0, ge=0, le=1440, description="Minutes taken out.")
    host: str = Field("", max_length=36, description="The host's id; empty for one's own practice, on one's word.")
    site: Text = ""
    setting: Text = ""
    parts: list[PartShape] = Field(min_length=1, max_length=20)
    note: LongText = Field("", description="For oneself and the school; kept so that it can be erased.")


class NewSession(SessionShape):
    """A session to log. Sending it twice is logging it once."""

    id: str = ID


class ShownPart(Answer):
    minutes: int
    activity: str
    apparatus: str
    level: str
    mode: str
    client: str
    more: dict[str, str]


class ShownSession(Answer):
    """A session as it stands. `start` and `end` are null where only the length is known."""

    id: str
    version: int
    state: str = Field(examples=["waiting"])
    day: date
    first_day: date | None
    start: str | None
    end: str | None
    breaks: int
    minutes: int
    host: str
    site: str
    setting: str
    proof: str
    parts: list[ShownPart]


class Figure(Answer):
    """One category or rule. Categories are in minutes; rules in what they count."""

    id: str
    title: str
    needed: int
    waiting: int


class CategoryFigure(Figure):
    credited: int
    further_at_least: int


class RuleFigure(Figure):
    kind: str
    category: str
    met: int
    short: int


class Aside(Answer):
    """Minutes of an entry (SESSION/PART) that earn nothing, and why."""

    entry: str
    minutes: int
    reason: str
    rule: str


class StandingShape(Answer):
    """The least time still to do, and what counts where; in minutes of credit."""

    as_of: date
    enrolled: date | None
    complete: bool
    further_minutes: int
    credited_minutes: int
    waiting_minutes: int
    categories: list[CategoryFigure]
    rules: list[RuleFigure]
    set_aside: list[Aside]


@api.get("/sessions", **READ_OWN, answers=Page[ShownSession])
def own_sessions(visit: Asked, limit: Limit = 50, cursor: Cursor = "") -> dict:
    """One's own sessions, by day."""
    return _sessions(visit, own_enrolment(visit), limit, cursor)


@api.get("/trainees/{enrolment_id}/sessions", **READ_ANY, answers=Page[ShownSession])
def trainees_sessions(visit: Asked, enrolment_id: str, limit: Limit = 50, cursor: Cursor = "") -> dict:
    """A trainee's sessions, by day."""
    return _sessions(visit, enrolment_named(visit, enrolment_id), limit, cursor)


@api.get("/sessions/{session_id}", **READ_OWN, answers=ShownSession)
def own_session(visit: Asked, response: Response, session_id: str) -> ShownSession:
    """One of one's own sessions, with its `ETag`."""
    return _answer(response, _own(visit, own_enrolment(visit), session_id))


@api.post("/sessions", **WRITE_OWN, answers=ShownSession, status=201, errors=(409,),
          also={200: {"model": ShownSession, "description": "It was logged already."}})  # fmt: skip
def log_session(visit: Asked, response: Response, sent: NewSession) -> ShownSession:
    """Log a session; its host is asked to sign. The same sent again changes nothing and answers 200."""
    with visit.store.reading(visit.school_id) as work:
        enrolment = own_enrolment_in(work, visit)
        if work.ledger.versions(sent.id):
            response.status_code = 200
    return _answer(response, _log(visit, enrolment, sent.id, sent, 0))


@api.put("/sessions/{session_id}", **WRITE_OWN, answers=ShownSession, errors=(409, 412, 428))
def correct_session(
    visit: Asked, response: Response, session_id: str, sent: SessionShape, if_match: IfMatch = None
) -> ShownSession:
    """Correct a session: a new version, which needs a new signature."""
    enrolment = own_enrolment(visit)
    known = _own(visit, enrolment, session_id)
    _needs_to_match(known, if_match)
    return _answer(response, _log(visit, enrolment, session_id, sent, known.version))


@api.post("/sessions/{session_id}/withdrawal", **WRITE_OWN, answers=ShownSession, errors=(409, 412, 428))
def withdraw_session(visit: Asked, response: Response, session_id: str, if_match: IfMatch = None) -> ShownSession:
    """Take a session back before it is signed. It stays on record and counts nothing."""
    enrolment = own_enrolment(visit)
    _needs_to_match(_own(visit, enrolment, session_id), if_match)
    act.withdraw(visit.store, visit.asker, session_id)
    return _answer(response, _own(visit, enrolment, session_id))


@api.get("/standing", **READ_OWN, answers=StandingShape)
def own_standing(visit: Asked) -> StandingShape:
    """Where one's own hours stand today."""
    return _standing(visit, own_enrolment(visit))


@api.get("/trainees/{enrolment_id}/standing", **READ_ANY, answers=StandingShape)
def trainees_standing(visit: Asked, enrolment_id: str) -> StandingShape:
    """Where a trainee's hours stand today."""
    return _standing(visit, enrolment_named(visit, enrolment_id))


def _sessions(visit: Visit, enrolment: Enrolment, limit: int, cursor: str) -> dict:
    with visit.store.reading(visit.school_id) as work:
        found = [_shown(one) for one in work.ledger.of_enrolment(enrolment.id)]
    return page(found, lambda one: f"{one.day}/{one.id}", limit, cursor)


def _own(visit: Visit, enrolment: Enrolment, session_id: str) -> Session:
    with visit.store.reading(visit.school_id) as work:
        if work.ledger.enrolment_of(session_id) != enrolment.id:
            raise NotFoundError
        return work.ledger.now(session_id)


def _log(visit: Visit, enrolment: Enrolment, session_id: str, sent: SessionShape, version: int) -> Session:
    request = LogHours(enrolment.id, _session(session_id, sent), note=sent.note, expected_version=version)
    return act.log_hours(
        visit.store, visit.asker, request, visit.settings.host_link_days, str(visit.request.base_url).rstrip("/")
    )


def _session(session_id: str, sent: SessionShape) -> Session:
    faults: list[Fault] = []
    start = typed_minute(sent.start, "start", N_("the time it began, such as 09:30"), faults)
    end = typed_minute(sent.end, "end", N_("the time it ended, such as 10:30"), faults)
    if faults:
        raise RefusedError(faults)
    parts = tuple(Part(**part.model_dump()) for part in sent.parts)
    proof = "signature" if sent.host else "attested"
    return Session(session_id, sent.day, start, end, parts, sent.breaks, sent.host, sent.site, sent.setting, proof)


def _needs_to_match(known: Session, if_match: str | None) -> None:
    if if_match is None:
        raise VersionNeededError(SAY_WHICH)
    if if_match.strip() != _etag(known):
        raise StaleError(CHANGED)


def _etag(session: Session) -> str:
    return f'"{session.version}-{session.state}"'


def _answer(response: Response, session: Session) -> ShownSession:
    response.headers["etag"] = _etag(session)
    return _shown(session)


def _shown(session: Session) -> ShownSession:
    start, end = (clock_time(session.start), clock_time(session.end)) if session.timed else (None, None)
    parts = [ShownPart.model_validate(part) for part in session.parts]
    return ShownSession(
        id=session.id, version=session.version, state=session.state, day=session.day, first_day=session.first,
        start=start, end=end, breaks=session.breaks, minutes=session.minutes, host=session.host, site=session.site,
        setting=session.setting, proof=session.proof, parts=parts,
    )  # fmt: skip


def _standing(visit: Visit, enrolment: Enrolment) -> StandingShape:
    with visit.store.reading(visit.school_id) as work:
        _requirements, standing = standing_of(work, enrolment, visit.today)
    return StandingShape.model_validate(standing)
