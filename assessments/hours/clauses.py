"""The rules of a set as clauses: what each asks of the fields, and which of them touch a category."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from operator import itemgetter

from curriculum.requirements.requirement_set import (
    TIMES,
    Accepts,
    Cap,
    Category,
    RequirementSet,
    Variety,
)


@dataclass(frozen=True, slots=True)
class Counted:
    """A rule that looks at each value of a field: a variety, or a cap `per` a field."""

    rule: Variety | Cap
    field: str
    categories: tuple[str, ...]
    overall: bool = False


class Clauses:
    """Every distinct `accepts` of a set has a number; a set of them is a bit mask."""

    def __init__(self, requirements: RequirementSet):
        self.requirements = requirements
        self.accepts: list[Accepts] = []
        self._numbers: dict[tuple, int] = {}
        self._known: dict[int, int] = {}
        self._seen: list[Accepts] = []  # keeps what `_known` names by its address
        self.touching: dict[str, list[int]] = {}
        self.counted = tuple(self._counted())
        for category in requirements.categories:
            self.touching[category.id] = sorted({self.number(one) for one in self._asked(category)})
        for one in self._conditions():
            self.number(one)
        self.named = sorted({name for one in self.accepts for name in one})
        self._every = itemgetter(*self.named) if len(self.named) > 1 else None
        self._masks: dict[tuple, int] = {}
        self._fields: dict[tuple[str, tuple[str, ...]], int] = {}

    def number(self, accepts: Accepts) -> int:
        """The number of a clause."""
        known = self._known.get(id(accepts))
        if known is not None:
            return known
        key = tuple(sorted((name, tuple(sorted(values))) for name, values in accepts.items()))
        if key not in self._numbers:
            self._numbers[key] = len(self.accepts)
            self.accepts.append(accepts)
        self._known[id(accepts)] = self._numbers[key]
        self._seen.append(accepts)
        return self._numbers[key]

    def mask(self, entry) -> int:
        """Which clauses the entry matches."""
        key = self._values(entry.fields)
        found = self._masks.get(key)
        if found is None:
            found = (1 << len(self.accepts)) - 1
            for name, values in zip(self.named, key, strict=True):
                found &= self._matched(name, values)
            self._masks[key] = found
        return found

    def _values(self, fields: Mapping[str, tuple[str, ...]]) -> tuple:
        if self._every is not None:
            try:
                return self._every(fields)
            except KeyError:
                pass
        return tuple([fields.get(name, ()) for name in self.named])

    def _matched(self, name: str, values: tuple[str, ...]) -> int:
        """The clauses that these values of a field leave matched."""
        found = self._fields.get((name, values))
        if found is None:
            asked = ((1 << i, one.get(name)) for i, one in enumerate(self.accepts))
            found = sum(bit for bit, some in asked if some is None or any(value in some for value in values))
            self._fields[name, values] = found
        return found

    def bit(self, accepts: Accepts) -> int:
        """The bit of a clause in a mask."""
        return 1 << self.number(accepts)

    def _conditions(self) -> Iterator[Accepts]:
        """What weights and gates ask of entries."""
        for category in self.requirements.categories:
            yield from (weight.accepts for weight in category.credit.weights)
        for gate in self.requirements.gates:
            yield from (condition.accepts for condition in gate.when)

    def _asked(self, category: Category) -> Iterator[Accepts]:
        yield category.accepts
        for rule in (*category.of_which, *category.limits, *category.variety):
            yield rule.accepts
        for total in self.requirements.totals:
            if category.id in self.requirements.covered(total):
                yield total.accepts
        for cap in self.requirements.limits:
            yield cap.accepts

    def _counted(self) -> Iterator[Counted]:
        every = tuple(one.id for one in self.requirements.categories)
        for category in self.requirements.categories:
            for rule in category.variety:
                yield Counted(rule, rule.of, (category.id,))
            for cap in category.limits:
                if cap.per:
                    yield Counted(cap, cap.per, (category.id,))
        for cap in self.requirements.limits:
            if cap.per:
                yield Counted(cap, cap.per, every, overall=True)

    def counting(self, category: str) -> Mapping[str, list[Counted]]:
        """The rules that look at each value of a field in this category, by field."""
        found: dict[str, list[Counted]] = {}
        for one in self.counted:
            if category in one.categories and one.field not in TIMES:
                found.setdefault(one.field, []).append(one)
        return found
