"""Somebody's attempts at spotting faults along a line of time, with the table behind it."""

from dataclasses import dataclass
from datetime import datetime

from app.queries.spotting_attempts import Finished, result_href, when_text
from app.wording import spotting as words
from app.wording.dates import day_text
from app.wording.languages import Language
from curriculum.faults import N_

LOWEST, HIGHEST, NEAR_PERFECT = -2.0, 5.0, 3.0
LEAST_APART = 0.04


@dataclass(frozen=True, slots=True)
class Mark:
    """One attempt in the picture: places from 0 (left, top) to 1; `first` is the first time through its lesson."""

    at: float
    middle: float
    top: float
    bottom: float
    first: bool
    words: str


@dataclass(frozen=True, slots=True)
class OverTime:
    """Attempts along a line of time; `guessing` and `perfect` are the places of d′ 0 and 3."""

    marks: tuple[Mark, ...]
    rows: tuple[tuple[object, ...], ...]
    starts: str
    ends: str
    guessing: float
    perfect: float


def over_time(over: tuple[Finished, ...], now: datetime, zone: str, language: Language) -> OverTime | None:
    if not over:
        return None
    over = sorted(over, key=lambda one: one.known.answered_at)
    starts = over[0].known.answered_at
    length = max((now - starts).total_seconds(), 1.0)
    marks, rows = [], []
    places = _apart([(one.known.answered_at - starts).total_seconds() / length for one in over])
    for one, at in zip(over, places, strict=True):
        found = one.eye
        figure, times = words.figure_text(found.d_prime, language), (N_("first time") if one.first else N_("again"))
        day = day_text(one.known.answered_at.date(), language.locale)
        if found.d_prime.estimate is not None:
            low, high = found.d_prime.low, found.d_prime.high
            said = language(N_("{day}, {lesson}: {figure}"), day=day, lesson=one.lesson.title, figure=figure)
            marks.append(Mark(at, _height(found.d_prime.estimate), _height(high), _height(low), one.first, said))
        hits, planted, alarms, sound = found.counts.row
        link = {"text": one.lesson.title, "href": result_href(one.known.attempt)}
        rows.append(
            (
                link, when_text(one, zone, language), language(times), words.of_all(hits, planted, language),
                words.of_all(alarms, sound, language), figure, words.figure_text(found.criterion, language),
            )
        )  # fmt: skip
    ends = [day_text(day.date(), language.locale) for day in (starts, now)]
    return OverTime(tuple(marks), tuple(rows), *ends, _height(0.0), _height(NEAR_PERFECT))


def _apart(places: list[float]) -> list[float]:
    """Places from 0.02 to 0.98 in their order, far enough from each other to be told apart."""
    moved: list[float] = []
    for place in places:
        moved.append(max(place, moved[-1] + LEAST_APART) if moved else place)
    widest = max(1.0, moved[-1])
    return [0.02 + 0.96 * place / widest for place in moved]


def _height(figure: float) -> float:
    """From 0 (top) to 1, what lies beyond the picture at its edge."""
    return (HIGHEST - min(max(figure, LOWEST), HIGHEST)) / (HIGHEST - LOWEST)
