"""The director's list of exams by what is to be done, and the practicals that can be set."""

import json
from dataclasses import dataclass
from datetime import date

from app.queries.exam_facts import first_examiners, practical_in, practical_of, result_of
from app.queries.set_aside import set_aside
from app.storage.exams import Exam, ExamDecision
from app.storage.work import Work
from app.wording.dates import clock_text, day_text
from app.wording.exams import exam_state
from app.wording.languages import Language
from assessments.practicals.result import Recommendation
from assessments.practicals.specification import Practical
from curriculum.faults import N_

OPEN = (Recommendation.WAITING, Recommendation.TALK, Recommendation.SECOND_MARKING)


@dataclass(frozen=True, slots=True)
class ExamLine:
    """One exam of the list; texts are for people. `group` is `open`, `coming` or `decided`."""

    id: str
    group: str
    day: date
    when: str
    candidate: str
    practical: str
    room: str
    examiners: str
    state: str
    state_kind: str


def exam_list(work: Work, today: date, language: Language) -> tuple[ExamLine, ...]:
    """Every exam: what waits for the director first, then what is coming, then what is decided, newest first."""
    names, seats = work.people.names(), work.exams.all_seats()
    decisions, senders = work.exams.all_decisions(), work.exams.senders()
    people = {one.id: one.person_id for one in work.enrolments.all()}
    lines = []
    for exam in work.exams.all():
        panel = [names[one] for one in seats.get(exam.id, [])]
        standing = standing_of_exam(work, exam, decisions.get(exam.id), senders.get(exam.id, set()), today)
        lines.append(exam_line(work, exam, names[people[exam.enrolment_id]], panel, standing, language))
    ahead = [line for line in lines if line.group != "decided"]
    behind = [line for line in reversed(lines) if line.group == "decided"]
    return tuple(sorted(ahead, key=lambda line: line.group != "open") + behind)


def practicals_on_offer(work: Work) -> list[tuple[str, str]]:
    """The newest edition of each practical: its id, and its title with the edition's number."""
    found = [(id, f"{one.title}, {one.edition}") for id, one in _on_offer(work)]
    return sorted(found, key=lambda choice: choice[1])


def most_examiners(work: Work) -> int:
    """How many examiners any of the practicals on offer asks for, at most."""
    return max((one.examiners for _, one in _on_offer(work)), default=2)


def _on_offer(work: Work) -> list[tuple[str, Practical]]:
    newest = {one.name: one for one in sorted(work.editions.of_kind("practical"), key=lambda one: one.published_at)}
    return [(one.id, practical_in(json.dumps(one.documents, sort_keys=True))) for one in newest.values()]


def standing_of_exam(
    work: Work, exam: Exam, decision: ExamDecision | None, senders: set[str], today: date
) -> tuple[str, str, dict[str, object]]:
    """How an exam stands: a code of `wording.exams`, its group, and what the sentence names."""
    if decision:
        return "decided", "decided", {"outcome": decision.outcome}
    if set_aside(work, exam.id):
        return "set-aside", "open", {}
    first = first_examiners(work, exam.id)
    if len(first) < practical_of(work, exam).examiners:
        return "seat-open", "open", {}
    if first <= senders:
        recommended = result_of(work, exam).recommendation
        return (recommended if recommended in OPEN else "to-decide"), "open", {}
    if exam.day > today:
        return "coming", "coming", {}
    values = {"sent": len(first & senders), "wanted": len(first)}
    return ("today" if exam.day == today and not senders else "waiting"), "open", values


def exam_line(  # noqa: PLR0913 - what one line shows
    work: Work, exam: Exam, candidate: str, panel: list[str], standing: tuple, language: Language
) -> ExamLine:
    code, group, values = standing
    words, kind = exam_state(code, values, language)
    day, time = day_text(exam.day, language.locale), clock_text(exam.starts_minute, language.locale)
    when = language(N_("{day}, {time}"), day=day, time=time)
    title = practical_of(work, exam).title
    return ExamLine(exam.id, group, exam.day, when, candidate, title, exam.room, language.listed(panel), words, kind)
