"""Judges' rounds as their judges and the director see them; answers of an open round are nobody's but the judge's."""

from collections.abc import Mapping
from dataclasses import dataclass

from app.files.seasons import read_picture
from app.queries.exam_facts import practical_edition
from app.queries.exam_list import practicals_on_offer
from app.queries.judging import answers_of, bounds_of, judges_of, marks_of_panel, rounds_of, shown_round
from app.queries.pass_marks import PassMarks, pass_marks_side_by_side
from app.storage.judging import Judging
from app.storage.work import Work
from app.wording.dates import day_text
from app.wording.judging import A_JUDGE, AT_ODDS, BOUNDS, DECIDED, FAR, SPREAD, STATES, WHOLE, YOU, panel_texts
from app.wording.languages import Language
from app.wording.seasons import decimal
from assessments.practicals.specification import Practical
from assessments.season.judging import JudgedRound, Rounds, block_shares, rounds_compared


@dataclass(frozen=True, slots=True)
class JudgingLine:
    """One panel in the list; `to_answer` says whether the viewer still has to."""

    id: str
    title: str
    opened: str
    state: str
    to_answer: bool


@dataclass(frozen=True, slots=True)
class Dots:
    """One line from 0 to 100: the others' marks, the viewer's own, and the mean, as places from 0 to 1; in words too."""

    title: str
    words: str
    others: tuple[float, ...]
    own: tuple[float, ...]
    mean: float


@dataclass(frozen=True, slots=True)
class AskedBlock:
    """One block to judge: its part and what that asks, its share of the whole, the viewer's mark of the first round."""

    id: str
    part: str
    title: str
    share: str
    asked: tuple[str, ...]
    before: str


@dataclass(frozen=True, slots=True)
class JudgingOverview:
    """A panel. `dots`, `rows` and `marks` are empty while nothing may be seen; rows are (judge, own mark, blocks, remark)."""

    id: str
    title: str
    practical_id: str
    rounds: Rounds
    state: str
    waits_for: tuple[str, ...]
    answered: int
    judges: int
    may_answer: bool
    has_answered: bool
    blocks: tuple[AskedBlock, ...]
    bounds: tuple[tuple[str, str, str, str], ...]
    texts: tuple[str, ...] = ()
    dots: tuple[Dots, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    marks: PassMarks | None = None
    talk: str = ""
    reason: str = ""
    suggestion: str = ""


def judging_lines(work: Work, viewer_id: str, sees_all: bool, language: Language) -> tuple[JudgingLine, ...]:
    """Every panel for the director, their own for a judge; the newest first."""
    lines = []
    for one in work.judgings.all():
        if not (sees_all or viewer_id in judges_of(one)):
            continue
        rounds, day = rounds_of(work, one), day_text(one.opened_at.date(), language.locale)
        waits = _may_answer(work, one, rounds, viewer_id)
        lines.append(JudgingLine(one.id, _title(work, one), day, _state(rounds, language), waits))
    return tuple(lines)


def judging_choices(work: Work) -> dict[str, list[tuple[str, str]]]:
    """Practicals that can be judged, and who can judge."""
    judges = [(one.id, one.name) for one in work.people.with_role("examiner") if one.left_at is None]
    return {"practical": practicals_on_offer(work), "judges": judges}


def judging_overview(
    work: Work, judging: Judging, viewer_id: str, sees_names: bool, language: Language
) -> JudgingOverview:
    """One panel; judges see each other's marks without names, and nobody any of a round that is open."""
    rounds, names, judges = rounds_of(work, judging), work.people.names(), judges_of(judging)
    now, practical = answers_of(work, judging, rounds.round), practical_edition(work, judging.practical_id)
    found, steps = shown_round(work, judging), work.judgings.steps(judging.id)
    own = answers_of(work, judging, 1).get(viewer_id, {}) if rounds.round == 2 else {}
    bounds = bounds_of(work, judging, 1).get(viewer_id, {}) if rounds.round == 2 else {}
    waits_for = sorted(names[one] for one in judges - set(now)) if sees_names and rounds.is_open else ()
    head = {
        "id": judging.id, "title": _title(work, judging), "practical_id": judging.practical_id, "rounds": rounds,
        "state": _state(rounds, language), "waits_for": tuple(waits_for), "answered": len(now), "judges": len(judges),
        "may_answer": _may_answer(work, judging, rounds, viewer_id), "has_answered": viewer_id in now,
        "blocks": _asked(practical, own, language),
        "bounds": tuple(
            (name, language(label), language(unit), _figure(bounds.get(name), language))
            for name, (label, unit) in BOUNDS.items()
        ),
        "talk": steps["second"].words if "second" in steps else "",
        "reason": steps["decided"].words if "decided" in steps else "",
    }  # fmt: skip
    if found is None:
        return JudgingOverview(**head)
    change = (
        rounds_compared(practical, answers_of(work, judging, 1), answers_of(work, judging, 2))
        if rounds.shown == 2
        else None
    )
    estimate = found.cut.estimate
    return JudgingOverview(
        **head,
        texts=tuple(panel_texts(found.cut, change, language)),
        dots=_dots(practical, found, viewer_id, language),
        rows=_rows(found, names if sees_names else {}, viewer_id, language),
        marks=_marks(work, judging, practical, language),
        suggestion="" if estimate is None else decimal(estimate, language, 0),
    )


def _may_answer(work: Work, judging: Judging, rounds: Rounds, viewer_id: str) -> bool:
    may = viewer_id in judges_of(judging) and rounds.is_open and not rounds.decided
    return may and viewer_id not in answers_of(work, judging, rounds.round)


def _title(work: Work, judging: Judging) -> str:
    practical = practical_edition(work, judging.practical_id)
    return f"{practical.title}, {practical.edition}"


def _titles(practical: Practical) -> dict[str, str]:
    """What each block is called: its part's title with its own, unless they are one."""
    return {
        block.id: ": ".join(dict.fromkeys((part.title, block.title)))
        for part in practical.parts
        for block in part.blocks
    }


def _asked(practical: Practical, own: Mapping[str, float], language: Language) -> tuple[AskedBlock, ...]:
    shares = block_shares(practical)
    return tuple(
        AskedBlock(
            block.id, part.title, block.title, decimal(100 * shares[block.id], language, 0),
            tuple(practical.criterion(id).title for id in part.criteria), _figure(own.get(block.id), language),
        )
        for part in practical.parts
        for block in part.blocks
        if block.id in shares
    )  # fmt: skip


def _dots(practical: Practical, found: JudgedRound, viewer_id: str, language: Language) -> tuple[Dots, ...]:
    titles = _titles(practical)
    columns = {titles[id]: found.table[:, place].tolist() for place, id in enumerate(found.blocks)}
    whole = [found.own[judge] for judge in found.judges]
    return tuple(
        _line(title, values, found.judges, viewer_id, language)
        for title, values in {language(WHOLE): whole, **columns}.items()
    )


def _line(title: str, values: list[float], judges: tuple[str, ...], viewer_id: str, language: Language) -> Dots:
    mean = sum(values) / len(values)
    told = language(
        SPREAD, low=_figure(min(values), language), high=_figure(max(values), language), mean=decimal(mean, language, 0)
    )
    places = [(value / 100, judge == viewer_id) for value, judge in zip(values, judges, strict=True)]
    others, own = (tuple(place for place, is_own in places if is_own is wanted) for wanted in (False, True))
    return Dots(title, told, others, own, mean / 100)


def _rows(
    found: JudgedRound, names: Mapping[str, str], viewer_id: str, language: Language
) -> tuple[tuple[str, ...], ...]:
    """By name for who sees names; else by mark, so that the order gives nobody away."""
    order = sorted(found.judges, key=lambda judge: (names.get(judge, ""), found.own[judge]))
    rows = []
    for judge in order:
        marks = found.table[found.judges.index(judge)].tolist()
        remarks = [language(words) for words, who in ((FAR, found.far), (AT_ODDS, found.at_odds)) if judge in who]
        name = names.get(judge) or language(YOU if judge == viewer_id else A_JUDGE)
        rows.append(
            (
                name,
                decimal(found.own[judge], language),
                *(_figure(mark, language) for mark in marks),
                language.listed(remarks),
            )
        )
    return tuple(rows)


def _marks(work: Work, judging: Judging, practical: Practical, language: Language) -> PassMarks:
    kept = work.seasons.picture(judging.practical_id)
    season = read_picture(kept.content)["pass_marks"] if kept else {}
    judged = marks_of_panel(work, judging, season.get("totals", ()))
    return pass_marks_side_by_side(practical, {**season, **judged}, language)


def _figure(mark: float | None, language: Language) -> str:
    if mark is None:
        return ""
    return decimal(mark, language, 0) if mark == int(mark) else decimal(mark, language)


def _state(rounds: Rounds, language: Language) -> str:
    return language(DECIDED if rounds.decided else STATES[rounds.round, rounds.is_open])
