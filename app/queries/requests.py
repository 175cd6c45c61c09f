"""Requests as pages show them: one with its steps, those that wait, and earlier ones of the same kind."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from app.storage.requests import Request, RequestStep
from app.storage.work import Work
from app.wording.dates import day_text, moment_text
from app.wording.languages import Language
from app.wording.requests import KINDS, SHORT_KINDS, STATES, STEPS
from assessments.requests.life import Taken, answer_due, appeal_until, is_ended, state_of, waits_for_school
from curriculum.faults import N_

ERASED = N_("(The words were erased.)")
DAYS = N_("From {first} to {last}.")
MOST_EARLIER = 12


@dataclass(frozen=True, slots=True)
class RequestLine:
    """One request in a list; `state` is (words, kind); `due` is the day of the answer, "" where none is owed."""

    id: str
    enrolment_id: str
    name: str
    kind: str
    asked: str
    state: tuple[str, str]
    due: str
    late: bool
    waits: bool


@dataclass(frozen=True, slots=True)
class RequestShown:
    """One request whole: `history` is (moment, who, what, words), oldest first; `earlier` others of its kind, answered."""

    line: RequestLine
    kind: str
    days: str
    words: str
    history: tuple[tuple[str, str, str, str], ...]
    known: int
    waits: bool
    ended: bool
    appeal_until: str
    earlier: tuple[tuple[RequestLine, str], ...]


def taken_of(steps: Sequence[RequestStep]) -> tuple[Taken, ...]:
    """Steps as the pure rules see them."""
    return tuple(Taken(one.step, one.made_by, one.made_at) for one in steps)


def waiting_requests(work: Work) -> int:
    """How many wait for the school."""
    steps = work.requests.steps()
    taken = (taken_of(steps.get(each.id, [])) for each in work.requests.all())
    return sum(map(waits_for_school, taken))


class RequestPages:
    """Requests of a school in words; names and steps are read once."""

    def __init__(self, work: Work, zone: str, today: date, language: Language) -> None:
        self.work, self.zone, self.today, self.language = work, zone, today, language
        self.names, self.steps = work.people.names(), work.requests.steps()
        self.people = {one.id: one.person_id for one in work.enrolments.all()}

    def lines(self, requests: Sequence[Request]) -> tuple[RequestLine, ...]:
        return tuple(map(self._line, requests))

    def shown(self, request: Request, with_earlier: bool) -> RequestShown:
        steps = self._taken(request)
        until = appeal_until(steps)
        may_appeal = until is not None and self.today <= until
        days = ""
        if request.first_day and request.last_day:
            first, last = (day_text(one, self.language.locale) for one in (request.first_day, request.last_day))
            days = self.language(DAYS, first=first, last=last)
        return RequestShown(
            self._line(request),
            self.language(KINDS[request.kind]),
            days,
            self._words(request.words_id),
            tuple(map(self._step, self.steps.get(request.id, []))),
            len(steps),
            waits_for_school(steps),
            is_ended(steps),
            day_text(until, self.language.locale) if may_appeal else "",
            self._earlier(request) if with_earlier else (),
        )

    def _earlier(self, request: Request) -> tuple[tuple[RequestLine, str], ...]:
        """The school treats alike what is alike: how it answered before, with its reason."""
        alike = (one for one in self.work.requests.all() if one.kind == request.kind and one.id != request.id)
        answered = [(one, self._answer(one)) for one in alike]
        return tuple((self._line(one), words) for one, words in answered if words)[:MOST_EARLIER]

    def _answer(self, request: Request) -> str:
        given = [one for one in self.steps.get(request.id, []) if one.step in ("granted", "in-part", "refused")]
        return self._words(given[-1].words_id) if given else ""

    def _line(self, request: Request) -> RequestLine:
        steps = self._taken(request)
        words, kind = STATES[state_of(steps)]
        due = answer_due(request.asked_at, steps)
        return RequestLine(
            request.id,
            request.enrolment_id,
            self.names[self.people[request.enrolment_id]],
            self.language(SHORT_KINDS[request.kind]),
            day_text(request.asked_at.date(), self.language.locale),
            (self.language(words), kind),
            day_text(due, self.language.locale) if due else "",
            bool(due and due < self.today),
            waits_for_school(steps),
        )

    def _step(self, one: RequestStep) -> tuple[str, str, str, str]:
        at = moment_text(one.made_at, self.zone, self.language.locale)
        return at, self.names[one.made_by], self.language(STEPS[one.step]), self._words(one.words_id)

    def _words(self, words_id: str) -> str:
        found = self.work.record.words(words_id)
        return self.language(ERASED) if found is None else found

    def _taken(self, request: Request) -> tuple[Taken, ...]:
        return taken_of(self.steps.get(request.id, []))
