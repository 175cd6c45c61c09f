"""The outbox: every mail the school wrote, once, with how far it has come, and what somebody must look after first."""

from dataclasses import dataclass

from app.mail.html import Line, paragraphs
from app.mail.links import veiled
from app.storage.mail import GIVEN_UP, REFUSED, SENT, OutgoingMail
from app.storage.work import Work
from app.wording.dates import moment_text
from app.wording.languages import Language
from app.wording.outbox import GIVEN_UP_ADVICE, REFUSED_ADVICE, STATES

MOST_MAIL, MOST_TROUBLE = 100, 20


@dataclass(frozen=True, slots=True)
class MailLine:
    """One mail as people read it. `advice` says what to do where it did not arrive; `host_id` whose address that is."""

    id: str
    subject: str
    to: str
    made: str
    state: str
    kind: str
    words: str
    paragraphs: tuple[tuple[Line, ...], ...]
    trouble: str = ""
    again: str = ""
    advice: str = ""
    host_id: str = ""


@dataclass(frozen=True, slots=True)
class OutboxOverview:
    """`held` is what the mail server said when mail last had to wait; "" when none waits for it."""

    undelivered: tuple[MailLine, ...]
    newest: tuple[MailLine, ...]
    held: str


def outbox_overview(work: Work, sends: bool, zone: str, language: Language) -> OutboxOverview:
    """Where mail is sent, links are the addressees' alone and are veiled; where it is only shown, they can be followed."""
    newest, undelivered = work.mail.newest(MOST_MAIL), work.mail.undelivered(MOST_TROUBLE) if sends else []
    hosts = {host.email.casefold(): host.id for host in work.hosts.all()} if undelivered else {}
    seen = {mail.id for mail in undelivered}

    def line(mail: OutgoingMail) -> MailLine:
        return _line(mail, sends, hosts.get(mail.to_address.casefold(), ""), zone, language)

    held = [mail.trouble for mail in newest if sends and mail.next_at and mail.trouble]
    others = tuple(line(mail) for mail in newest if mail.id not in seen)
    return OutboxOverview(tuple(map(line, undelivered)), others, held[0] if held else "")


def _line(mail: OutgoingMail, sends: bool, host_id: str, zone: str, language: Language) -> MailLine:
    words = veiled(mail.words) if sends else mail.words
    name = _state(mail, sends)
    state, kind = STATES[name]
    advice = {REFUSED: REFUSED_ADVICE, GIVEN_UP: GIVEN_UP_ADVICE}.get(mail.state, "") if sends else ""
    sent = moment_text(mail.sent_at, zone, language.locale) if mail.sent_at else ""
    return MailLine(
        mail.id,
        mail.subject,
        f"{mail.to_name} <{mail.to_address}>",
        moment_text(mail.made_at, zone, language.locale),
        language(state, at=sent) if name == SENT else language(state),
        kind,
        words,
        paragraphs(words),
        language(mail.trouble) if sends else "",
        moment_text(mail.next_at, zone, language.locale) if sends and mail.next_at else "",
        language(advice, name=mail.to_name) if advice else "",
        host_id,
    )


def _state(mail: OutgoingMail, sends: bool) -> str:
    if not sends:
        return "shown"
    return "held" if mail.next_at and mail.trouble else mail.state
