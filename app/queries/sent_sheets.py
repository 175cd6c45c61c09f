"""An examiner's sheet as it was sent, and the others' beside it once they may be seen."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from app.files.sheets import read_sheet
from app.queries.exam_facts import practical_of, result_of, visible_sheets
from app.queries.sheet_facts import exercise_names, may_talk
from app.queries.sheets import ExamToScore, Pairs, examiners_exam, level_text
from app.storage.exams import Exam, SentSheet
from app.storage.work import Work
from app.wording.dates import moment_text
from app.wording.languages import Language
from app.wording.practicals import LEFT_OUT, MANNERS, NOTICED, elapsed, marks, step_sentence
from app.wording.sheets import AFTER_TALKING, FROM_PAPER
from assessments.practicals.scoring import score
from assessments.practicals.sheets import Manner, Mark, Sheet
from assessments.practicals.specification import Criterion, Practical
from curriculum.faults import N_


@dataclass(frozen=True, slots=True)
class ShownMark:
    """One criterion as each sheet has it: (examiner, words); `differs` when the levels do."""

    title: str
    by: Pairs
    differs: bool


@dataclass(frozen=True, slots=True)
class ShownBlock:
    title: str
    rows: tuple[ShownMark, ...]

    @property
    def differing(self) -> int:
        return sum(row.differs for row in self.rows)


@dataclass(frozen=True, slots=True)
class ShownSheet:
    """What one examiner wrote beside the marks: versions with their reasons, and remarks in order."""

    examiner: str
    total: str
    versions: tuple[str, ...]
    changes: tuple[str, ...]
    remarks: Pairs


@dataclass(frozen=True, slots=True)
class SentOverview:
    """An examiner's own sheet as sent, and the others' once they may be seen."""

    exam: ExamToScore
    blocks: tuple[ShownBlock, ...]
    sheets: tuple[ShownSheet, ...]
    gap: str
    alone: bool
    may_talk: bool
    own: Sheet


def sent_overview(work: Work, exam: Exam, examiner_id: str, today: date, zone: str, language: Language) -> SentOverview:
    """The examiner's sent sheet, and the others' once every first examiner has sent theirs."""
    names, practical = work.people.names(), practical_of(work, exam)
    found = sorted(visible_sheets(work, exam.id, examiner_id), key=lambda one: one.examiner != examiner_id)
    alone = len(found) < 2
    versions = work.exams.sheets(exam.id)
    totals = dict(score(practical, tuple(found)).by_sheet)
    people = {one.examiner: names[one.examiner] for one in found}
    exercises = exercise_names(work, exam)
    return SentOverview(
        exam=examiners_exam(work, exam, examiner_id, today, language),
        blocks=_blocks(practical, found, people, language),
        sheets=tuple(
            ShownSheet(
                people[one.examiner],
                "" if alone or totals[one.examiner] is None else marks(totals[one.examiner], language),
                _versions(versions, one.examiner, names, zone, language),
                _changes(practical, versions, one.examiner, language),
                _remarks(practical, one, exercises, language),
            )
            for one in found
        ),
        gap="" if alone else _gap(work, exam, people, language),
        alone=alone,
        may_talk=may_talk(work, exam, examiner_id),
        own=found[0],
    )


def _blocks(
    practical: Practical, sheets: list[Sheet], people: dict[str, str], language: Language
) -> tuple[ShownBlock, ...]:
    shown = []
    for part in practical.parts:
        for block in part.blocks:
            rows = [_row(practical.criterion(id), block.id, sheets, people, language) for id in part.criteria]
            grades = tuple((people[one.examiner], _grade(practical, one, block.id, language)) for one in sheets)
            rows.append(ShownMark(language(N_("Global grade")), grades, False))
            shown.append(ShownBlock(block_title(part.title, block.title), tuple(rows)))
    return tuple(shown)


def block_title(part: str, block: str) -> str:
    """A block's title with its part's, unless they are one."""
    return block if part == block else f"{part}: {block}"


def _row(
    criterion: Criterion, block: str, sheets: list[Sheet], people: dict[str, str], language: Language
) -> ShownMark:
    found = [(people[one.examiner], one.mark(block, criterion.id)) for one in sheets]
    levels = {mark.level for _, mark in found if mark is not None}
    by = tuple((name, _mark(criterion, mark, language)) for name, mark in found)
    return ShownMark(criterion.title, by, len(levels) > 1)


def _mark(criterion: Criterion, mark: Mark | None, language: Language) -> str:
    if mark is None:
        return "–"
    words = [language(LEFT_OUT[mark.left_out]) if mark.left_out else ""]
    if mark.level is not None:
        words = [level_text(mark.level, language), criterion.sentence(mark.level)]
    words.append(
        language(N_("({manner})"), manner=language(MANNERS[mark.manner])) if mark.manner != Manner.DONE else ""
    )
    return " ".join(one for one in (*words, mark.reason) if one)


def _grade(practical: Practical, sheet: Sheet, block: str, language: Language) -> str:
    grade = next((one.grade for one in sheet.grades if one.block == block), None)
    return "–" if grade is None else language(practical.grades[grade])


def _versions(
    versions: list[SentSheet], examiner: str, names: Mapping[str, str], zone: str, language: Language
) -> tuple[str, ...]:
    said = []
    for one in versions:
        if one.examiner_id != examiner:
            continue
        sheet, at = read_sheet(one.content), moment_text(one.sent_at, zone, language.locale)
        number = language.figure(one.version)
        said.append(language(AFTER_TALKING[sheet.after_talking], number=number, at=at, reason=one.reason))
        if sheet.from_paper and one.version == 1:
            said.append(language(FROM_PAPER, by=names[sheet.from_paper]))
    return tuple(said)


def _changes(practical: Practical, versions: list[SentSheet], examiner: str, language: Language) -> tuple[str, ...]:
    """What the newest version has otherwise than the first: block, criterion, before and after."""
    own = [read_sheet(one.content) for one in versions if one.examiner_id == examiner]
    if len(own) < 2:
        return ()
    titles = {block.id: block_title(part.title, block.title) for part in practical.parts for block in part.blocks}
    found = []
    for cell in practical.cells():
        was, now = (one.mark(cell.block, cell.criterion) for one in (own[0], own[-1]))
        if was != now:
            criterion = practical.criterion(cell.criterion)
            values = {"place": titles[cell.block], "criterion": criterion.title}
            values |= {"was": _mark(criterion, was, language), "now": _mark(criterion, now, language)}
            found.append(language(N_("{place}, {criterion}. Before: {was} Now: {now}"), **values))
    return tuple(found)


def _remarks(practical: Practical, sheet: Sheet, exercises: dict[str, str], language: Language) -> Pairs:
    """Critical faults, stepping in, what was noticed on exercises, and the note: (heading, text)."""
    faults = {one.code: one.sentence for one in practical.critical_faults}
    at = N_("{what} At {time}: {why}")
    found = [
        (
            language(N_("Critical fault")),
            language(at, what=faults.get(one.code, one.code), time=elapsed(one.at), why=one.why),
        )
        for one in sheet.critical
    ]
    for one in sheet.stepped_in:
        what = language(N_("The exam went on.") if one.went_on else N_("The exam did not go on."))
        found.append((language(N_("Stepped in")), language(at, what=what, time=elapsed(one.at), why=one.why)))
    for tap in sheet.taps:
        words = language(NOTICED[tap.noticed])
        if tap.instead:
            words = language(N_("{noticed}: {instead}"), noticed=words, instead=tap.instead)
        found.append((exercises.get(tap.exercise, tap.exercise), words))
    return (*found, *([(language(N_("Note")), sheet.note)] if sheet.note else ()))


def _gap(work: Work, exam: Exam, people: dict[str, str], language: Language) -> str:
    """How far the first examiners are apart, in a sentence."""
    found = result_of(work, exam)
    codes = ("together", "apart", "still-apart", "apart-second-marked")
    return next((step_sentence(one, people, language) for one in found.steps if one.code in codes), "")
