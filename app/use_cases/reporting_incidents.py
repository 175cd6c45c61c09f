"""Somebody reports an incident or a near miss; directors say what came of it, and when a machine is in use again."""

import json
import secrets

from app.queries.incidents import is_open
from app.storage.incidents import Incident, IncidentStep
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.use_cases.keeping_proof import mail_directors
from app.wording.dates import day_text
from app.wording.incidents import DURING, REPORTED, SHORT_DEGREES
from assessments.incidents.report import MOST_LETTERS, Report, out_of_use, report_faults
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError

LONGEST_ID = 36


def report_incident(store: Store, asker: Asker, id: str, report: Report, exam_id: str, address: str) -> None:
    """Keep it, take its machines out of use, and tell the directors; every fault at once, and then nothing is kept."""
    faults = list(report_faults(report, asker.today))
    if not 0 < len(id) <= LONGEST_ID:
        faults.append(Fault("no-id", N_("this form is damaged; open the page again")))
    if faults:
        raise RefusedError(faults)
    with store.writing(asker.school.id) as work:
        if work.incidents.by_id(id) is not None:
            return
        if exam_id and work.exams.by_id(exam_id) is None:
            raise NotFoundError
        kept = {name: _keep(work, asker.person_id, getattr(report, name)) for name in ("words", "told", "changed")}
        ids = (kept[name][0] for name in ("words", "told", "changed"))
        machines = json.dumps(list(report.machines))
        work.incidents.add(
            Incident(id, report.degree, report.during, report.day, report.place.strip(), exam_id, *ids, machines,
                     asker.person_id, asker.now)
        )  # fmt: skip
        body = {
            "incident": id, "degree": report.degree, "during": report.during, "day": report.day.isoformat(),
            "exam": exam_id, "machines": list(report.machines), **{name: hashed for name, (_, hashed) in kept.items()},
        }  # fmt: skip
        work.record.append("incident-reported", id, asker.person_id, asker.now, body)
        values = {
            "degree": asker.language(SHORT_DEGREES[report.degree]), "during": asker.language(DURING[report.during]),
            "day": day_text(report.day, asker.language.locale), "address": f"{address}/incidents/{id}",
        }  # fmt: skip
        mail_directors(work, asker, *(asker.language(one, **values) for one in REPORTED))
        work.commit()


def close_incident(store: Store, asker: Asker, incident_id: str, words: str) -> None:
    """Say what came of it; machines stay out of use until they are let back one by one."""
    _step(store, asker, incident_id, "closed", "", words, N_("say what came of it"))


def let_back(store: Store, asker: Asker, incident_id: str, machine: str, words: str) -> None:
    """A machine is in use again, as far as this report kept it out; why it can be."""
    _step(store, asker, incident_id, "back", machine, words, N_("say what was done, and who checked it"))


def _step(store: Store, asker: Asker, incident_id: str, step: str, machine: str, words: str, missing: str) -> None:  # noqa: PLR0913
    field = "back-words" if step == "back" else "words"
    if not words.strip():
        raise RefusedError([Fault("no-words", missing, field=field)])
    if len(words) > MOST_LETTERS:
        raise RefusedError([Fault("too-long", N_("keep this under {most} letters"), {"most": MOST_LETTERS}, field)])
    with store.writing(asker.school.id) as work:
        if work.incidents.by_id(incident_id) is None:
            raise NotFoundError
        steps = work.incidents.steps().get(incident_id, [])
        if step == "closed" and not is_open(steps):
            raise ConflictError(N_("Somebody has closed this already. Open the page again to see what came of it."))
        if step == "back" and incident_id not in out_of_use(work.incidents.moves()).get(machine, ()):
            raise ConflictError(N_("This machine is not out of use by this report any more."))
        words_id, hashed = _keep(work, asker.person_id, words)
        made = IncidentStep(incident_id, len(steps) + 1, step, machine, words_id, asker.person_id, asker.now)
        work.incidents.add_step(made)
        body = {"incident": incident_id, "step": step, "machine": machine, "words": hashed}
        work.record.append("incident-step", incident_id, asker.person_id, asker.now, body)
        work.commit()


def _keep(work: Work, person_id: str, words: str) -> tuple[str, str]:
    if not words.strip():
        return "", ""
    words_id = secrets.token_hex(16)
    return words_id, work.record.keep_words(words_id, person_id, words.strip(), secrets.token_bytes(16))
