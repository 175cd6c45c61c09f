"""The decision on a certificate, its issue, and what is done with it afterwards."""

import hashlib
import json
import secrets
from dataclasses import dataclass, replace
from datetime import datetime

from app.files.contexts import known_contexts
from app.files.signing_keys import new_key, opened_key, passphrase_of
from app.queries.certificates import (
    HOLDERS,
    Candidate,
    candidate_of,
    end_of,
    life_of,
    lives_of,
    open_decisions,
    results_of,
    taken_of,
    what_it_says,
)
from app.settings import Settings
from app.storage.certificates import CertificateDecision, CertificateStep, KeptCertificate, SigningKey
from app.storage.enrolments import Enrolment
from app.storage.mail import OutgoingMail
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.use_cases.words import words_faults
from app.wording.certificates import mail_text
from app.wording.dates import day_text
from assessments.certificates.credential import Addresses, Certificate, credential
from assessments.certificates.life import Taken, appeal_until, step_faults, valid_until
from assessments.certificates.number import CODE_LENGTH, code_of, number_of, written
from assessments.certificates.proof import signed
from assessments.certificates.status_list import SIZE
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError

LONGEST = 2000
# Steps that need no reason from anybody.
WITHOUT_REASON = ("given-up", *HOLDERS)


@dataclass(frozen=True, slots=True)
class Signing:
    """What an installation signs with: the address it is reached at, and what unlocks its keys."""

    address: str
    passphrase: str

    def addresses(self, slug: str) -> Addresses:
        return Addresses(self.address, slug)


def signing_of(settings: Settings) -> Signing:
    """What this installation signs with."""
    return Signing(settings.public_address, passphrase_of(settings))


def decide(store: Store, asker: Asker, signing: Signing, enrolment_id: str, decision: str, words: str) -> str | None:
    """Keep a decision; the id of the certificate if it was the last one needed, else None.

    Raises `RefusedError` where something is still lacking or nobody but the same person decided.
    """
    with store.writing(asker.school.id) as work:
        enrolment = work.enrolments.by_id(enrolment_id)
        if enrolment is None:
            raise NotFoundError
        candidate = candidate_of(work, enrolment, asker.today)
        earlier = open_decisions(work, enrolment_id)
        faults = [
            *words_faults(words, "words", LONGEST, N_("say why")),
            *_decision_faults(work, asker, candidate, decision, earlier),
        ]
        if faults:
            raise RefusedError(faults)
        kept = CertificateDecision(secrets.token_hex(16), enrolment_id, decision, words, asker.person_id, asker.now)
        work.certificates.add_decision(kept)
        work.record.append(
            "certificate-decided", enrolment_id, asker.person_id, asker.now,
            {"decision": decision, "reason": words},
        )  # fmt: skip
        made = None
        if decision == "certify" and len(earlier) + 1 >= candidate.terms.deciders:
            made = _issue(work, asker, signing, candidate)
        work.commit()
    return made


@dataclass(frozen=True, slots=True)
class TakeStep:
    """What is to be done with a certificate; `day` is the end of validity of an extension.

    `known` is how many steps there were when the form was opened, None where it does not matter.
    """

    certificate_id: str
    step: str
    words: str = ""
    day: datetime | None = None
    known: int | None = None


def take_step(store: Store, asker: Asker, signing: Signing, asked: TakeStep) -> None:
    """Extend, suspend, give notice, revoke and so on.

    Raises `RefusedError` for what can't be done now, `ConflictError` where something was done meanwhile.
    """
    step, words, day = asked.step, asked.words, asked.day
    with store.writing(asker.school.id) as work:
        kept = work.certificates.by_id(asked.certificate_id)
        if kept is None:
            raise NotFoundError
        life = life_of(work, kept, asker.now)
        if asked.known is not None and asked.known != len(life.steps):
            raise ConflictError(N_("Something was done with this certificate meanwhile. Open the page again."))
        until = appeal_until(asker.now) if step == "notice" else day
        faults = [] if step in WITHOUT_REASON else words_faults(words, "words", LONGEST, N_("say why"))
        if step not in HOLDERS:
            faults += step_faults(taken_of(life.steps), Taken(step, asker.now, until), asker.now)
        if faults:
            raise RefusedError(faults)
        plain, detailed = "", ""
        if step == "extended":
            plain, detailed = _signed_again(work, asker, signing, kept, until)
        _add_step(work, asker, signing, kept, CertificateStep(
            kept.id, len(life.steps) + 1, step, words, until, plain, detailed, asker.person_id, asker.now,
        ))  # fmt: skip
        work.commit()


def change_key(store: Store, asker: Asker, signing: Signing) -> str:
    """Make a new key that signs from now on; what older keys signed stays good. Its id."""
    with store.writing(asker.school.id) as work:
        key = _add_key(work, asker, signing, len(work.certificates.keys()) + 1)
        work.commit()
    return key.id


def of_own(work: Work, person_id: str, certificate_id: str) -> KeptCertificate:
    """A certificate of this person; raises `NotFoundError` for anybody else's."""
    kept = work.certificates.by_id(certificate_id)
    if kept is None or work.enrolments.by_id(kept.enrolment_id).person_id != person_id:
        raise NotFoundError
    return kept


def _decision_faults(
    work: Work, asker: Asker, candidate: Candidate, decision: str, earlier: list[CertificateDecision]
) -> list[Fault]:
    if asker.person_id == candidate.enrolment.person_id:
        return [Fault("own", N_("nobody decides on their own certificate"))]
    if decision == "not-yet":
        return []
    if decision != "certify":
        return [Fault("no-decision", N_("choose one of the two"), field="decision")]
    if candidate.terms is None:
        sentence = N_("the readiness edition says nothing of a certificate; publish one that has a part `certificate`")
        return [Fault("no-terms", sentence)]
    if not candidate.report.ready:
        return [Fault("gaps", N_("something is still lacking; see readiness"), field="decision")]
    kept = lives_of(work, work.certificates.of_enrolment(candidate.enrolment.id), asker.now)
    if any(one.state in ("valid", "suspended") for one in kept):
        return [Fault("has-one", N_("there is a certificate already"))]
    if any(one.made_by == asker.person_id for one in earlier):
        return [Fault("another", N_("you have decided; somebody else confirms it"), field="decision")]
    return []


def _issue(work: Work, asker: Asker, signing: Signing, candidate: Candidate) -> str:
    every = work.certificates.all()
    year = f"{asker.today.year}-"
    number = number_of(asker.today.year, 1 + sum(one.number.startswith(year) for one in every))
    places = {one.place for one in every}
    place = next(one for one in iter(lambda: secrets.randbelow(SIZE), None) if one not in places)
    kept = KeptCertificate(
        number, candidate.enrolment.id, candidate.enrolment.readiness_id,
        code_of(secrets.token_bytes(CODE_LENGTH)), place,
    )  # fmt: skip
    work.certificates.add(kept)
    until = end_of(candidate.terms, asker.today)
    plain, detailed = _signed(work, asker, signing, candidate, kept, asker.now, until)
    step = CertificateStep(kept.id, 1, "issued", "", until, plain, detailed, asker.person_id, asker.now)
    _add_step(work, asker, signing, kept, step)
    return kept.id


def _signed(  # noqa: PLR0913 - everything that is signed
    work: Work, asker: Asker, signing: Signing, candidate: Candidate, kept: KeptCertificate,
    begins: datetime, until: datetime | None,
) -> tuple[str, str]:  # fmt: skip
    holder = work.people.by_id(candidate.enrolment.person_id).name
    says = what_it_says(candidate, holder, asker.school, kept, begins, until)
    results = results_of(candidate, asker.language)
    return tuple(_as_signed(work, asker, signing, one) for one in (says, replace(says, reached=results)))


def _signed_again(
    work: Work, asker: Asker, signing: Signing, kept: KeptCertificate, until: datetime
) -> tuple[str, str]:
    """What was signed, with another end."""
    steps = work.certificates.steps(kept.id)
    signed_last = next(one for one in reversed(steps) if one.plain)
    made = []
    for text in (signed_last.plain, signed_last.detailed):
        document = {name: value for name, value in json.loads(text).items() if name != "proof"}
        made.append(_sign(work, asker, signing, document | {"validUntil": until.strftime("%Y-%m-%dT%H:%M:%SZ")}))
    return tuple(made)


def _as_signed(work: Work, asker: Asker, signing: Signing, one: Certificate) -> str:
    return _sign(work, asker, signing, credential(one, signing.addresses(asker.school.slug)))


def _sign(work: Work, asker: Asker, signing: Signing, document: dict) -> str:
    keys = work.certificates.keys()
    key = keys[-1] if keys else _add_key(work, asker, signing, 1)
    method = signing.addresses(asker.school.slug).key(key.id)
    made = signed(document, opened_key(key.private_key, signing.passphrase), method, asker.now, known_contexts())
    return json.dumps(made, ensure_ascii=False, separators=(",", ":"))


def _add_key(work: Work, asker: Asker, signing: Signing, number: int) -> SigningKey:
    public, private = new_key(signing.passphrase)
    key = SigningKey(f"key-{number}", public, private, asker.person_id, asker.now)
    work.certificates.add_key(key)
    work.record.append("signing-key-made", key.id, asker.person_id, asker.now, {"public": public})
    return key


def _add_step(work: Work, asker: Asker, signing: Signing, kept: KeptCertificate, step: CertificateStep) -> None:
    work.certificates.add_step(step)
    body = {"number": kept.number, "step": step.step, "reason": step.words}
    body |= {"until": step.until.isoformat() if step.until else "", "signed": _hash(step.plain) if step.plain else ""}
    work.record.append("certificate-step", kept.enrolment_id, asker.person_id, asker.now, body)
    if step.step not in HOLDERS:
        _tell(work, asker, signing, kept, step)


def _tell(work: Work, asker: Asker, signing: Signing, kept: KeptCertificate, step: CertificateStep) -> None:
    enrolment: Enrolment = work.enrolments.by_id(kept.enrolment_id)
    person = work.people.by_id(enrolment.person_id)
    terms = work.certificates.steps(kept.id)
    until = step.until or valid_until(taken_of(terms))
    values = {
        "number": kept.number,
        "title": json.loads(next(one for one in terms if one.plain).plain)["name"],
        "address": signing.addresses(asker.school.slug).check(written(kept.number, kept.code)),
        "day": day_text(until.date(), asker.language.locale) if until else "",
        "words": step.words,
    }
    subject, words = mail_text(step.step, values, asker.language)
    work.mail.add(OutgoingMail(secrets.token_hex(16), person.email, person.name, subject, words, asker.now))


def _hash(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()
