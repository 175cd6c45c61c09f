"""Calibration as an examiner sees it: what is to score, a performance with its form, and how near one came."""

from dataclasses import dataclass
from datetime import date

from app.queries.calibration_facts import Gathered, InUse, in_use, panel_of, performance_in_use
from app.storage.calibration import PerformanceScoring
from app.storage.work import Work
from app.wording.calibration import (
    FOUNDED,
    NOT_FOUNDED,
    PUBLISHED,
    distance_texts,
    figure,
    rules_text,
    state_words,
)
from app.wording.dates import day_text
from app.wording.languages import Language
from assessments.calibration.comparing import cells_of
from assessments.calibration.performance import Performance
from assessments.calibration.standing import again_from
from assessments.practicals.specification import Practical
from curriculum.faults import N_

SCORED = N_("scored on {day}")
AGAIN = N_("scored on {day}; may be scored again")
WAITS = N_("scored on {day}; waits for its reference")
NEW = N_("new to you")
YOU_AND_IT = N_("you {own}, the reference {reference}")


@dataclass(frozen=True, slots=True)
class PerformanceLine:
    """One performance of the list."""

    id: str
    title: str
    setting: str
    state: str
    to_score: bool


@dataclass(frozen=True, slots=True)
class OwnCalibration:
    """One practical: how the examiner stands, what is asked, and its performances."""

    practical: str
    title: str
    state: str
    state_kind: str
    rules: str
    texts: tuple[str, ...]
    lines: tuple[PerformanceLine, ...]


@dataclass(frozen=True, slots=True)
class CriterionToScore:
    """`field` is the form's; `levels` are (value, words) pairs, the level and its sentence."""

    field: str
    title: str
    watched: str
    levels: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class BlockToScore:
    title: str
    moments: tuple[str, ...]
    criteria: tuple[CriterionToScore, ...]


@dataclass(frozen=True, slots=True)
class MarkShown:
    """One mark beside its reference; `why` is the panel's reason, or nothing."""

    criterion: str
    words: str
    same: bool
    why: str


@dataclass(frozen=True, slots=True)
class PerformanceShown:
    """A performance; `rows` compare mark by mark and are empty while there is no reference or nothing was scored."""

    id: str
    practical: str
    title: str
    setting: str
    practical_title: str
    frame: str
    blocks: tuple[BlockToScore, ...]
    to_score: bool
    scored: str = ""
    reference: str = ""
    texts: tuple[str, ...] = ()
    rows: tuple[MarkShown, ...] = ()
    note: str = ""


def own_calibration(
    work: Work, person_id: str, today: date, zone: str, language: Language
) -> tuple[OwnCalibration, ...]:
    """Every practical that asks for a calibration, or has performances to score."""
    gathered, found = Gathered(work, zone), []
    for use in in_use(work):
        rules = use.practical.calibration
        if not (rules.performances or use.fitting):
            continue
        now = gathered.standing(person_id, use.practical, today)
        texts = distance_texts(now.distance, use.practical, language) if now.distance else []
        lines = tuple(_line(gathered, use, one, person_id, today, language) for one in use.fitting)
        own = (use.practical.id, use.practical.title, *state_words(now, rules, language))
        found.append(OwnCalibration(*own, rules_text(rules, language), tuple(texts), lines))
    return tuple(found)


def to_score(gathered: Gathered, use: InUse, performance_id: str, person_id: str, today: date) -> bool:
    """Whether somebody may score a performance: never before, or so long ago that half its time has passed."""
    own = gathered.of(person_id, performance_id)
    return not own or again_from(use.practical.calibration, gathered.day(own[-1])) <= today


def performance_shown(  # noqa: PLR0913 - which, whose and when
    work: Work, practical: str, performance_id: str, person_id: str, today: date, zone: str, language: Language
) -> PerformanceShown:
    """One performance for one examiner; before it is scored nothing says what the reference is."""
    use, one = performance_in_use(work, practical, performance_id)
    gathered = Gathered(work, zone)
    open_now = to_score(gathered, use, performance_id, person_id, today)
    shown = PerformanceShown(
        one.id, practical, one.title, one.setting, use.practical.title, use.made.frame,
        _blocks(use.practical, one), open_now,
    )  # fmt: skip
    own = gathered.of(person_id, performance_id)
    return shown if open_now or not own else _compared(shown, gathered, use, own[-1], language)


def _compared(
    shown: PerformanceShown, gathered: Gathered, use: InUse, own: PerformanceScoring, language: Language
) -> PerformanceShown:
    scored = {
        name: getattr(shown, name) for name in shown.__dataclass_fields__ if name not in ("texts", "rows", "scored")
    }
    one, distance = gathered.performance(own), gathered.distance(own)
    day = language(SCORED, day=day_text(gathered.day(own), language.locale))
    scored |= {"scored": day, "note": own.note, "reference": _reference(gathered, use, one, language)}
    if distance is None:
        return PerformanceShown(**scored)
    titles = {criterion.id: criterion.title for criterion in use.practical.criteria}
    rows = tuple(
        MarkShown(
            titles.get(mark.cell.criterion, mark.cell.criterion),
            language(YOU_AND_IT, own=figure(mark.own, language), reference=figure(mark.reference, language)),
            mark.stricter == 0,
            one.why(mark.cell.block, mark.cell.criterion),
        )
        for mark in distance.marks
    )
    return PerformanceShown(**scored, texts=tuple(distance_texts(distance, use.practical, language)), rows=rows)


def _reference(gathered: Gathered, use: InUse, one: Performance, language: Language) -> str:
    if one.reference:
        return language(PUBLISHED, how=one.reference.how)
    founding = gathered.foundings.get(one.id)
    if founding is None:
        return language(NOT_FOUNDED, founders=use.practical.calibration.founders)
    day = day_text(gathered.founded_on(founding), language.locale)
    return language(FOUNDED, number=len(panel_of(founding)), day=day)


def _line(
    gathered: Gathered, use: InUse, one: Performance, person_id: str, today: date, language: Language
) -> PerformanceLine:
    own, may = gathered.of(person_id, one.id), to_score(gathered, use, one.id, person_id, today)
    words = NEW if not own else AGAIN if may else SCORED if gathered.reference(own[-1]) else WAITS
    day = day_text(gathered.day(own[-1]), language.locale) if own else ""
    return PerformanceLine(one.id, one.title, one.setting, language(words, day=day), may)


def _blocks(practical: Practical, one: Performance) -> tuple[BlockToScore, ...]:
    titles = {block.id: block.title for part in practical.parts for block in part.blocks}
    cells = cells_of(practical, one)
    return tuple(
        BlockToScore(
            titles[block.block],
            block.moments,
            tuple(_criterion(practical, cell.block, cell.criterion) for cell in cells if cell.block == block.block),
        )
        for block in one.blocks
    )


def _criterion(practical: Practical, block: str, id: str) -> CriterionToScore:
    one = practical.criterion(id)
    levels = tuple((str(level), f"{_plain(level)} – {sentence}") for level, sentence in one.sentences)
    return CriterionToScore(field_of(block, id), one.title, one.watched, levels)


def field_of(block: str, criterion: str) -> str:
    """The form's field of one mark."""
    return f"level.{block}.{criterion}"


def _plain(level: object) -> str:
    return f"{float(level):g}"
