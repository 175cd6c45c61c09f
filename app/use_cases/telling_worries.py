"""A host teacher tells the school something in private; a director looks into it and says what came of it."""

import secrets
from dataclasses import dataclass

from app.queries.worries import CLOSED, closed_worries
from app.storage.hosts import Host
from app.storage.work import Store, Work
from app.storage.worries import Worry
from app.use_cases.asker import Asker
from app.use_cases.keeping_proof import mail_directors
from app.wording.mails import host_told
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError

MOST_LETTERS = 4000
LONGEST_ID = 36


@dataclass(frozen=True, slots=True)
class TellWorry:
    """What a host tells of one session; `id` was made by the form, so that sending it twice tells it once."""

    id: str
    session_id: str
    words: str


def tell_worry(store: Store, asker: Asker, host: Host, request: TellWorry, address: str) -> None:
    """Keep it for the directors, and tell them by mail that there is something to read, not what."""
    faults = _faults(request.words, "worry", N_("write what worries you"))
    if not 0 < len(request.id) <= LONGEST_ID:
        faults.append(Fault("no-id", N_("this form is damaged; open the page again")))
    if faults:
        raise RefusedError(faults)
    with store.writing(asker.school.id) as work:
        session = work.ledger.now(request.session_id)
        if session is None or session.host != host.id:
            raise NotFoundError
        if work.worries.by_id(request.id) is not None:
            return
        words_id = secrets.token_hex(16)
        words_hash = work.record.keep_words(words_id, host.id, request.words.strip(), secrets.token_bytes(16))
        work.worries.add(Worry(request.id, host.id, session.id, words_id, asker.now))
        body = {"worry": request.id, "host": host.id, "words": words_hash}
        work.record.append("worry-told", request.id, f"host:{host.id}", asker.now, body)
        tell_directors(work, asker, address)
        work.commit()


def close_worry(store: Store, asker: Asker, worry_id: str, answer: str) -> None:
    """Note what came of it; closed once, and both stay on record."""
    faults = _faults(answer, f"answer-{worry_id}", N_("say what came of it"))
    if faults:
        raise RefusedError(faults)
    with store.writing(asker.school.id) as work:
        if work.worries.by_id(worry_id) is None:
            raise NotFoundError
        if worry_id in closed_worries(work, [worry_id]):
            raise ConflictError(N_("Somebody has closed this already. Open the page again to see what came of it."))
        words_id = secrets.token_hex(16)
        words_hash = work.record.keep_words(words_id, asker.person_id, answer.strip(), secrets.token_bytes(16))
        body = {"worry": worry_id, "answer": words_hash, "answer_id": words_id}
        work.record.append(CLOSED, worry_id, asker.person_id, asker.now, body)
        work.commit()


def tell_directors(work: Work, asker: Asker, address: str) -> None:
    """A mail to every director that a host told something; what it is stands in no mail."""
    mail_directors(work, asker, *host_told(asker.school.name, f"{address}/worries", asker.language))


def too_long(words: str, field: str) -> list[Fault]:
    """A fault where somebody wrote more than is kept."""
    if len(words) <= MOST_LETTERS:
        return []
    return [Fault("too-long", N_("keep this under {most} letters"), {"most": MOST_LETTERS}, field)]


def _faults(words: str, field: str, missing: str) -> list[Fault]:
    return too_long(words, field) if words.strip() else [Fault("no-words", missing, field=field)]
