"""An examiner's exams, and the score sheet as it is filled in."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from app.files.sheets import read_sheet
from app.queries.admissions import is_admitted, told_of
from app.queries.exam_clients import names_on_sheet
from app.queries.exam_facts import practical_of
from app.queries.lists import sealed_parts
from app.queries.sheet_facts import draft_stamp, exercise_names, exercises_of, sheet_standing
from app.storage.exams import Exam
from app.storage.work import Work
from app.wording.admissions import NOT_ADMITTED
from app.wording.dates import clock_text, day_text, moment_text
from app.wording.languages import Language
from app.wording.practicals import (
    LEFT_OUT,
    MANNERS,
    NOTICED,
    OUTCOMES,
    PART_KINDS,
)
from app.wording.sheets import STANDINGS
from assessments.practicals.deciding import Outcome
from assessments.practicals.sheets import Sheet
from assessments.practicals.specification import Criterion, Practical
from curriculum.faults import N_

Pairs = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class ExamToScore:
    """One exam of the list; `group` is `do`, `coming`, `sent` or `decided`."""

    id: str
    group: str
    standing: str
    when: str
    room: str
    candidate: str
    practical: str
    others: str
    state: str
    state_kind: str
    to_do: str
    day: str = ""


@dataclass(frozen=True, slots=True)
class CriterionShown:
    """A criterion to mark: `levels` are (value, level, sentence)."""

    id: str
    title: str
    watched: str
    levels: tuple[tuple[str, str, str], ...]


@dataclass(frozen=True, slots=True)
class BlockShown:
    id: str
    title: str
    criteria: tuple[CriterionShown, ...]


@dataclass(frozen=True, slots=True)
class PartShown:
    """A part; `exercises` are (id, name), empty where the list names none."""

    id: str
    title: str
    kind: str
    blocks: tuple[BlockShown, ...]
    exercises: Pairs


@dataclass(frozen=True, slots=True)
class ScoreSheet:
    """What a score sheet asks; choices are (value, words), `places` the words for a field's block and criterion."""

    exam: ExamToScore
    practical: Practical
    parts: tuple[PartShown, ...]
    critical: Pairs
    grades: Pairs
    left_out: Pairs
    manners: Pairs
    noticed: Pairs
    draft: Sheet | None
    stamp: str
    kept_at: str
    sealed: bool = False
    unadmitted: str = ""
    adjusted: str = ""

    @property
    def exercises(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(id for part in self.parts for id, _ in part.exercises))

    def places(self, language: Language) -> dict[str, str]:
        """What the fields of the form are about, in words, by the field's name."""
        found = {f"block.{block.id}": block.title for part in self.parts for block in part.blocks}
        for part in self.parts:
            for block in part.blocks:
                found[f"grades.{block.id}"] = block.title
                for one in block.criteria:
                    words = language.listed([block.title, one.title])
                    found |= {f"{kind}.{block.id}.{one.id}": words for kind in ("marks", "manner", "reason")}
            found |= {f"{kind}.{id}": name for id, name in part.exercises for kind in ("noticed", "instead")}
        for code, sentence in self.critical:
            found |= {f"{kind}.{code}": sentence.rstrip(".") for kind in ("critical", "critical-at", "critical-why")}
        return found


def examiners_list(work: Work, examiner_id: str, today: date, language: Language) -> tuple[ExamToScore, ...]:
    """The examiner's exams: to be done first, then coming, sent, and decided, the newest first."""
    lines = [examiners_exam(work, exam, examiner_id, today, language) for exam in work.exams.of_examiner(examiner_id)]
    order = ("do", "coming", "sent", "decided")
    ahead = [line for line in lines if line.group in order[:2]]
    behind = [line for line in reversed(lines) if line.group in order[2:]]
    return tuple(sorted(ahead + behind, key=lambda line: order.index(line.group)))


def examiners_exam(work: Work, exam: Exam, examiner_id: str, today: date, language: Language) -> ExamToScore:
    """One exam as its examiner reads it: when, where, who, and what is to do."""
    names = work.people.names()
    code = sheet_standing(work, exam, examiner_id, today)
    group, state, kind, to_do = STANDINGS[code]
    words = language(state)
    if code == "decided":
        outcome = Outcome(work.exams.decisions(exam.id)[-1].outcome)
        words = language(N_("decided: {outcome}"), outcome=language(OUTCOMES[outcome]))
    day, time = day_text(exam.day, language.locale), clock_text(exam.starts_minute, language.locale)
    others = [names[one] for one in work.exams.seats(exam.id) if one != examiner_id]
    return ExamToScore(
        exam.id, group, code, language(N_("{day}, {time}"), day=day, time=time), exam.room,
        names[work.enrolments.by_id(exam.enrolment_id).person_id], practical_of(work, exam).title,
        language.listed(others), words, kind, language(to_do), exam.day.isoformat(),
    )  # fmt: skip


def score_sheet(  # noqa: PLR0913 - whose, when, and in which words
    work: Work, exam: Exam, examiner_id: str, today: date, zone: str, language: Language, blank: bool = False
) -> ScoreSheet:
    """What is asked of the examiner, with the draft that was kept last unless it is to be `blank`."""
    practical = practical_of(work, exam)
    content = None if blank else work.exams.draft(exam.id, examiner_id)
    kept_at = None if blank else work.exams.draft_kept_at(exam.id, examiner_id)
    exercises, names = exercises_of(work, exam, examiner_id, today), exercise_names(work, exam)
    names |= names_on_sheet(work, exam, language)
    return ScoreSheet(
        exam=examiners_exam(work, exam, examiner_id, today, language),
        practical=practical,
        parts=parts_shown(practical, exercises, names, language),
        **choices_of(practical, language),
        draft=read_sheet(content) if content else None,
        stamp=draft_stamp(content),
        kept_at=moment_text(kept_at, zone, language.locale) if kept_at else "",
        sealed=bool(sealed_parts(work, exam, examiner_id)),
        unadmitted="" if is_admitted(work, exam) else language(NOT_ADMITTED),
        adjusted=told_of(work, exam.id),
    )  # fmt: skip


def parts_shown(
    practical: Practical, exercises: Mapping[str, Sequence[str]], names: Mapping[str, str], language: Language
) -> tuple[PartShown, ...]:
    """The parts to score, with their exercises by part."""
    return tuple(
        PartShown(
            part.id, part.title, language(PART_KINDS[part.kind]),
            tuple(
                BlockShown(block.id, block.title, tuple(_criterion(practical.criterion(id), language) for id in part.criteria))
                for block in part.blocks
            ),
            tuple((id, names.get(id, id)) for id in exercises.get(part.id, ())),
        )
        for part in practical.parts
    )  # fmt: skip


def choices_of(practical: Practical, language: Language) -> dict[str, Pairs]:
    """What can be chosen on a sheet: (value, words) by field."""
    return {
        "critical": tuple((one.code, one.sentence) for one in practical.critical_faults),
        "grades": tuple((str(place), language(words)) for place, words in enumerate(practical.grades)),
        "left_out": tuple((code, language(words)) for code, words in LEFT_OUT.items()),
        "manners": tuple((code, language(words)) for code, words in MANNERS.items()),
        "noticed": tuple((code, language(words)) for code, words in NOTICED.items()),
    }


def _criterion(one: Criterion, language: Language) -> CriterionShown:
    levels = tuple((str(level), level_text(level, language), one.sentence(level)) for level in one.scale.levels())
    return CriterionShown(one.id, one.title, one.watched, levels)


def level_text(level: Fraction, language: Language) -> str:
    """A level as a number."""
    return language.figure(int(level) if level.denominator == 1 else float(level))
