"""The visit: the one thing a page depends on. Who asks, when, the store, `show` and `go`."""

import hashlib
import hmac
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Annotated
from urllib.parse import quote, unquote, urlsplit

from fastapi import Depends, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from app.clock import day_in
from app.permissions import ANYONE, DIRECTOR, EXAMINER, LINK_HOLDER, OUTSIDER, ROLES, TRAINEE, may
from app.settings import Settings
from app.storage.notices import SafetyNotice
from app.storage.people import Person
from app.storage.work import School, Store
from app.use_cases.asker import Asker
from app.web.door import act_of
from app.web.pages import environment
from app.wording.faults import fault_text
from app.wording.languages import Language
from curriculum.faults import N_, Fault, NotAllowedError, NotFoundError

COOKIE = "throughline"
NOTICE = "throughline-notice"
PLACES = (
    (TRAINEE, N_("Today"), "/today"),
    (TRAINEE, N_("My hours"), "/hours"),
    (TRAINEE, N_("Readiness"), "/readiness"),
    (TRAINEE, N_("My practicals"), "/my-practicals"),
    (TRAINEE, N_("Ask the school"), "/my-requests"),
    (TRAINEE, N_("Study"), "/study"),
    (TRAINEE, N_("Fault spotting"), "/spotting"),
    (DIRECTOR, N_("Cohort"), "/cohort"),
    (DIRECTOR, N_("Exams"), "/exams"),
    (DIRECTOR, N_("Seasons"), "/seasons"),
    (DIRECTOR, N_("Fault spotting"), "/spotters"),
    (DIRECTOR, N_("Editions"), "/editions"),
    (DIRECTOR, N_("Outbox"), "/outbox"),
    (EXAMINER, N_("My exams"), "/sheets"),
    (OUTSIDER, N_("My exams"), "/sheets"),
    (EXAMINER, N_("Calibration"), "/calibration"),
    (EXAMINER, N_("My scoring"), "/my-scoring"),
    (EXAMINER, N_("Fault spotting"), "/spotting"),
    (None, N_("Incidents"), "/incidents"),
    (None, N_("Repertoire"), "/repertoire"),
    (None, N_("Plans"), "/plans"),
)


class SignInNeededError(NotAllowedError):
    """Nobody is signed in, and the page needs somebody."""


@dataclass(frozen=True, slots=True)
class ShownFault:
    """A fault as a template shows it: the field, and the sentence in the visitor's language."""

    field: str
    text: str


@dataclass(slots=True)
class Visit:
    """One request of one person (or of nobody, or of a link holder)."""

    request: Request
    store: Store
    settings: Settings
    now: datetime
    school: School | None = None
    person: Person | None = None
    roles: frozenset[str] = frozenset()
    token: str = ""
    unread: tuple[SafetyNotice, ...] = ()
    form: Mapping[str, list[str]] = field(default_factory=dict)

    @property
    def school_name(self) -> str:
        return self.school.name if self.school else "Throughline"

    @property
    def school_id(self) -> str:
        if self.school is None:
            raise NotFoundError
        return self.school.id

    @property
    def device_key(self) -> str:
        """Whose things are whose on a device that several people use."""
        return f"{self.school_id}.{self.person.id}" if self.person else ""

    @property
    def shares_device(self) -> bool:
        """Whether this person works on a device that goes from hand to hand, and may lock it."""
        return bool(self.roles & {EXAMINER, OUTSIDER})

    @property
    def has_account(self) -> bool:
        """Whether this person belongs to the school; somebody invited to one exam does not."""
        return bool(self.roles & set(ROLES))

    @property
    def today(self) -> date:
        """The calendar day at the school."""
        return day_in(self.now, self.school.time_zone if self.school else "UTC")

    @property
    def asker(self) -> Asker:
        """The person, as use cases know who asks; mail that follows is in the school's language."""
        language = self.request.app.state.languages.of(self.school.locale)
        return Asker(self.school, self.person.id, self.person.name, self.now, language)

    @property
    def path(self) -> str:
        return self.request.url.path

    @property
    def language(self) -> Language:
        """What the browser asks for, if there is a catalogue for it, else the school's language."""
        accepted = self.request.headers.get("accept-language", "")
        return self.request.app.state.languages.chosen(accepted, self.school.locale if self.school else "en")

    @property
    def locale(self) -> str:
        return self.language.locale

    @property
    def csrf(self) -> str:
        return form_token(self.token) if self.token else ""

    @property
    def form_is_own(self) -> bool:
        """Whether the form carries this visitor's token; bytes, since anything may have been typed there."""
        return bool(self.csrf) and hmac.compare_digest(self.typed("form_token").encode(), self.csrf.encode())

    @property
    def notice(self) -> str | None:
        return unquote(self.request.cookies.get(NOTICE, "")) or None

    @property
    def places(self) -> list[tuple[str, str, bool]]:
        """Where this person can go: label, address, and whether it is here."""
        if self.person is None:
            return []
        shown = [(label, href) for role, label, href in PLACES if role in self.roles or not role and self.has_account]
        shown = list(dict.fromkeys(shown))
        if not self.settings.outbox_page:
            shown = [place for place in shown if place[1] != "/outbox"]
        shown = [place for place in shown if place[1] in self.request.app.state.paths]
        return [(self.say(label), href, self.path.startswith(href)) for label, href in shown]

    def ask(self, job: str, about: str = "") -> None:
        """Have a job done soon, after the answer."""
        self.request.app.state.ask(job, self.school_id, about)

    def say(self, text: str, **values: object) -> str:
        """A sentence in the visitor's language."""
        return self.language(text, **values)

    def translate(self, text: str) -> str:
        """A text in the visitor's language, its places still open."""
        return self.language(text)

    def faults(self, faults: tuple[Fault, ...]) -> list[ShownFault]:
        return [ShownFault(fault.field, fault_text(fault, self.language)) for fault in faults]

    def typed(self, name: str) -> str:
        """What was typed in a field; empty if nothing was."""
        return self.form.get(name, [""])[0]

    def sent_file(self, name: str) -> tuple[str, bytes]:
        """A sent file as it was sent: its name and its bytes; both empty if none was."""
        return self.request.scope.get("state", {}).get(f"file-{name}", ("", b""))

    def show(self, template: str, status: int = 200, **values: object) -> HTMLResponse:
        """A page; a notice is shown once."""
        text = environment(self.language).get_template(template).render(visit=self, **values)
        response = HTMLResponse(text, status)
        if self.notice:
            response.delete_cookie(NOTICE)
        return response

    def go(self, path: str, notice: str = "") -> Response:
        """To another page (303), with a sentence to show there once."""
        response = RedirectResponse(path, 303)
        if notice:
            response.set_cookie(NOTICE, quote(notice), max_age=60, httponly=True, samesite="lax")
        return response


def form_token(token: str) -> str:
    """What a form must carry: made from the sign-in's or link's secret, which other sites can't know."""
    return hmac.new(token.encode(), b"form", hashlib.sha256).hexdigest()


def token_hash(token: str) -> str:
    """What is stored of a secret."""
    return hashlib.sha256(token.encode()).hexdigest()


async def typed_form(request: Request) -> dict[str, list[str]]:
    """The fields of a form, without the one character that PostgreSQL can't keep; a sent file is its text.

    What is no UTF-8 in a file is left to fail where the text is read; `app.main` limits the size of all of it.
    """
    if request.method != "POST":
        return {}
    fields: dict[str, list[str]] = {}
    async with request.form() as form:
        for name, value in form.multi_items():
            if isinstance(value, str):
                text = value
            else:
                content = await value.read()
                request.scope.setdefault("state", {})[f"file-{name}"] = (value.filename or "", content)
                text = content.decode("utf-8-sig", "replace")
            fields.setdefault(name, []).append(text.replace("\x00", ""))
    return fields


def enter(request: Request, form: Annotated[dict, Depends(typed_form)]) -> Visit:
    """Open a visit, or refuse it: cross-site forms, nobody signed in, not this person's to do."""
    act = act_of(request.scope["route"])
    visit = Visit(request, request.app.state.store, request.app.state.settings, request.app.state.now(), form=form)
    _recognise(visit)
    if request.method == "POST":
        _refuse_cross_site(request)
    if act in (ANYONE, LINK_HOLDER):
        return visit
    if visit.person is None:
        raise SignInNeededError(N_("Please sign in first."))
    if not may(visit.roles, act):
        raise NotFoundError
    if request.method == "POST" and not visit.form_is_own:
        raise NotAllowedError(
            N_("This form was open too long, or came from elsewhere. Open the page again and repeat.")
        )
    return visit


def _recognise(visit: Visit) -> None:
    school_id, _, token = visit.request.cookies.get(COOKIE, "").partition(".")
    visit.school = visit.store.school(school_id)
    if visit.school is None or not token:
        return
    with visit.store.reading(school_id) as work:
        signed_in = work.sign_ins.by_token_hash(token_hash(token), visit.now)
        person = work.people.by_id(signed_in.person_id) if signed_in else None
        if person is not None and person.left_at is None:
            visit.person, visit.token = person, token
            visit.roles = frozenset(work.people.roles(person.id))
            visit.unread = tuple(work.notices.unread(person.id))


def _refuse_cross_site(request: Request) -> None:
    origin = request.headers.get("origin")
    elsewhere = request.headers.get("sec-fetch-site") not in (None, "same-origin", "none")
    if elsewhere or (origin and urlsplit(origin).netloc != request.headers.get("host")):
        raise NotAllowedError(N_("This form came from another site and was not taken."))


Here = Annotated[Visit, Depends(enter)]
