"""One exam as the director sees it, with all it rests on."""

import json
from dataclasses import dataclass
from datetime import date

from app.queries.exam_facts import (
    edition_of_exam,
    error_in_use,
    may_see_all,
    practical_of,
    result_of,
    sent_sheets,
    tasks_of,
    ties_of,
)
from app.queries.exam_list import OPEN, ExamLine, exam_line, standing_of_exam
from app.queries.retakes import again_text, what_follows
from app.queries.second_marking import changed_by_further, changed_text, why_sampled
from app.queries.set_aside import ShownAside, set_aside, shown_aside
from app.queries.sheet_facts import exercise_names
from app.storage.exams import Exam, ExamDecision, KeptWaiver
from app.storage.work import Work
from app.wording.dates import day_text, moment_text
from app.wording.exams import TIES, WAIVED
from app.wording.faults import fault_text
from app.wording.languages import Language
from app.wording.practicals import OUTCOMES, RECOMMENDATIONS, VOID_CAUSES, band_sentence, how_it_came_about, marks
from app.wording.second_marking import HOW
from app.wording.sheets import FROM_PAPER
from assessments.practicals.deciding import Outcome, Tie, tie_faults
from assessments.practicals.result import Recommendation, Result, band_squared
from assessments.practicals.set_aside import SetAside
from assessments.practicals.sheets import Sheet
from assessments.practicals.specification import Practical
from curriculum.faults import N_

GLOBAL = N_("Global grade")


@dataclass(frozen=True, slots=True)
class Seat:
    """One examiner of an exam, and whether their sheet is sent (`sent` says when)."""

    id: str
    name: str
    further: bool
    sent: str


@dataclass(frozen=True, slots=True)
class ScoreLine:
    """The line of an exam's total from 0 to 100 per cent; `sheets` are (examiner, total)."""

    total: float
    cut: float
    low: float
    high: float
    sheets: tuple[tuple[str, float], ...]
    total_text: str
    cut_text: str
    sheet_texts: tuple[tuple[str, str], ...]
    band_text: str


@dataclass(frozen=True, slots=True)
class ShownDecision:
    """One decision in words; `stands` for the last, `follows` says what a further attempt waits for."""

    outcome: str
    kind: str
    by: str
    at: str
    reason: str
    parts: str
    cause: str
    stands: bool
    follows: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ExamOverview:
    """One exam. What sheets hold is empty while `hidden` says why nobody but their makers sees it."""

    line: ExamLine
    enrolment_id: str
    candidate_id: str
    edition: str
    cut: str
    seats: tuple[Seat, ...]
    waivers: tuple[str, ...]
    ties: tuple[str, ...]
    hidden: bool
    recommendation: Recommendation
    recommended: str
    steps: tuple[tuple[str, str], ...]
    score: ScoreLine | None
    sheet_names: tuple[str, ...]
    levels: tuple[tuple[str, tuple[tuple[str, ...], ...]], ...]
    remarks: tuple[tuple[str, str], ...]
    decisions: tuple[ShownDecision, ...]
    parts: tuple[tuple[str, str], ...]
    refer_parts: tuple[str, ...]
    tied: tuple[str, ...]
    may_seat_further: bool
    sampled: str
    marked_how: str
    changed: str
    again: str
    tasks: tuple[tuple[str, tuple[tuple[str, str], ...]], ...]
    aside: ShownAside | None
    noted: SetAside | None

    @property
    def can_pass(self) -> bool:
        """Whether anything but void can be decided yet."""
        return not self.hidden and self.recommendation not in OPEN


@dataclass(frozen=True, slots=True)
class ExamHead:
    """Whose exam it is, of what and when; texts for people."""

    candidate: str
    practical: str
    when: str


def exam_head(work: Work, exam: Exam, language: Language) -> ExamHead:
    person = work.people.by_id(work.enrolments.by_id(exam.enrolment_id).person_id)
    return ExamHead(person.name, practical_of(work, exam).title, day_text(exam.day, language.locale))


def exam_overview(work: Work, exam: Exam, viewer_id: str, today: date, zone: str, language: Language) -> ExamOverview:
    """One exam for somebody who may set and decide exams; an examiner of it sees no other sheet before sending."""
    names = work.people.names()
    practical, found, sheets = practical_of(work, exam), result_of(work, exam), sent_sheets(work, exam.id)
    whole, candidate = edition_of_exam(work, exam), work.enrolments.by_id(exam.enrolment_id).person_id
    decisions = work.exams.decisions(exam.id)
    kept, changes = set_aside(work, exam.id), changed_by_further(work, exam)
    sampled = "" if decisions else why_sampled(work, exam, language)
    hidden = not may_see_all(work, exam.id, sheets, viewer_id)
    panel = [names[one] for one in work.exams.seats(exam.id)]
    senders = {one.examiner for one in sheets}
    standing = standing_of_exam(work, exam, decisions[-1] if decisions else None, senders, today)
    ties = ties_of(work, candidate)
    says = names | {one.code: one.sentence for one in practical.critical_faults}
    return ExamOverview(
        line=exam_line(work, exam, names[candidate], panel, standing, language),
        enrolment_id=exam.enrolment_id,
        candidate_id=candidate,
        edition=practical.edition,
        cut=practical.cut.how,
        seats=_seats(work, exam, names, zone, language),
        waivers=tuple(_waiver_text(one, names, zone, language) for one in work.exams.waivers(exam.id)),
        ties=tuple(_tie_text(tie, names, language) for tie in ties if not _of_this(tie, exam)),
        hidden=hidden,
        recommendation=found.recommendation,
        recommended=language(RECOMMENDATIONS[found.recommendation]),
        steps=() if hidden else tuple(zip(how_it_came_about(found, says, language), _states(found), strict=True)),
        score=None if hidden else _score_line(practical, found, error_in_use(work, exam), names, language),
        sheet_names=() if hidden else tuple(names[one.examiner] for one in sheets),
        levels=() if hidden else _levels(practical, found, sheets, language),
        remarks=() if hidden else _remarks(sheets, names, says),
        decisions=tuple(
            _decision(one, one is decisions[-1], whole, names, exercise_names(work, exam), zone, language)
            for one in decisions
        ),
        parts=tuple((part.id, part.title) for part in whole.parts),
        refer_parts=() if hidden else found.refer_parts,
        tied=_tied(viewer_id, candidate, ties, today, practical, language),
        may_seat_further=not (hidden or decisions or work.exams.second_markers(exam.id))
        and bool(sampled or found.recommendation is Recommendation.SECOND_MARKING),
        sampled=sampled,
        marked_how=language(HOW[practical.recorded, practical.without_record]),
        changed=changed_text(changes, language) if changes and not hidden else "",
        again=again_text(work, exam, language),
        tasks=_tasks(work, exam, practical),
        aside=shown_aside(kept, names, zone, language) if kept and not decisions else None,
        noted=kept.noted if kept and not decisions else None,
    )


def _seats(work: Work, exam: Exam, names: dict[str, str], zone: str, language: Language) -> tuple[Seat, ...]:
    further = work.exams.second_markers(exam.id)
    sent = {one.examiner_id: moment_text(one.sent_at, zone, language.locale) for one in work.exams.sheets(exam.id)}
    for one in sent_sheets(work, exam.id):
        if one.from_paper:
            said = language(FROM_PAPER, by=names[one.from_paper])
            sent[one.examiner] = f"{sent[one.examiner]}. {said}"
    ids = sorted(work.exams.seats(exam.id), key=lambda one: (one in further, names[one]))
    return tuple(Seat(one, names[one], one in further, sent.get(one, "")) for one in ids)


def _tasks(work: Work, exam: Exam, practical: Practical) -> tuple[tuple[str, tuple[tuple[str, str], ...]], ...]:
    """By part its tasks: (part/exercise, name)."""
    names, listed = exercise_names(work, exam), tasks_of(work, exam)
    return tuple(
        (part.title, tuple((f"{part.id}/{id}", names.get(id, id)) for id in dict.fromkeys(listed[part.id])))
        for part in practical.parts
        if listed.get(part.id)
    )


def _states(found: Result) -> list[str]:
    return [step.state for step in found.steps]


def _score_line(
    practical: Practical, found: Result, error: float | None, names: dict[str, str], language: Language
) -> ScoreLine | None:
    if found.scores.total is None:
        return None
    cut, half = float(practical.cut.at), float(band_squared(practical, error)) ** 0.5
    sheets = [(names[id], total) for id, total in found.scores.by_sheet if total is not None]
    return ScoreLine(
        float(found.scores.total), cut, max(cut - half, 0), min(cut + half, 100),
        tuple((name, float(total)) for name, total in sheets),
        marks(found.scores.total, language), marks(practical.cut.at, language),
        tuple((name, marks(total, language)) for name, total in sheets),
        band_sentence(half, error is not None, language),
    )  # fmt: skip


def _levels(
    practical: Practical, found: Result, sheets: tuple[Sheet, ...], language: Language
) -> tuple[tuple[str, tuple[tuple[str, ...], ...]], ...]:
    """By block: its title, then rows of criterion and each sheet's level, the last row the global grades."""
    shown = []
    for part in practical.parts:
        for block in part.blocks:
            rows = [
                (practical.criterion(one.cell.criterion).title, *(_level(level) for level in one.levels))
                for one in found.scores.cells
                if one.cell.block == block.id
            ]
            rows.append((language(GLOBAL), *(_grade(practical, sheet, block.id, language) for sheet in sheets)))
            shown.append((f"{part.title}: {block.title}" if block.title != part.title else part.title, tuple(rows)))
    return tuple(shown)


def _level(level: object) -> str:
    return "–" if level is None else str(level)


def _grade(practical: Practical, sheet: Sheet, block: str, language: Language) -> str:
    grade = next((one.grade for one in sheet.grades if one.block == block), None)
    return "–" if grade is None else language(practical.grades[grade])


def _remarks(sheets: tuple[Sheet, ...], names: dict[str, str], says: dict[str, str]) -> tuple[tuple[str, str], ...]:
    """What each examiner wrote: critical faults as seen, and the note."""
    found = []
    for sheet in sheets:
        found += [(names[sheet.examiner], f"{says.get(one.code, one.code)} {one.why}") for one in sheet.critical]
        found += [(names[sheet.examiner], sheet.note)] if sheet.note.strip() else []
    return tuple(found)


def _decision(  # noqa: PLR0913 - what one decision shows
    one: ExamDecision,
    stands: bool,
    practical: Practical,
    names: dict,
    exercises: dict,
    zone: str,
    language: Language,
) -> ShownDecision:
    titles = {part.id: part.title for part in practical.parts}
    outcome = Outcome(one.outcome)
    return ShownDecision(
        language(OUTCOMES[outcome]),
        "done" if outcome is Outcome.PASS else "behind" if outcome is Outcome.FAIL else "waiting",
        names[one.decider_id],
        moment_text(one.decided_at, zone, language.locale),
        one.reason,
        language.listed([titles.get(part, part) for part in json.loads(one.refer_parts)]),
        language(VOID_CAUSES[one.void_cause]) if one.void_cause else "",
        stands,
        what_follows(one, exercises, language),
    )


def _waiver_text(one: KeptWaiver, names: dict[str, str], zone: str, language: Language) -> str:
    at = moment_text(one.granted_at, zone, language.locale)
    values = {"person": names[one.person_id], "by": names[one.granted_by], "at": at, "reason": one.reason}
    return language(WAIVED[one.rule], **values)


def _tie_text(tie: Tie, names: dict[str, str], language: Language) -> str:
    sentence = TIES[tie.kind, tie.last is not None]
    day = day_text(tie.last, language.locale) if tie.last else ""
    return language(sentence, person=names[tie.person], candidate=names[tie.candidate], day=day)


def _of_this(tie: Tie, exam: Exam) -> bool:
    """The exam's own panel stands above already."""
    return tie.kind == "examined" and tie.last == exam.day


def _tied(  # noqa: PLR0913
    viewer_id: str, candidate: str, ties: tuple[Tie, ...], today: date, practical: Practical, language: Language
) -> tuple[str, ...]:
    faults = tie_faults(viewer_id, candidate, ties, today, practical.months_apart)
    return tuple(fault_text(fault, language) for fault in faults)
