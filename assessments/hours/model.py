"""The program of a trainee's hours: credit given and further minutes, under every rule of the set."""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from assessments.hours.clauses import Clauses, Counted
from assessments.hours.items import Item
from assessments.hours.kinds import NEW, Kinds, kinds_of
from assessments.hours.linear import INFINITE, Program, add, ones
from curriculum.requirements.amounts import CREDITED, Amount, Share
from curriculum.requirements.requirement_set import (
    TIMES,
    Accepts,
    Cap,
    RequirementSet,
    Total,
    Variety,
)

Terms = dict[int, Fraction]


class Model:
    """Columns by item and category (`given`), by kind and category (`further`), and the rows of every rule.

    `dropped` names rules to leave out (used to find which rules clash).
    """

    def __init__(self, clauses: Clauses, items: list[Item], dropped: frozenset[str] = frozenset()):
        self.clauses, self.items, self.dropped = clauses, items, dropped
        self.requirements: RequirementSet = clauses.requirements
        self.program = Program()
        self.given: dict[tuple[int, str], int] = {}
        self.further: dict[str, list[int]] = {}
        self.kinds: dict[str, Kinds] = {}
        self.shares: dict[tuple[str, int], dict[str, int]] = {}
        self.by_category: dict[str, list[tuple[int, int]]] = {one.id: [] for one in self.requirements.categories}
        self.chosen: dict[str, int] = {}
        self._credit_columns()
        self._further_columns()
        self._choices()
        self._categories()
        self._totals()
        for cap in self.requirements.limits:
            self._cap(cap, tuple(self.by_category), None)

    def _credit_columns(self) -> None:
        for index, item in enumerate(self.items):
            for name, credit in item.credit.items():
                self.given[index, name] = column = self.program.column(credit)
                self.by_category[name].append((index, column))
            if len(item.credit) > 1:
                whole = max(item.credit.values())
                terms = {self.given[index, name]: Fraction(whole, credit) for name, credit in item.credit.items()}
                self.program.row(terms, most=whole, name="entry")

    def _further_columns(self) -> None:
        for category in self.requirements.categories:
            kinds = kinds_of(self.clauses, category.id, self._own(category.id))
            self.kinds[category.id] = kinds
            self.further[category.id] = [self.program.column() for _ in kinds.cells]
            for number, group in enumerate(kinds.groups):
                self._share_columns(category.id, number, group)

    def _share_columns(self, category: str, number: int, group) -> None:
        known = [value for value in group.members if value != NEW]
        cells = [self.further[category][cell] for cell in group.cells]
        if not known or (len(known) == 1 and not group.open):
            return
        columns = {value: self.program.column() for value in known}
        self.shares[category, number] = columns
        terms = ones(columns.values())
        add(terms, ones(cells), -1)
        self.program.row(terms, most=0, least=-INFINITE if group.open else 0, name="kinds")

    def _own(self, category: str) -> dict[str, set[str]]:
        """The values of the entries that could be credited here, of the fields whose variety counts here."""
        found = {rule.of: set() for rule in self.requirements.category(category).variety}
        for name, values in found.items():
            for index, _ in self.by_category[category]:
                values.update(self.items[index].values.get(name, ()))
        return found

    def credited(self, categories: Iterable[str], accepts: Accepts) -> Terms:
        """Credit given in these categories by what matches."""
        bit, items = self.clauses.bit(accepts), self.items
        return {column: 1 for name in categories for index, column in self.by_category[name] if items[index].mask & bit}

    def still(self, categories: Iterable[str], accepts: Accepts) -> Terms:
        """Further minutes in these categories of the kinds that match."""
        bit = self.clauses.bit(accepts)
        return ones(
            self.further[name][cell]
            for name in categories
            for cell, mask in enumerate(self.kinds[name].cells)
            if mask & bit
        )

    def _further_by_value(self, counted: Counted) -> tuple[dict[str, Terms], Terms]:
        """Further minutes with each value a rule counts, and with a new one."""
        bit = self.clauses.bit(counted.rule.accepts)
        known: dict[str, Terms] = {}
        new: Terms = {}
        for name in counted.categories:
            for number, group in enumerate(self.kinds[name].groups):
                if group.field == counted.field and group.mask & bit:
                    self._split(name, number, group, known, new)
        return known, new

    def _split(self, name: str, number: int, group, known: dict[str, Terms], new: Terms) -> None:
        cells = ones(self.further[name][cell] for cell in group.cells)
        columns = self.shares.get((name, number), {})
        for value in group.members:
            if value != NEW:
                add(
                    known.setdefault(value, {}),
                    {columns[value]: 1} if columns else cells,
                )
        if group.open:
            add(new, cells)
            add(new, ones(columns.values()), -1)

    def end(self, name: str) -> Terms:
        """What is credited in the end: in a category, in a total, or ("") in all categories."""
        total = next((one for one in self.requirements.totals if one.id == name), None)
        if total:
            return self.matched(self.requirements.covered(total), total.accepts)
        categories = (name,) if name else tuple(self.by_category)
        return add(ones(column for one in categories for _, column in self.by_category[one]),
                   ones(column for one in categories for column in self.further[one]))  # fmt: skip

    def matched(self, categories: Iterable[str], accepts: Accepts) -> Terms:
        categories = tuple(categories)
        return add(self.credited(categories, accepts), self.still(categories, accepts))

    def _choices(self) -> None:
        for choice in self.requirements.choose:
            if choice.id in self.dropped:
                continue
            for member in choice.among:
                if member not in self.chosen:
                    self.chosen[member] = self.program.column(1, whole=True)
            self.program.row(
                ones(self.chosen[one] for one in choice.among),
                least=choice.at_least,
                name=choice.id,
            )

    def _floor(self, terms: Terms, least: Fraction | int, id: str, category: str = "") -> None:
        """A floor that always binds, or only if it (or else its category) is chosen."""
        choice = self.chosen.get(id, self.chosen.get(category))
        if id in self.dropped or least <= 0:
            return
        if choice is None:
            self.program.row(terms, least=least, name=id)
        else:
            self.program.row(add(dict(terms), {choice: -least}), least=0, name=id)

    def _categories(self) -> None:
        for one in self.requirements.categories:
            self._floor(self.end(one.id), one.at_least, one.id)
            if one.at_most is not None and one.id + " at_most" not in self.dropped:
                self._at_most(
                    self.end(one.id),
                    one.at_most,
                    (one.id,),
                    one.at_least,
                    one.id + " at_most",
                )
            for rule in one.of_which:
                self._floor(
                    self.matched((one.id,), rule.accepts),
                    rule.at_least,
                    rule.id,
                    one.id,
                )
            for cap in one.limits:
                self._cap(cap, (one.id,), one.at_least)
            for rule in one.variety:
                self._variety(Counted(rule, rule.of, (one.id,)), one.id)

    def _totals(self) -> None:
        for one in self.requirements.totals:
            self._floor(
                self.matched(self.requirements.covered(one), one.accepts),
                one.at_least,
                one.id,
            )

    def _at_most(
        self,
        terms: Terms,
        most: Amount,
        categories: tuple[str, ...],
        base: Fraction | None,
        id: str,
    ) -> None:
        if not isinstance(most, Share):
            self.program.row(terms, most=most, name=id)
        elif most.of == "":
            self.program.row(terms, most=most.part * (base or 0), name=id)
        else:
            whole = categories[0] if base is not None else ""
            end = self.end(whole if most.of == CREDITED else most.of)
            self.program.row(add(dict(terms), end, -most.part), most=0, name=id)

    def _cap(self, cap: Cap, categories: tuple[str, ...], base: Fraction | None) -> None:
        if cap.id in self.dropped:
            return
        if not cap.per:
            self._at_most(
                self.matched(categories, cap.accepts),
                cap.at_most,
                categories,
                base,
                cap.id,
            )
            return
        counted = Counted(cap, cap.per, categories)
        further = {} if cap.per in TIMES else self._further_by_value(counted)[0]
        for _value, terms in self._by_value(counted, further):
            self._at_most(terms, cap.at_most, categories, base, cap.id)

    def _by_value(self, counted: Counted, further: dict[str, Terms]) -> Iterator[tuple[str, Terms]]:
        bit = self.clauses.bit(counted.rule.accepts)
        found: dict[str, Terms] = {value: dict(terms) for value, terms in further.items()}
        for name in counted.categories:
            for index, column in self.by_category[name]:
                if self.items[index].mask & bit:
                    for value in self.items[index].values.get(counted.field, ()):
                        found.setdefault(value, {})[column] = 1
        yield from sorted(found.items())

    def _variety(self, counted: Counted, category: str) -> None:
        rule: Variety = counted.rule
        if rule.id in self.dropped:
            return
        known, new = (
            ({}, self.still((category,), rule.accepts)) if rule.of in TIMES else self._further_by_value(counted)
        )
        reached: Terms = {}
        for _, terms in self._by_value(counted, known):
            if self._could_reach(terms, rule.each):
                there = self.program.column(1, whole=True)
                self.program.row(add(terms, {there: -rule.each}), least=0, name=rule.id)
                reached[there] = 1
        if new:
            fresh = self.program.column(rule.at_least, whole=True)
            self.program.row(add(dict(new), {fresh: -rule.each}), least=0, name=rule.id)
            reached[fresh] = 1
        self._floor(reached, rule.at_least, rule.id, category)

    def _could_reach(self, terms: Terms, each: Fraction) -> bool:
        return sum(self.program.upper[column] for column in terms) >= each


__all__ = ["Model", "Total"]
