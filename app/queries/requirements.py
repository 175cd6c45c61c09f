"""Requirement sets in plain words, each category with its line; and who is on a set."""

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction

from app.queries.criteria import fact_titles
from app.queries.enrolled import enrolled_now
from app.queries.standing import requirements_of
from app.storage.editions import Edition
from app.storage.work import Work
from app.wording.dates import day_text
from app.wording.languages import Language
from app.wording.requirement_amounts import time_text
from app.wording.requirements import SaidCategory, SaidSet, in_plain_words
from curriculum.faults import N_
from curriculum.requirements.amounts import Share
from curriculum.requirements.requirement_set import Category, RequirementSet


@dataclass(frozen=True, slots=True)
class SetLine:
    """A published set in the list."""

    id: str
    title: str
    number: str
    published: str
    on_it: int


@dataclass(frozen=True, slots=True)
class NeedLine:
    """A category as a line from 0 to its need: lengths are shares of the longest line of the set.

    `floors` and `caps` are marks on the line, `beyond` where credit ends if that is not the need; texts are for people.
    """

    id: str
    name: str
    need: float
    floors: tuple[float, ...]
    caps: tuple[float, ...]
    beyond: float | None
    need_text: str
    floors_text: str
    caps_text: str
    beyond_text: str


@dataclass(frozen=True, slots=True)
class SetOverview:
    """A set in words, with its picture."""

    title: str
    edition: str
    said: SaidSet
    parts: tuple[tuple[NeedLine, SaidCategory], ...]
    longest_text: str


def set_list(work: Work, language: Language) -> tuple[SetLine, ...]:
    """Every published set, the newest first."""
    on_it = Counter(one.requirements_id for one in enrolled_now(work))
    found = sorted(work.editions.of_kind("requirements"), key=lambda one: one.published_at, reverse=True)
    return tuple(
        SetLine(
            one.id, requirements_of(one).title, one.number, day_text(one.published_at.date(), language.locale),
            on_it[one.id],
        )
        for one in found
    )  # fmt: skip


def who_is_on(work: Work, edition: Edition) -> tuple[tuple[str, str], ...]:
    """(enrolment id, name) of those who are on a set and have not left, by name."""
    names = work.people.names()
    own = (one for one in enrolled_now(work) if one.requirements_id == edition.id)
    return tuple(sorted(((one.id, names[one.person_id]) for one in own), key=lambda one: one[1]))


def set_overview(work: Work, requirements: RequirementSet, language: Language) -> SetOverview:
    """A set in the words of a language, practicals, documents and modules by their titles."""
    said = in_plain_words(requirements, language, fact_titles(work))
    longest = max((_reach(one) for one in requirements.categories), default=Fraction(0)) or Fraction(1)
    lines = (_line(one, longest, language) for one in requirements.categories)
    parts = tuple(zip(lines, said.categories, strict=True))
    return SetOverview(requirements.title, requirements.edition, said, parts, time_text(longest, language))


def _line(one: Category, longest: Fraction, language: Language) -> NeedLine:
    floors = tuple(Fraction(rule.at_least) for rule in one.of_which)
    caps = tuple(most for rule in one.limits if not rule.per and (most := _fixed(rule.at_most, one)) is not None)
    beyond = _fixed(one.at_most, one)

    def text(times: tuple[Fraction, ...]) -> str:
        return language.listed([time_text(time, language) for time in sorted(times)]) or language(N_("none"))

    return NeedLine(
        one.id,
        one.name,
        float(one.at_least / longest),
        tuple(float(time / longest) for time in floors),
        tuple(min(float(time / longest), 1.0) for time in caps),
        None if beyond is None else float(beyond / longest),
        time_text(one.at_least, language),
        text(floors),
        text(caps),
        language(N_("none")) if beyond is None else time_text(beyond, language),
    )


def _reach(one: Category) -> Fraction:
    """The last minute that the category's line shows."""
    return max(
        one.at_least, _fixed(one.at_most, one) or Fraction(0), *(Fraction(rule.at_least) for rule in one.of_which)
    )


def _fixed(amount: Fraction | Share | None, one: Category) -> Fraction | None:
    """A cap in minutes; None where it depends on what will be credited, or where there is none."""
    if isinstance(amount, Share):
        return None if amount.of else amount.part * one.at_least
    return amount
