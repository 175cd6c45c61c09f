"""The hour-credit program, one variable per entry and category and per full kind, nothing merged."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import product
from math import floor

import numpy as np

from tests.assessments.hours.oracle.credit import Case, credit, matches
from tests.assessments.hours.oracle.documents import Bound, Cap, Category, Entry, Floor, Total, Variety
from tests.assessments.hours.oracle.program import SLACK, InfeasibleError, Program

NEW = "\x00a new one"
TIMES = ("day", "week", "session")
Sum = dict[int, Fraction]


@dataclass(frozen=True)
class Given:
    """One variable: credit of an entry, or further minutes of a kind, in one category."""

    variable: int
    category: str
    fields: dict[str, tuple[str, ...]]
    entry: Entry | None = None
    most: Fraction = Fraction(0)


class Plan:
    """All variables and rows of one trainee's program."""

    def __init__(self, case: Case) -> None:
        self.case, self.set, self.program = case, case.requirements, Program()
        self.chosen: dict[str, int] = {}
        self.earned = [
            (entry, category, amount)
            for category in self.set.categories
            for entry in case.entries
            if (amount := credit(case, entry, category)) > 0
        ]
        self.given = [
            Given(self.program.variable(amount), category.id, entry.fields, entry, amount)
            for entry, category, amount in self.earned
        ]
        for category in self.set.categories:
            for kind in self.kinds(category):
                self.given.append(Given(self.program.variable(), category.id, kind))
        self.write_choices()
        self.write_entries()
        for category in self.set.categories:
            self.write_category(category)
        for total in self.set.totals:
            self.require_floor(self.amount(self.total_terms(total)), total.at_least, [total.id])
        for cap in self.set.caps:
            self.write_cap(cap, self.given, None)

    # -- kinds -------------------------------------------------------------------------------------------------

    def rules_touching(self, category: Category) -> Iterable[tuple[dict[str, list[str]], str | None]]:
        """What each rule accepts, and the field it counts or caps, if any."""
        yield category.accepts, None
        yield from ((floor_.accepts, None) for floor_ in category.floors)
        yield from ((cap.accepts, cap.per) for cap in [*category.caps, *self.set.caps])
        yield from ((variety.accepts, variety.of) for variety in category.varieties)
        yield from ((total.accepts, None) for total in self.set.totals if category.id in total.of)

    def kinds(self, category: Category) -> Iterable[dict[str, tuple[str, ...]]]:
        named: dict[str, list[str]] = {}
        for accepts, counted in self.rules_touching(category):
            for name, values in accepts.items():
                named.setdefault(name, []).extend(values)
            if counted is not None:
                named.setdefault(counted, [])
        for variety in category.varieties:
            for entry, where, _ in self.earned:
                if where is category:
                    named[variety.of].extend(entry.fields.get(variety.of, ()))
        names = [name for name in named if name not in TIMES]
        choices = [self.set.fields.get(name, [*dict.fromkeys(named[name]), NEW]) for name in names]
        for values in product(*choices):
            kind = {name: (value,) for name, value in zip(names, values, strict=True)}
            if matches(category.accepts, kind):
                yield kind

    # -- sums --------------------------------------------------------------------------------------------------

    def within(self, category: str, accepts: dict[str, list[str]] | None = None) -> list[Given]:
        return [g for g in self.given if g.category == category and matches(accepts or {}, g.fields)]

    def total_terms(self, total: Total) -> list[Given]:
        return [g for g in self.given if g.category in total.of and matches(total.accepts, g.fields)]

    @staticmethod
    def amount(terms: Iterable[Given]) -> Sum:
        return {g.variable: Fraction(1) for g in terms}

    def end_amount(self, name: str) -> Sum:
        total = next((t for t in self.set.totals if t.id == name), None)
        return self.amount(self.total_terms(total) if total else self.within(name))

    def require_at_most(self, terms: Iterable[Given], bound: Bound, category: Category | None) -> None:
        total = self.amount(terms)
        if bound.minutes is not None:
            self.program.require(total, at_most=bound.minutes)
        elif bound.of is None:
            self.program.require(total, at_most=bound.share * category.at_least)
        else:
            base = self.end_amount(category.id if bound.of == "credited" else bound.of)
            for variable, one in base.items():
                total[variable] = total.get(variable, Fraction(0)) - bound.share * one
            self.program.require(total, at_most=0)

    # -- rows --------------------------------------------------------------------------------------------------

    def write_choices(self) -> None:
        for choice in self.set.choices:
            for member in choice.among:
                if member not in self.chosen:
                    self.chosen[member] = self.program.variable(1, whole=True)
            self.program.require({self.chosen[m]: 1 for m in choice.among}, at_least=choice.at_least)

    def require_floor(self, total: dict[int, Fraction], at_least: Fraction, owners: list[str]) -> None:
        """At least so much; if owners are members of a choice, only when all of those are chosen."""
        members = [self.chosen[owner] for owner in owners if owner in self.chosen]
        row = dict(total)
        for member in members:
            row[member] = -at_least
        self.program.require(row, at_least=at_least - len(members) * at_least)

    def write_entries(self) -> None:
        for entry in self.case.entries:
            mine = [g for g in self.given if g.entry is entry]
            whole = max((g.most for g in mine), default=0)
            self.program.require({g.variable: whole / g.most for g in mine}, at_most=whole)

    def write_category(self, category: Category) -> None:
        everything = self.within(category.id)
        self.require_floor(self.amount(everything), category.at_least, [category.id])
        if category.at_most is not None:
            self.require_at_most(everything, category.at_most, category)
        for inner in category.floors:
            terms = self.within(category.id, inner.accepts)
            self.require_floor(self.amount(terms), floor_minutes(inner, category), [category.id, inner.id])
        for cap in category.caps:
            self.write_cap(cap, everything, category)
        for variety in category.varieties:
            self.write_variety(variety, category)

    def write_cap(self, cap: Cap, everything: list[Given], category: Category | None) -> None:
        terms = [g for g in everything if matches(cap.accepts, g.fields)]
        if cap.per is None:
            self.require_at_most(terms, cap.at_most, category)
            return
        if cap.per in TIMES:
            terms = [g for g in terms if g.entry is not None]
        for value in sorted({v for g in terms for v in g.fields.get(cap.per, ())} - {NEW}):
            self.require_at_most([g for g in terms if value in g.fields[cap.per]], cap.at_most, category)

    def write_variety(self, variety: Variety, category: Category) -> None:
        terms = self.within(category.id, variety.accepts)
        distinct: Sum = {}
        for value in sorted({v for g in terms for v in g.fields.get(variety.of, ())} - {NEW}):
            there = self.program.variable(1, whole=True)
            distinct[there] = Fraction(1)
            having = self.amount(g for g in terms if value in g.fields.get(variety.of, ()))
            self.program.require(having | {there: -variety.each}, at_least=0)
        further = [g for g in terms if g.entry is None]
        if variety.of not in TIMES:
            further = [g for g in further if g.fields[variety.of] == (NEW,)]
        new = self.program.variable(variety.at_least, whole=True)
        distinct[new] = Fraction(1)
        self.program.require(self.amount(further) | {new: -variety.each}, at_least=0)
        self.require_floor(distinct, Fraction(variety.at_least), [category.id, variety.id])


def floor_minutes(inner: Floor, category: Category) -> Fraction:
    return inner.at_least.minutes if inner.at_least.share is None else inner.at_least.share * category.at_least


class Answer:
    """The optimum of one trainee's program, and what can be said of every optimal plan."""

    def __init__(self, case: Case) -> None:
        self.case, self.plan = case, Plan(case)
        self.program = self.plan.program
        self.unsettled = self.program.copy()
        self.further_terms = further = Plan.amount(g for g in self.plan.given if g.entry is None)
        credited = Plan.amount(g for g in self.plan.given if g.entry is not None)
        self.program.settle(further)
        self.least_further = self.program.copy()
        self.program.settle(negative(credited))
        for category in case.requirements.categories:
            values = self.program.settle(negative(self.credited_terms(category.id)))
        place = {entry.id: number for number, entry in enumerate(case.entries, start=1)}
        earliest = {g.variable: place[g.entry.id] for g in self.plan.given if g.entry is not None}
        self.values = self.program.settle(earliest) if earliest else values
        self.further = self.worth(further)
        self.credited = self.worth(credited)

    def worth(self, total: dict[int, Fraction]) -> float:
        return float(sum(float(c) * self.values[v] for v, c in total.items()))

    def credited_terms(self, category: str, accepts: dict[str, list[str]] | None = None) -> Sum:
        return Plan.amount(g for g in self.plan.within(category, accepts) if g.entry is not None)

    def credited_to(self, category: str) -> float:
        return self.worth(self.credited_terms(category))

    def further_if_given(self, given: dict[tuple[str, str], int]) -> float:
        """Least further minutes once these whole minutes are given, up to a minute less each; infinite if a cap breaks."""
        program = self.unsettled.copy()
        for g in self.plan.given:
            if g.entry is not None:
                minutes = min(given.get((g.entry.id, g.category), 0), g.most)
                program.require({g.variable: 1}, minutes - 1, minutes + SLACK)
        try:
            return value_of(self.further_terms, program.least(self.further_terms))
        except InfeasibleError:
            return float("inf")

    def further_at_least(self, category: str) -> tuple[float, float]:
        """Least further minutes in the category: over all plans of least further, and over all optimal plans."""
        terms = Plan.amount(g for g in self.plan.within(category) if g.entry is None)
        return tuple(max(0.0, value_of(terms, program.least(terms))) for program in (self.least_further, self.program))

    def met_between(self, rule: str) -> tuple[float, float]:
        """Least and most matching credit (values, for variety) over all optimal plans."""
        for category in self.case.requirements.categories:
            for inner in category.floors:
                if inner.id == rule:
                    return self.range_of(self.credited_terms(category.id, inner.accepts))
            for variety in category.varieties:
                if variety.id == rule:
                    return self.values_between(variety, category)
        total = next(t for t in self.case.requirements.totals if t.id == rule)
        return self.range_of(Plan.amount(g for g in self.plan.total_terms(total) if g.entry is not None))

    def range_of(self, terms: Sum) -> tuple[float, float]:
        least, most = self.program.least(terms), self.program.least(negative(terms))
        return value_of(terms, least), value_of(terms, most)

    def values_between(self, variety: Variety, category: Category) -> tuple[float, float]:
        """A minute of doubt on either side, as reports are in whole minutes."""
        terms = [g for g in self.plan.within(category.id, variety.accepts) if g.entry is not None]
        ends = []
        for doubt, sign in ((1, 1), (-1, -1)):
            program, counted = self.program.copy(), {}
            for value in sorted({v for g in terms for v in g.fields.get(variety.of, ())}):
                there = program.variable(1, whole=True)
                having = Plan.amount(g for g in terms if value in g.fields[variety.of])
                most = sum(program.upper[v] for v in having) + 1
                enough = variety.each + doubt
                if sign > 0:  # not counted: less than enough
                    program.require(having | {there: -most}, at_most=enough - Fraction(1, 1000))
                else:  # counted: at least enough, and more than nothing
                    program.require(having | {there: -max(enough, Fraction(1, 1000))}, at_least=0)
                counted[there] = Fraction(sign)
            ends.append(sign * value_of(counted, program.least(counted)))
        return min(ends), max(ends)


def value_of(terms: dict[int, Fraction], values: np.ndarray) -> float:
    return float(sum(float(c) * values[v] for v, c in terms.items()))


def negative(terms: Sum) -> Sum:
    return {variable: -coefficient for variable, coefficient in terms.items()}


def can_be_met(case: Case) -> bool:
    """Whether somebody could meet the set with an empty log."""
    try:
        plan = Plan(replace(case, entries=[]))
        plan.program.least({})
    except InfeasibleError:
        return False
    return True


def waiting_minutes(case: Case, now: Answer) -> int:
    """Credit if all waiting were signed off, minus credit now, each in whole minutes."""
    signed = [replace(e, state="signed_off") if e.state == "waiting" else e for e in case.entries]
    then = Answer(replace(case, entries=signed))
    return floor(then.credited + 1e-4) - floor(now.credited + 1e-4)
