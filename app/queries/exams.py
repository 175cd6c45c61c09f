"""Exams as the director sees them: the list by what is to be done, and one exam with all it rests on."""

import json
from dataclasses import dataclass
from datetime import date

from app.queries.exam_facts import (
    first_examiners,
    may_see_all,
    practical_in,
    practical_of,
    result_of,
    sent_sheets,
    ties_of,
)
from app.storage.exams import Exam, ExamDecision, KeptWaiver
from app.storage.work import Work
from app.wording.dates import clock_text, day_text, moment_text
from app.wording.exams import TIES, WAIVED, exam_state
from app.wording.faults import fault_text
from app.wording.languages import Language
from app.wording.practicals import OUTCOMES, RECOMMENDATIONS, VOID_CAUSES, how_it_came_about, marks
from assessments.practicals.deciding import Outcome, Tie, tie_faults
from assessments.practicals.result import Recommendation, Result, band_squared
from assessments.practicals.sheets import Sheet
from assessments.practicals.specification import Practical
from curriculum.faults import N_

GLOBAL = N_("Global grade")
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


@dataclass(frozen=True, slots=True)
class ShownDecision:
    """One decision in words; `stands` for the last."""

    outcome: str
    kind: str
    by: str
    at: str
    reason: str
    parts: str
    cause: str
    stands: bool


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

    @property
    def can_pass(self) -> bool:
        """Whether anything but void can be decided yet."""
        return not self.hidden and self.recommendation not in OPEN


def exam_list(work: Work, today: date, language: Language) -> tuple[ExamLine, ...]:
    """Every exam: what waits for the director first, then what is coming, then what is decided, newest first."""
    names, seats = work.people.names(), work.exams.all_seats()
    decisions, senders = work.exams.all_decisions(), work.exams.senders()
    people = {one.id: one.person_id for one in work.enrolments.all()}
    lines = []
    for exam in work.exams.all():
        panel = [names[one] for one in seats.get(exam.id, [])]
        standing = _standing(work, exam, decisions.get(exam.id), senders.get(exam.id, set()), today)
        lines.append(_line(work, exam, names[people[exam.enrolment_id]], panel, standing, language))
    ahead = [line for line in lines if line.group != "decided"]
    behind = [line for line in reversed(lines) if line.group == "decided"]
    return tuple(sorted(ahead, key=lambda line: line.group != "open") + behind)


def exam_overview(work: Work, exam: Exam, viewer_id: str, today: date, zone: str, language: Language) -> ExamOverview:
    """One exam for somebody who may set and decide exams; an examiner of it sees no other sheet before sending."""
    names = work.people.names()
    practical, found, sheets = practical_of(work, exam), result_of(work, exam), sent_sheets(work, exam.id)
    candidate = work.enrolments.by_id(exam.enrolment_id).person_id
    decisions = work.exams.decisions(exam.id)
    hidden = not may_see_all(work, exam.id, sheets, viewer_id)
    panel = [names[one] for one in work.exams.seats(exam.id)]
    senders = {one.examiner for one in sheets}
    standing = _standing(work, exam, decisions[-1] if decisions else None, senders, today)
    ties = ties_of(work, candidate)
    says = names | {one.code: one.sentence for one in practical.critical_faults}
    return ExamOverview(
        line=_line(work, exam, names[candidate], panel, standing, language),
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
        score=None if hidden else _score_line(practical, found, names, language),
        sheet_names=() if hidden else tuple(names[one.examiner] for one in sheets),
        levels=() if hidden else _levels(practical, found, sheets, language),
        remarks=() if hidden else _remarks(sheets, names, says),
        decisions=tuple(_decision(one, one is decisions[-1], practical, names, zone, language) for one in decisions),
        parts=tuple((part.id, part.title) for part in practical.parts),
        refer_parts=() if hidden else found.refer_parts,
        tied=_tied(viewer_id, candidate, ties, today, practical, language),
        may_seat_further=not hidden
        and not decisions
        and found.recommendation is Recommendation.SECOND_MARKING
        and not work.exams.second_markers(exam.id),
    )


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


def _standing(
    work: Work, exam: Exam, decision: ExamDecision | None, senders: set[str], today: date
) -> tuple[str, str, dict[str, object]]:
    """How an exam stands: a code of `wording.exams`, its group, and what the sentence names."""
    if decision:
        return "decided", "decided", {"outcome": decision.outcome}
    first = first_examiners(work, exam.id)
    if first <= senders:
        recommended = result_of(work, exam).recommendation
        return (recommended if recommended in OPEN else "to-decide"), "open", {}
    if exam.day > today:
        return "coming", "coming", {}
    values = {"sent": len(first & senders), "wanted": len(first)}
    return ("today" if exam.day == today and not senders else "waiting"), "open", values


def _line(  # noqa: PLR0913 - what one line shows
    work: Work, exam: Exam, candidate: str, panel: list[str], standing: tuple, language: Language
) -> ExamLine:
    code, group, values = standing
    words, kind = exam_state(code, values, language)
    day, time = day_text(exam.day, language.locale), clock_text(exam.starts_minute, language.locale)
    when = language(N_("{day}, {time}"), day=day, time=time)
    title = practical_of(work, exam).title
    return ExamLine(exam.id, group, exam.day, when, candidate, title, exam.room, language.listed(panel), words, kind)


def _seats(work: Work, exam: Exam, names: dict[str, str], zone: str, language: Language) -> tuple[Seat, ...]:
    further = work.exams.second_markers(exam.id)
    sent = {one.examiner_id: moment_text(one.sent_at, zone, language.locale) for one in work.exams.sheets(exam.id)}
    ids = sorted(work.exams.seats(exam.id), key=lambda one: (one in further, names[one]))
    return tuple(Seat(one, names[one], one in further, sent.get(one, "")) for one in ids)


def _states(found: Result) -> list[str]:
    return [step.state for step in found.steps]


def _score_line(practical: Practical, found: Result, names: dict[str, str], language: Language) -> ScoreLine | None:
    if found.scores.total is None:
        return None
    cut, half = float(practical.cut.at), float(band_squared(practical, None)) ** 0.5
    sheets = [(names[id], total) for id, total in found.scores.by_sheet if total is not None]
    return ScoreLine(
        float(found.scores.total), cut, max(cut - half, 0), min(cut + half, 100),
        tuple((name, float(total)) for name, total in sheets),
        marks(found.scores.total, language), marks(practical.cut.at, language),
        tuple((name, marks(total, language)) for name, total in sheets),
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
    one: ExamDecision, stands: bool, practical: Practical, names: dict, zone: str, language: Language
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
