"""How far each floor of a set is met by what is credited."""

from collections.abc import Iterator

from assessments.hours.items import Item
from assessments.hours.model import Model
from assessments.hours.standing import RuleStanding, down, up
from curriculum.requirements.requirement_set import (
    Accepts,
    Category,
    RequirementSet,
    Variety,
)

NOISE = 1e-3


class Met:
    """What is credited, seen rule by rule; `values` are the variables of a model that keeps entries apart."""

    def __init__(self, model: Model, values: list[float]):
        self.model, self.values = model, values
        self.requirements: RequirementSet = model.requirements

    def minutes(self, categories: tuple[str, ...], accepts: Accepts) -> float:
        return sum(self.values[column] for column in self.model.credited(categories, accepts))

    def distinct(self, category: str, rule: Variety) -> int:
        """How many values have `each` minutes of matching credit."""
        bit = 1 << self.model.clauses.number(rule.accepts)
        sums: dict[str, float] = {}
        for index, column in self.model.by_category[category]:
            item: Item = self.model.items[index]
            if item.mask & bit:
                for value in item.values.get(rule.of, ()):
                    sums[value] = sums.get(value, 0.0) + self.values[column]
        return sum(total >= float(rule.each) - NOISE for total in sums.values())

    def rules(self) -> Iterator[RuleStanding]:
        """Every floor besides the categories' own."""
        for category in self.requirements.categories:
            for rule in category.of_which:
                met = self.minutes((category.id,), rule.accepts)
                yield _minutes(rule, "of_which", category.id, met)
            for rule in category.variety:
                yield _count(rule, "variety", category.id, self.distinct(category.id, rule))
        for total in self.requirements.totals:
            yield _minutes(
                total,
                "total",
                "",
                self.minutes(self.requirements.covered(total), total.accepts),
            )
        for choice in self.requirements.choose:
            yield _count(choice, "choose", "", sum(self._holds(one) for one in choice.among))

    def _holds(self, member: str) -> bool:
        for category in self.requirements.categories:
            if category.id == member:
                return self._category_holds(category)
            for rule in category.of_which:
                if rule.id == member:
                    return self.minutes((category.id,), rule.accepts) >= rule.at_least - NOISE
            for rule in category.variety:
                if rule.id == member:
                    return self.distinct(category.id, rule) >= rule.at_least
        total = next(one for one in self.requirements.totals if one.id == member)
        return self.minutes(self.requirements.covered(total), total.accepts) >= total.at_least - NOISE

    def _category_holds(self, category: Category) -> bool:
        elsewhere = {member for choice in self.requirements.choose for member in choice.among}
        own = self.minutes((category.id,), category.accepts) >= category.at_least - NOISE
        inner = (rule.id for rule in (*category.of_which, *category.variety) if rule.id not in elsewhere)
        return own and all(self._holds(one) for one in inner)


def _minutes(rule: object, kind: str, category: str, met: float) -> RuleStanding:
    """What is short is taken before rounding: a floor of 199.8 min met by 199.8 is met, and shows 200 of 200."""
    needed, short = up(rule.at_least), up(rule.at_least - met)
    shown = needed - short if short else max(needed, down(met))
    return RuleStanding(rule.id, rule.title, kind, category, needed, shown, short)


def _count(rule: object, kind: str, category: str, met: int) -> RuleStanding:
    return RuleStanding(
        rule.id,
        rule.title,
        kind,
        category,
        rule.at_least,
        met,
        max(0, rule.at_least - met),
    )
