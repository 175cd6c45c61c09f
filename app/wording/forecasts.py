"""A forecast in words: what may be, from what, and how sure; or kindly why there is none yet."""

from datetime import date
from typing import Protocol

from app.wording.dates import day_text
from app.wording.languages import Language
from curriculum.faults import N_

WITHHELD = {
    "complete": "",
    "few-weeks": N_(
        "Too early to say: a forecast needs four weeks behind it, with some hours in them. It comes by itself."
    ),
    "few-others": N_(
        "Too early to say: it takes half a year of these weeks, or some others on the same requirements to go by. It comes by itself."
    ),
}
GOES_ON = N_(
    "Going on as in these weeks, all hours are done by about {day}: half of such courses are done before, half after."
)
BAND = N_("Four times of five between {early} and {late}.")
OPEN_BAND = N_("Four times of five after {early}; how late can't be told.")
NOT_SEEN = N_(
    "Going on as in these weeks, the hours are not done within four years. Talk with the school about what would help."
)
IN_WINDOW = N_("The end of the time allowed, {day}, is made in {share} % of such courses, stopping counted in.")
RESTS_ON = N_("It rests on the weeks so far, holidays and quieter months among them. It decides nothing.")


class Ahead(Protocol):
    """ISO days, empty where there is none; `withheld` a code."""

    withheld: str
    early: str
    middle: str
    late: str
    in_window: float | None


def forecast_lines(ahead: Ahead, ends: str, language: Language) -> tuple[str, ...]:
    """The forecast in sentences; nothing once all is done."""
    if ahead.withheld:
        return tuple(language(one) for one in (WITHHELD[ahead.withheld],) if one)
    if not ahead.middle:
        return language(NOT_SEEN), language(RESTS_ON)
    found = [language(GOES_ON, day=_day(ahead.middle, language)), band_text(ahead, language)]
    if ends and ahead.in_window is not None:
        share = language.figure(min(99, max(1, round(100 * ahead.in_window))))
        found.append(language(IN_WINDOW, day=_day(ends, language), share=share))
    return " ".join(found), language(RESTS_ON)


def band_text(ahead: Ahead, language: Language) -> str:
    early = _day(ahead.early, language)
    return (
        language(BAND, early=early, late=_day(ahead.late, language)) if ahead.late else language(OPEN_BAND, early=early)
    )


def _day(iso: str, language: Language) -> str:
    return day_text(date.fromisoformat(iso), language.locale)
