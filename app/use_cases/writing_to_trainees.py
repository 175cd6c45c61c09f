"""A director writes to several trainees at once: a mail each, kept on record as sent."""

import hashlib
import uuid
from collections.abc import Sequence

from app.queries.enrolled import enrolled_now
from app.storage.mail import OutgoingMail
from app.storage.work import Store
from app.use_cases.asker import Asker
from app.use_cases.words import words_faults
from curriculum.faults import N_, Fault, RefusedError

LONGEST_SUBJECT, LONGEST_WORDS, LONGEST_ID = 150, 8000, 36


def write_to_trainees(store: Store, asker: Asker, id: str, to: Sequence[str], subject: str, words: str) -> int:
    """Put a mail to each on its way; `to` are enrolments. `id` was made by the form: sent twice, each gets one.

    How many mails there are; raises `RefusedError` with every reason.
    """
    with store.writing(asker.school.id) as work:
        known = {one.id: one.person_id for one in enrolled_now(work)}
        people = list(dict.fromkeys(known[one] for one in to if one in known))
        faults = [
            *words_faults(subject, "subject", LONGEST_SUBJECT, N_("say what it is about")),
            *words_faults(words, "words", LONGEST_WORDS, N_("write what you want to say")),
        ]
        if not people:
            faults.append(Fault("nobody", N_("tick at least one trainee"), field="to"))
        if not 0 < len(id) <= LONGEST_ID:
            faults.append(Fault("no-id", N_("this form is damaged; open the page again")))
        if faults:
            raise RefusedError(faults)
        subject = " ".join(subject.split())
        fresh = 0
        for person_id in people:
            mail_id = uuid.uuid5(uuid.NAMESPACE_OID, f"{id}/{person_id}").hex
            if work.mail.by_id(mail_id) is None:
                person = work.people.by_id(person_id)
                signed = f"{words.strip()}\n\n{asker.name}\n{asker.school.name}"
                work.mail.add(OutgoingMail(mail_id, person.email, person.name, subject, signed, asker.now))
                fresh += 1
        if fresh:
            body = {"to": people, "words": hashlib.sha256(words.encode()).hexdigest()}
            work.record.append("trainees-written-to", id, asker.person_id, asker.now, body)
        work.commit()
    return len(people)
