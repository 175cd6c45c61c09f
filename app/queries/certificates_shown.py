"""Certificates as pages show them: lines of a list, one with its history, decisions so far."""

import json
from collections.abc import Sequence
from dataclasses import dataclass

from app.queries.certificates import Life, taken_of
from app.storage.work import Work
from app.wording.certificates import DECISIONS, LASTS, LASTS_ALWAYS, STATES, STEPS
from app.wording.dates import day_text, moment_text
from app.wording.languages import Language
from assessments.certificates.life import is_suspended, standing_notice


@dataclass(frozen=True, slots=True)
class CertificateLine:
    """One certificate in a list; `state` is (words, kind)."""

    id: str
    number: str
    holder: str
    title: str
    issued: str
    lasts: str
    state: tuple[str, str]


@dataclass(frozen=True, slots=True)
class LifeShown:
    """One certificate: `line`, its history as (moment, who, what, words), and what may be done next."""

    line: CertificateLine
    written: str
    history: tuple[tuple[str, str, str, str], ...]
    next_steps: tuple[str, ...]
    appeal_until: str


def certificate_lines(work: Work, lives: Sequence[Life], language: Language) -> tuple[CertificateLine, ...]:
    """The newest first."""
    return tuple(_line(work, one, language) for one in reversed(lives))


def life_shown(work: Work, life: Life, zone: str, language: Language) -> LifeShown:
    names = work.people.names()
    notice = standing_notice(taken_of(life.steps))
    return LifeShown(
        _line(work, life, language),
        life.written,
        tuple(
            (moment_text(one.made_at, zone, language.locale), names[one.made_by], language(STEPS[one.step]), one.words)
            for one in reversed(life.steps)
        ),
        _next_steps(life),
        day_text(notice.until.date(), language.locale) if notice else "",
    )


def standing_decisions(work: Work, enrolment_id: str, zone: str, language: Language) -> tuple[tuple[str, ...], ...]:
    """(moment, who, what, why) of each decision, the newest first."""
    names = work.people.names()
    return tuple(
        (
            moment_text(one.made_at, zone, language.locale),
            names[one.made_by],
            language(DECISIONS[one.decision]),
            one.words,
        )
        for one in reversed(work.certificates.decisions(enrolment_id))
    )


def _next_steps(life: Life) -> tuple[str, ...]:
    """What the school may do now, in the order in which it is offered."""
    if life.state in ("revoked", "given-up"):
        return ()
    taken = taken_of(life.steps)
    noticed = ("notice-lifted", "revoked") if standing_notice(taken) else ("notice",)
    return (
        *(("extended",) if life.until else ()),
        "resumed" if is_suspended(taken) else "suspended",
        *noticed,
    )


def _line(work: Work, life: Life, language: Language) -> CertificateLine:
    made = json.loads(life.signed.plain)
    enrolment = work.enrolments.by_id(life.certificate.enrolment_id)
    words, kind = STATES[life.state]
    until = life.until
    return CertificateLine(
        life.certificate.id,
        life.certificate.number,
        work.people.by_id(enrolment.person_id).name,
        made["name"],
        day_text(life.steps[0].made_at.date(), language.locale),
        language(LASTS, day=day_text(until.date(), language.locale)) if until else language(LASTS_ALWAYS),
        (language(words), kind),
    )
