"""What the sheets add up to, step by step, and what is recommended to the decider."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction
from typing import Literal

from assessments.practicals.resit import Again, combined, only_parts
from assessments.practicals.scoring import Scores, score
from assessments.practicals.sheets import Sheet, standing
from assessments.practicals.specification import Practical

StepState = Literal["met", "missed", "open", "note"]


class Recommendation(StrEnum):
    """What comes next; only pass, refer and fail can be decided as recommended."""

    WAITING = "waiting"
    TALK = "talk"
    SECOND_MARKING = "second-marking"
    NOT_COMPLETED = "not-completed"
    FAIL = "fail"
    REFER = "refer"
    PASS = "pass"


@dataclass(frozen=True, slots=True)
class Step:
    """One step of how the outcome came about: a code that wording turns into a sentence with `values`."""

    code: str
    state: StepState
    values: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Result:
    """The scores, every step in order, the recommendation, and the parts that a referral names.

    `second_marking` holds the reasons for one: `too-close`, `still-apart`, `critical-seen-by-one`. `counts_as` is the
    total as it is recorded: at most the cut score on a further attempt where the rules cap it.
    """

    scores: Scores
    steps: tuple[Step, ...]
    recommendation: Recommendation
    refer_parts: tuple[str, ...] = ()
    second_marking: tuple[str, ...] = ()
    counts_as: Fraction | None = None


def result(
    practical: Practical,
    sheets: tuple[Sheet, ...],
    season_error: Fraction | None = None,
    again: Again | None = None,
) -> Result:
    """The result of one exam.

    `season_error` is the absolute standard error in marks for this number of examiners and blocks, where
    the season's data carry one; the cut score's own error is added in quadrature. `again` says that this is a
    further attempt, what it covers and what stood; the sheets of it are compared over what it covers alone.
    """
    kept = standing(sheets)
    scores = combined(practical, again, kept) if again else score(practical, kept)
    exam = _Exam(only_parts(practical, again.parts if again else ()), kept, scores, season_error, again)
    steps = tuple(step for rule in STEPS for step in rule(exam))
    reasons = _second_marking_reasons(steps)
    recommended = _recommend(practical, steps, bool(reasons))
    parts = tuple(one.id for one in exam.scores.parts if not one.reached)
    refer = parts if recommended is Recommendation.REFER else ()
    return Result(exam.scores, steps, recommended, refer, reasons, _capped(exam))


@dataclass(frozen=True, slots=True)
class _Exam:
    practical: Practical
    sheets: tuple[Sheet, ...]
    scores: Scores
    season_error: Fraction | None
    again: Again | None = None

    @property
    def firsts(self) -> tuple[Sheet, ...]:
        return tuple(sheet for sheet in self.sheets if not sheet.second_marking)

    @property
    def second_marked(self) -> bool:
        return any(sheet.second_marking for sheet in self.sheets)


def sheets_are_in(exam: _Exam) -> Iterator[Step]:
    """All first sheets are sent."""
    sent, wanted = len(exam.firsts), exam.practical.examiners
    yield _step("sheets", "met" if sent >= wanted else "open", sent=sent, wanted=wanted)


def critical_faults(exam: _Exam) -> Iterator[Step]:
    """Confirmed by two sheets: not a pass, whatever the score; seen by one alone: a second marking."""
    needed = min(2, exam.practical.examiners)
    seen = {code for sheet in exam.sheets for code in sheet.critical_codes()}
    for code in sorted(seen):
        by = tuple(sheet.examiner for sheet in exam.sheets if code in sheet.critical_codes())
        if len(by) >= needed:
            yield _step("critical-confirmed", "missed", fault=code, by=by)
        elif exam.second_marked:
            yield _step("critical-not-confirmed", "note", fault=code, by=by)
        else:
            yield _step("critical-seen-by-one", "open", fault=code, by=by)
    if not seen:
        yield _step("no-critical", "met")


def interventions(exam: _Exam) -> Iterator[Step]:
    """Where an examiner stepped in, for the decider to read."""
    for sheet in exam.sheets:
        for one in sheet.stepped_in:
            code = "stepped-in" if one.went_on else "stopped"
            yield _step(code, "note", by=sheet.examiner, at=one.at, why=one.why)


def enough_was_seen(exam: _Exam) -> Iterator[Step]:
    """No more is left out than the practical allows."""
    most, left_out = exam.practical.left_out, exam.scores.left_out
    enough = left_out <= most and exam.scores.total is not None
    if left_out or not enough:
        yield _step("left-out", "note" if enough else "missed", share=left_out, most=most)


def floors(exam: _Exam) -> Iterator[Step]:
    """Every part, criterion and group of criteria reaches its own floor; where nothing was seen, that is said."""
    for kind in ("part", "criterion", "group"):
        scores = {
            "part": exam.scores.parts,
            "criterion": exam.scores.criteria,
            "group": exam.scores.groups,
        }[kind]
        for one in scores:
            if one.floor is None:
                continue
            if one.per_cent is None:
                yield _step("floor-unseen", "note", id=one.id, title=one.title, floor=one.floor)
                continue
            values = {"id": one.id, "title": one.title, "per_cent": one.per_cent, "floor": one.floor}
            yield _step(f"{kind}-floor", "met" if one.reached else "missed", **values)


def total_against_cut(exam: _Exam) -> Iterator[Step]:
    """Clear of the cut by more than the band, or too close to call inside it."""
    total, cut = exam.scores.total, exam.practical.cut.at
    if total is None:
        return
    squared = band_squared(exam.practical, exam.season_error)
    close = bool(squared) and (total - cut) ** 2 <= squared
    values = {
        "total": total,
        "cut": cut,
        "band": float(squared) ** 0.5,
        "measured": exam.season_error is not None,
    }
    if close and not exam.second_marked:
        yield _step("too-close", "open", **values)
    else:
        yield _step(
            "total-inside-band" if close else "total",
            "met" if total >= cut else "missed",
            **values,
        )


def cap(exam: _Exam) -> Iterator[Step]:
    """On a further attempt the total may count as no more than the cut score."""
    if exam.scores.total is not None and _capped(exam) != exam.scores.total:
        yield _step("capped", "note", total=exam.scores.total, cut=exam.practical.cut.at)


def apart(exam: _Exam) -> Iterator[Step]:
    """Whether the first examiners differ by more than the stated gap, and have talked."""
    if len(exam.firsts) < 2:
        return
    gap, places = (
        distance(exam.practical, exam.firsts),
        cells_apart(exam.practical, exam.firsts),
    )
    most = exam.practical.apart.total
    values = {"gap": gap, "most": most, "places": places}
    if gap <= most and not places:
        yield _step("together", "met", **values)
    elif exam.second_marked:
        yield _step("apart-second-marked", "note", **values)
    elif all(sheet.after_talking for sheet in exam.firsts):
        yield _step("still-apart", "open", **values)
    else:
        yield _step("apart", "open", **values)


def second_marking_done(exam: _Exam) -> Iterator[Step]:
    """A further sheet is in."""
    for sheet in exam.sheets:
        if sheet.second_marking:
            yield _step("second-marked", "note", by=sheet.examiner)


STEPS = (
    sheets_are_in,
    second_marking_done,
    critical_faults,
    interventions,
    enough_was_seen,
    floors,
    total_against_cut,
    cap,
    apart,
)


def band_squared(practical: Practical, season_error: Fraction | None) -> Fraction:
    """The band's half width in marks, squared (so that it stays exact)."""
    if season_error is None:
        return practical.band.marks**2
    cut_error = practical.cut.standard_error or Fraction(0)
    return practical.band.standard_errors**2 * (Fraction(season_error) ** 2 + cut_error**2)


def distance(practical: Practical, sheets: tuple[Sheet, ...]) -> Fraction:
    """The largest difference between two sheets' totals, in marks, over what each of them scored."""
    totals = [total for _, total in score(practical, sheets).by_sheet if total is not None]
    return max(totals) - min(totals) if totals else Fraction(0)


def cells_apart(practical: Practical, sheets: tuple[Sheet, ...]) -> tuple[tuple[str, str], ...]:
    """The blocks and criteria on which levels differ by more steps than the practical allows."""
    most = practical.apart.levels
    if most is None:
        return ()
    found = []
    for one in score(practical, sheets).cells:
        levels = [level for level in one.levels if level is not None]
        if levels and (max(levels) - min(levels)) / one.cell.scale.step > most:
            found.append((one.cell.block, one.cell.criterion))
    return tuple(found)


def _capped(exam: _Exam) -> Fraction | None:
    total = exam.scores.total
    caps = exam.again is not None and exam.practical.resits.capped
    return min(total, exam.practical.cut.at) if caps and total is not None else total


def _second_marking_reasons(steps: tuple[Step, ...]) -> tuple[str, ...]:
    wanted = ("critical-seen-by-one", "too-close", "still-apart")
    codes = {step.code for step in steps if step.state == "open"}
    return tuple(code for code in wanted if code in codes)


def _recommend(practical: Practical, steps: tuple[Step, ...], second_marking: bool) -> Recommendation:
    missed = {step.code for step in steps if step.state == "missed"}
    opened = {step.code for step in steps if step.state == "open"}
    if "sheets" in opened:
        return Recommendation.WAITING
    if "critical-confirmed" in missed:
        return Recommendation.FAIL
    if "apart" in opened:
        return Recommendation.TALK
    if second_marking and ("left-out" not in missed or "critical-seen-by-one" in opened):
        return Recommendation.SECOND_MARKING
    if "left-out" in missed:
        return Recommendation.NOT_COMPLETED
    if missed == {"part-floor"} and practical.resits.parts_alone:
        return Recommendation.REFER
    return Recommendation.FAIL if missed else Recommendation.PASS


def _step(code: str, state: StepState, **values: object) -> Step:
    return Step(code, state, values)
