"""Appeals and complaints about exams: how each stands, who may decide it, and what the candidate sees."""

import json
from dataclasses import dataclass
from datetime import date

from app.clock import day_in
from app.queries.exam_facts import edition_of_exam, ties_of
from app.storage.appeals import Appeal, AppealStep
from app.storage.exams import Exam, ExamDecision
from app.storage.work import Work
from app.wording import appeals as words
from app.wording.dates import day_text
from app.wording.languages import Language
from app.wording.practicals import OUTCOMES
from assessments.practicals.appeal import answer_by, assigned_to, assigning_faults, file_until, is_open
from assessments.practicals.deciding import Outcome, tie_faults
from curriculum.faults import N_

ERASED = N_("(The words were erased.)")


@dataclass(frozen=True, slots=True)
class AppealShown:
    """One of them; texts are for people. `decider_id` is "" until somebody is assigned, `known` counts its steps."""

    id: str
    exam_id: str
    kind: str
    kind_words: str
    candidate: str
    practical: str
    filed: str
    due: str
    grounds: tuple[str, ...]
    words: str
    state: str
    state_words: str
    state_kind: str
    decider_id: str
    decider: str
    ended: str
    ended_words: str
    known: int

    @property
    def open(self) -> bool:
        return self.state in ("filed", "assigned", "late")


def appeals_of_exam(work: Work, exam_id: str, today: date, zone: str, language: Language) -> tuple[AppealShown, ...]:
    shown = _Shown(work, today, zone, language)
    return tuple(shown.one(kept) for kept in work.appeals.of_exam(exam_id))


def appeals_for(
    work: Work, viewer_id: str, directs: bool, today: date, zone: str, language: Language
) -> tuple[AppealShown, ...]:
    """All of them for a director, for anybody else those assigned to them; open ones first, each newest first."""
    shown = _Shown(work, today, zone, language)
    found = [shown.one(kept) for kept in work.appeals.all()]
    return tuple(sorted((one for one in found if directs or one.decider_id == viewer_id), key=lambda one: not one.open))


def steps_of(work: Work, appeal_id: str) -> list[AppealStep]:
    return work.appeals.steps().get(appeal_id, [])


def open_appeals(work: Work, exam_id: str) -> list[Appeal]:
    """Those of an exam that have not ended; until they have, what belongs to the exam is kept."""
    kept = work.appeals.of_exam(exam_id)
    steps = work.appeals.steps() if kept else {}
    return [one for one in kept if is_open([step.made for step in steps.get(one.id, [])])]


def deciding_now(work: Work, exam_id: str) -> frozenset[str]:
    """Who decides what is open about an exam."""
    steps = work.appeals.steps()
    open_ones = (one.id for one in open_appeals(work, exam_id))
    return frozenset(assigned_to([step.made for step in steps.get(id, [])]) for id in open_ones) - {""}


def decision_in_force(work: Work, exam: Exam) -> ExamDecision | None:
    return next(iter(reversed(work.exams.decisions(exam.id))), None)


def counted_from(work: Work, exam: Exam, zone: str) -> date:
    """From which day the time to file is counted: that of the decision, before one that of the exam."""
    decision = decision_in_force(work, exam)
    return day_in(decision.decided_at, zone) if decision else exam.day


def can_be_filed(work: Work, exam: Exam, today: date, zone: str) -> bool:
    since = counted_from(work, exam, zone)
    return since <= today <= file_until(edition_of_exam(work, exam).appeals, since)


def rules_text(work: Work, exam: Exam, zone: str, language: Language) -> str:
    rules = edition_of_exam(work, exam).appeals
    until = day_text(file_until(rules, counted_from(work, exam, zone)), language.locale)
    may = language.listed([language(words.MAY[one]) for one in rules.may])
    return language(words.RULES, until=until, answer=language.figure(rules.answer_days), may=may)


def involved_in(work: Work, exam: Exam, today: date) -> frozenset[str]:
    """Everybody who examined or decided this exam, or is tied to its candidate."""
    candidate, months = work.enrolments.by_id(exam.enrolment_id).person_id, edition_of_exam(work, exam).months_apart
    ties = ties_of(work, candidate)
    tied = {one.person for one in ties if tie_faults(one.person, candidate, ties, today, months)}
    deciders = {one.decider_id for one in work.exams.decisions(exam.id)}
    return frozenset({*work.exams.seats(exam.id), *deciders, *tied})


def staff_of(work: Work) -> frozenset[str]:
    """Directors and examiners who have not left."""
    roles = ("director", "examiner")
    return frozenset(one.id for role in roles for one in work.people.with_role(role) if one.left_at is None)


def may_decide(work: Work, exam: Exam, today: date) -> list[tuple[str, str]]:
    """Who can be assigned: (id, name), by name."""
    candidate, names = work.enrolments.by_id(exam.enrolment_id).person_id, work.people.names()
    staff, involved = staff_of(work), involved_in(work, exam, today)
    free = (one for one in staff if not assigning_faults(one, staff, involved, candidate))
    return sorted(((one, names[one]) for one in free), key=lambda pair: pair[1])


class _Shown:
    """Names and steps are read once."""

    def __init__(self, work: Work, today: date, zone: str, language: Language) -> None:
        self.work, self.today, self.zone, self.language = work, today, zone, language
        self.names, self.steps = work.people.names(), work.appeals.steps()

    def one(self, kept: Appeal) -> AppealShown:
        exam, steps = self.work.exams.by_id(kept.exam_id), self.steps.get(kept.id, [])
        practical, last = edition_of_exam(self.work, exam), steps[-1] if steps else None
        made = [step.made for step in steps]
        due = answer_by(practical.appeals, day_in(kept.filed_at, self.zone))
        state = self._state(made, last, due)
        sentence, kind = words.STATES[state]
        decider, ended = assigned_to(made), last and last.step == "decided"
        return AppealShown(
            kept.id, kept.exam_id, kept.kind, self.language(words.SHORT_KINDS[kept.kind]), self.names[kept.filed_by],
            practical.title, self._day(day_in(kept.filed_at, self.zone)), self._day(due),
            tuple(self.language(words.GROUNDS[one]) for one in json.loads(kept.grounds)), self._words(kept.words_id),
            state, self.language(sentence, day=self._day(due)), kind, decider, self.names.get(decider, ""),
            outcome_text(kept, last, self.language) if ended else "", self._words(last.words_id) if ended else "",
            len(steps),
        )  # fmt: skip

    def _state(self, made: list, last: AppealStep | None, due: date) -> str:
        if not is_open(made):
            return last.step
        if self.today > due:
            return "late"
        return "assigned" if made else "filed"

    def _day(self, day: date) -> str:
        return day_text(day, self.language.locale)

    def _words(self, words_id: str) -> str:
        return self.work.record.words(words_id) or self.language(ERASED)


def outcome_text(kept: Appeal, step: AppealStep, language: Language) -> str:
    """What came of it; `step.outcome` of an appeal is (before, after) as "before>after"."""
    if kept.kind == "complaint":
        return language(words.VERDICTS[step.outcome])
    before, _, after = step.outcome.partition(">")
    sentence = words.STAYS if before == after else words.BECOMES
    return language(sentence, outcome=language(OUTCOMES[Outcome(after)]))
