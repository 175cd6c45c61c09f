"""What host teachers told the school, for its directors: worries in private, and sessions they say were not theirs."""

from collections.abc import Iterable
from dataclasses import dataclass

from app.storage.hosts import HostDecision
from app.storage.record import Event
from app.storage.work import Work
from app.storage.worries import Worry
from app.wording.dates import day_text, moment_text
from app.wording.languages import Language
from app.wording.sessions import DECISIONS, STATES
from curriculum.faults import N_

CLOSED = "worry-closed"
MOST = 100
ERASED = N_("(The words were erased.)")


@dataclass(frozen=True, slots=True)
class ToldLine:
    """What a host told of one session. `answer` says what came of it, with who said so and when; "" while it is open."""

    id: str
    host: str
    host_href: str
    trainee: str
    session: str
    session_href: str
    told: str
    words: str
    state: str = ""
    state_kind: str = ""
    what: str = ""
    answer: str = ""


@dataclass(frozen=True, slots=True)
class ToldOverview:
    """Open worries, sessions that were denied, and worries that are closed; each newest first."""

    worries: tuple[ToldLine, ...]
    denied: tuple[ToldLine, ...]
    closed: tuple[ToldLine, ...]


def closed_worries(work: Work, ids: Iterable[str]) -> dict[str, Event]:
    """The event that closed each of these worries that is closed."""
    wanted = list(ids)
    found = work.record.newest_of(wanted, 2 * len(wanted)) if wanted else ()
    return {one.subject: one for one in found if one.kind == CLOSED}


def told_overview(work: Work, zone: str, language: Language) -> ToldOverview:
    """Everything hosts told, at most the newest hundred of each kind."""
    lines = _Lines(work, zone, language)
    worries = work.worries.newest(MOST)
    closed = closed_worries(work, [one.id for one in worries])
    denied = work.hosts.newest_decisions(("denied", "disowned"), MOST)
    return ToldOverview(
        tuple(lines.of_worry(one, None) for one in worries if one.id not in closed),
        tuple(lines.of_denied(one) for one in denied),
        tuple(lines.of_worry(one, closed[one.id]) for one in worries if one.id in closed),
    )


class _Lines:
    """Lines in words; names are read once."""

    def __init__(self, work: Work, zone: str, language: Language) -> None:
        self.work, self.zone, self.language = work, zone, language
        self.people = work.people.names()
        self.hosts = {host.id: host.name for host in work.hosts.all()}

    def of_worry(self, worry: Worry, closed: Event | None) -> ToldLine:
        words = self.work.record.words(worry.words_id) or self.language(ERASED)
        return self._line(worry.id, worry.host_id, worry.session_id, worry.told_at, words, answer=self._answer(closed))

    def of_denied(self, one: HostDecision) -> ToldLine:
        words = (self.work.record.words(one.reason_id) or "") if one.reason_id else ""
        state, kind = STATES[self.work.ledger.now(one.session_id).state]
        shown = {"state": self.language(state), "state_kind": kind, "what": self.language(DECISIONS[one.decision])}
        return self._line(one.receipt, one.host_id, one.session_id, one.decided_at, words, **shown)

    def _line(self, id: str, host_id: str, session_id: str, at, words: str, **more: str) -> ToldLine:  # noqa: ANN001, PLR0913
        enrolment_id, session = self.work.ledger.enrolment_of(session_id), self.work.ledger.now(session_id)
        enrolment = self.work.enrolments.by_id(enrolment_id)
        return ToldLine(
            id,
            self.hosts[host_id],
            f"/hosts/{host_id}",
            self.people.get(enrolment.person_id, ""),
            day_text(session.day, self.language.locale),
            f"/trainees/{enrolment_id}",
            moment_text(at, self.zone, self.language.locale),
            words,
            **more,
        )

    def _answer(self, closed: Event | None) -> str:
        if closed is None:
            return ""
        words = self.work.record.words(closed.content()["answer_id"]) or self.language(ERASED)
        at = moment_text(closed.at, self.zone, self.language.locale)
        return self.language(N_("{words} ({name}, {at})"), words=words, name=self.people.get(closed.actor, ""), at=at)
