"""The cohort: every trainee's line under one scale of time, the one furthest behind first."""

from collections import Counter
from dataclasses import dataclass
from datetime import date

from app.queries.enrolled import enrolled_now
from app.queries.hours import Line, line_of
from app.queries.standing import summaries_of
from app.storage.standings import KeptStanding
from app.storage.work import Work
from app.wording.dates import day_text, month_text
from app.wording.languages import Language

MOST_TICKS = 5


@dataclass(frozen=True, slots=True)
class Scale:
    """The time that all lines share; `ticks` are (day, text)."""

    starts: date
    ends: date
    today: date
    today_text: str
    ticks: tuple[tuple[date, str], ...]


@dataclass(frozen=True, slots=True)
class CohortOverview:
    """The lines, worst first, and standings solved anew to be kept.

    `counts` are (course, words, how many), the most first; `months` (month, how many, the share of the largest) are those in
    which the forecast sees their hours complete.
    """

    lines: tuple[Line, ...]
    scale: Scale | None
    counts: tuple[tuple[str, str, int], ...]
    months: tuple[tuple[str, int, float], ...]
    solved: dict[str, KeptStanding]


def cohort_overview(work: Work, today: date, language: Language, course: str = "") -> CohortOverview:
    """Those who stand so, or all: every enrolment of who is still at the school; what is kept of a standing is used, and only changed ones are solved again."""
    names, enrolments = work.people.names(), enrolled_now(work)
    summaries = summaries_of(work, enrolments, today)
    lines, solved = [], {}
    for one in enrolments:
        summary, to_keep = summaries[one.id]
        lines.append(line_of(one, summary, names[one.person_id], f"/trainees/{one.id}", today, language))
        if to_keep:
            solved[one.id] = to_keep
    lines.sort(key=lambda line: (-line.behind, line.name))
    counts = Counter((line.course, line.state) for line in lines)
    chosen = [line for line in lines if course in ("", line.course)]
    return CohortOverview(
        tuple(chosen),
        _scale(chosen, today, language) if chosen else None,
        tuple((*kind, number) for kind, number in counts.most_common()),
        _months(lines, language),
        solved,
    )


def _months(lines: list[Line], language: Language) -> tuple[tuple[str, int, float], ...]:
    """The months from the first to the last in which anybody's hours are likely to be complete."""
    due = Counter((line.forecast.year, line.forecast.month) for line in lines if line.forecast)
    return tuple(
        (month_text(date(*month, 1), language.locale), number, number / max(due.values()))
        for month, number in sorted(due.items())
    )


def _scale(lines: list[Line], today: date, language: Language) -> Scale:
    starts, ends = min(line.enrolled for line in lines), max(line.ends for line in lines)
    months = [date(year, month, 1) for year in range(starts.year, ends.year + 1) for month in range(1, 13)]
    inside = [month for month in months if starts <= month <= ends]
    step = max(1, -(-len(inside) // MOST_TICKS))
    ticks = tuple((month, day_text(month, language.locale)) for month in inside[::step])
    return Scale(starts, ends, today, day_text(today, language.locale), ticks)
