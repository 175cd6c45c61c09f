"""The feedback of a decided exam in the candidate's language."""

from collections.abc import Sequence
from dataclasses import dataclass

from app.queries.repertoire import exercise_href
from app.queries.sheets import level_text
from app.wording import exam_feedback as words
from app.wording.languages import Language
from app.wording.practicals import marks
from assessments.practicals.candidate_feedback import CriterionFeedback, Mending, ToWorkOn, candidate_feedback
from assessments.practicals.result import Result
from assessments.practicals.scoring import Score
from assessments.practicals.sheets import Sheet
from assessments.practicals.specification import Practical
from curriculum.faults import N_
from curriculum.repertoire.edition import Edition


@dataclass(frozen=True, slots=True)
class CriterionShown:
    """A criterion after the exam; `level` is "" where it was not scored, `next_step` is always there."""

    title: str
    level: str
    sentence: str
    weakest: str
    next_step: str


@dataclass(frozen=True, slots=True)
class WorkedOnShown:
    """An exercise with something to work on; `mendings` are (what to see, what mends it)."""

    name: str
    href: str
    noticed: str
    place: str
    mendings: tuple[tuple[str, str], ...]
    next_step: str


@dataclass(frozen=True, slots=True)
class ExamFeedback:
    """All of it in words; `parts` and `groups` are (title, reached per cent and floor)."""

    total: str
    parts: tuple[tuple[str, str], ...]
    criteria: tuple[CriterionShown, ...]
    work_on: tuple[WorkedOnShown, ...]
    mended: str
    declined: str
    critical: tuple[str, ...]
    frame: str


def exam_feedback(
    practical: Practical, result: Result, sheets: Sequence[Sheet], edition: Edition | None, language: Language
) -> ExamFeedback:
    """What the candidate reads; nobody of the panel is named."""
    found = candidate_feedback(practical, result, sheets, edition)
    names = {one.id: one.name for one in edition.exercises} if edition else {}
    sentences = {one.code: one.sentence for one in practical.critical_faults}
    blocks = {block.id: block.title for part in practical.parts for block in part.blocks}
    total, cut = marks(result.scores.total, language), marks(practical.cut.at, language)
    scored = [one for one in (*result.scores.parts, *result.scores.groups) if one.per_cent is not None]
    return ExamFeedback(
        language(words.TOTAL if result.counts_as == result.scores.total else words.CAPPED, total=total, cut=cut),
        tuple((one.title, _per_cent(one, language)) for one in scored),
        tuple(_criterion(one, blocks, language) for one in found.criteria),
        tuple(_worked_on(one, names, language) for one in found.to_work_on),
        language.listed([names.get(one, one) for one in found.mended]),
        language.listed([names.get(one, one) for one in found.declined]),
        tuple(sentences.get(code, code) for code in found.critical),
        edition.frame if edition and found.to_work_on else "",
    )


def _per_cent(one: Score, language: Language) -> str:
    per_cent = marks(one.per_cent, language)
    if one.floor is None:
        return language(words.PART, per_cent=per_cent)
    return language(words.PART_WITH_FLOOR, per_cent=per_cent, floor=marks(one.floor, language))


def _criterion(one: CriterionFeedback, blocks: dict[str, str], language: Language) -> CriterionShown:
    if one.level is None:
        return CriterionShown(one.criterion.title, "", language(words.NOT_SCORED), "", "")
    weakest = language.listed([blocks[block] for block in one.weakest])
    return CriterionShown(
        one.criterion.title,
        language(N_("level {level}"), level=level_text(one.level, language)),
        one.sentence,
        language(words.WEAKEST, blocks=weakest) if weakest else "",
        language(words.NEEDS_REACH, sentence=one.reach) if one.reach else language(words.AT_THE_BEST),
    )


def _worked_on(one: ToWorkOn, names: dict[str, str], language: Language) -> WorkedOnShown:
    drill = next((mending.drill for mending in one.mendings if mending.drill), "")
    return WorkedOnShown(
        names.get(one.exercise, one.exercise),
        exercise_href(one.exercise) if one.exercise in names else "",
        words.noticed_text(one.noticed, language),
        _place(one, names, language),
        tuple(_mending(mending) for mending in one.mendings),
        language(words.PRACTISE, drill=drill) if drill else language(words.READ_AGAIN),
    )


def _place(one: ToWorkOn, names: dict[str, str], language: Language) -> str:
    if "out-of-order" not in one.noticed and "left-out" not in one.noticed or one.exercise not in names:
        return ""
    return language(words.IN_ORDER, before=names[one.after]) if one.after else language(words.FIRST_IN_ORDER)


def _mending(one: Mending) -> tuple[str, str]:
    return one.fault.sees, one.fault.correction
