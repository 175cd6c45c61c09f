"""Further attempts: which exam they follow, and what of it is taken again."""

import json
from collections.abc import Mapping
from dataclasses import dataclass, replace

from app.queries.exam_facts import edition_of_exam, practical_of
from app.storage.exams import Exam, ExamDecision
from app.storage.work import Work
from app.wording.dates import day_text
from app.wording.hours import hours
from app.wording.languages import Language
from assessments.practicals.deciding import Outcome
from assessments.practicals.setting import USES_ATTEMPT
from curriculum.faults import N_

PARTS_AGAIN = N_("A further attempt after {day}, at {parts} alone; what stood of it counts on.")
TASKS = N_("Tasks to be taken again: {tasks}")
FROM = N_("Taken again on {day} or later.")
EXTRA = N_("Extra hours first: {hours} on {what}.")
ALL_AGAIN = N_("A further attempt after {day}, at every part.")


@dataclass(frozen=True, slots=True)
class LastAttempt:
    """The attempt that a new one follows, and the decision that stands of it."""

    exam: Exam
    decision: ExamDecision

    def followed_by(self, work: Work, wanted: Exam) -> Exam:
        """The wanted exam as one that follows this: parts alone by the edition of the first, where the rules say so."""
        practical = edition_of_exam(work, self.exam)
        parts = json.loads(self.decision.refer_parts) if practical.resits.parts_alone else []
        if not parts:
            return replace(wanted, resit_of=self.exam.id)
        drawn = {part.id for part in practical.parts if part.exercises and part.exercises.drawn}
        tasks = {
            part: given for part, given in json.loads(self.exam.tasks).items() if part in parts and part not in drawn
        }
        again = json.loads(self.decision.refer_tasks)
        tasks |= {part: [task for its, task in again if its == part] for part, _ in again}
        return replace(
            wanted, practical_id=self.exam.practical_id, resit_of=self.exam.id,
            parts=json.dumps(parts), tasks=json.dumps(tasks, sort_keys=True),
        )  # fmt: skip


def last_attempt(work: Work, person_id: str, practical: str) -> LastAttempt | None:
    """The newest exam of a person's that used an attempt at a practical of this name."""
    decisions, found = work.exams.all_decisions(), None
    for enrolment in work.enrolments.of_person(person_id):
        for exam in work.exams.of_enrolment(enrolment.id):
            decision = decisions.get(exam.id)
            if decision is None or Outcome(decision.outcome) not in USES_ATTEMPT:
                continue
            newer = found is None or (exam.day, exam.starts_minute) > (found.exam.day, found.exam.starts_minute)
            if newer and practical_of(work, exam).id == practical:
                found = LastAttempt(exam, decision)
    return found


def what_follows(one: ExamDecision, names: Mapping[str, str], language: Language) -> tuple[str, ...]:
    """What a decision asks for before and at a further attempt; `names` are those of exercises."""
    tasks = language.listed([names.get(task, task) for _, task in json.loads(one.refer_tasks)])
    day = day_text(one.again_from, language.locale) if one.again_from else ""
    said = (
        language(TASKS, tasks=tasks) if tasks else "",
        language(FROM, day=day) if day else "",
        language(EXTRA, hours=hours(one.extra_minutes, language), what=one.extra_on) if one.extra_minutes else "",
    )
    return tuple(words for words in said if words)


def again_text(work: Work, exam: Exam, language: Language) -> str:
    """That an exam is a further attempt, and at what; "" for a first one."""
    if not exam.resit_of:
        return ""
    day = day_text(work.exams.by_id(exam.resit_of).day, language.locale)
    if exam.parts == "[]":
        return language(ALL_AGAIN, day=day)
    return language(
        PARTS_AGAIN, day=day, parts=language.listed([part.title for part in practical_of(work, exam).parts])
    )
