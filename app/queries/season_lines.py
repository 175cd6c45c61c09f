"""A season's examiners as rows and charts: places along a line, and what is said beside it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from app.wording import seasons as words
from app.wording.dates import day_text
from app.wording.languages import Language

Found = Mapping[str, object]


@dataclass(frozen=True, slots=True)
class Stretch:
    """One row of a picture: from `low` to `high` along the line, the knot `at`; places from 0 to 1, None if not known."""

    name: str
    words: str
    low: float | None = None
    high: float | None = None
    at: float | None = None
    chosen: bool = False
    cells: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Chart:
    """One examiner's control chart: points as SVG coordinates in a box of 100 by 40."""

    name: str
    words: str
    points: str = ""
    upper: str = ""
    lower: str = ""
    cells: tuple[tuple[str, ...], ...] = ()


def severity_rows(
    examiners: Sequence[Found], names: Mapping[str, str], language: Language
) -> tuple[tuple[Stretch, ...], tuple[str, str]]:
    """A row for each examiner along one line of marks about the average; and what its ends are called."""
    known = [one["severity"] for one in examiners if one["severity"]["estimate"] is not None]
    reach = max((abs(one[end]) for one in known for end in ("low", "high")), default=5.0)
    reach = 5.0 * -(-reach // 5.0)
    rows = []
    for one in examiners:
        name, own = names.get(one["id"], one["id"]), one["severity"]
        said = words.severity_text(own, language)
        if own["estimate"] is None:
            cells = (name, "–", "–", "–", language.figure(one["exams"]))
            rows.append(Stretch(name, said, cells=cells))
            continue
        places = [(own[key] + reach) / (2 * reach) for key in ("low", "high", "estimate")]
        figures = [words.signed(own[key], language) for key in ("estimate", "low", "high")]
        rows.append(Stretch(name, said, *places, cells=(name, *figures, language.figure(one["exams"]))))
    return tuple(rows), (words.signed(-reach, language), words.signed(reach, language))


def drift_rows(
    examiners: Sequence[Found], names: Mapping[str, str], first_day: str | None, language: Language
) -> tuple[tuple[Chart, ...], tuple[str, str]]:
    """A control chart for each examiner under one scale of time; and its first and last day."""
    if first_day is None:
        return (), ("", "")
    start = date.fromisoformat(first_day)
    last = max((day for one in examiners for day in one["chart"]["days"]), default=0)
    found = [one["chart"] for one in examiners if one["drift"]["estimate"] is not None]
    most = max((abs(value) for one in found for value in (*one["values"], *one["limits"])), default=1.0) * 1.1
    charts = []
    for one in examiners:
        name, said, chart = names.get(one["id"], one["id"]), words.drift_text(one, language), one["chart"]
        if one["drift"]["estimate"] is None:
            charts.append(Chart(name, said))
            continue
        values, limits = chart["values"], chart["limits"]
        lines = [_points(chart["places"], some, most) for some in (values, limits, [-limit for limit in limits])]
        days = [day_text(start + timedelta(days=day), language.locale) for day in chart["days"]]
        cells = tuple(
            (day, words.decimal(value, language, 2), words.decimal(limit, language, 2))
            for day, value, limit in zip(days, values, limits, strict=True)
        )
        charts.append(Chart(name, said, *lines, cells=cells))
    ends = tuple(day_text(start + timedelta(days=days), language.locale) for days in (0, last))
    return tuple(charts), ends


def _points(places: Sequence[float], values: Sequence[float], most: float) -> str:
    """Exams in order of time, at even distances."""
    return " ".join(
        f"{100 * along:.2f},{20 - 20 * value / most:.2f}" for along, value in zip(places, values, strict=True)
    )
