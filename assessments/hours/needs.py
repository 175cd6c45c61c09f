"""What a trainee still needs in lessons of others: by category, and by the floors inside that are short."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from assessments.hours.standing import Standing
from curriculum.requirements.requirement_set import Accepts, Category, RequirementSet


@dataclass(frozen=True, slots=True)
class Need:
    """At least so many minutes of what has these values (the first of those allowed); `rule` a floor's id, or ""."""

    category: str
    title: str
    minutes: int
    fields: Mapping[str, str]
    rule: str = ""


def needs(requirements: RequirementSet, standing: Standing) -> tuple[Need, ...]:
    """Only what a host's signature earns, in the order of the set; a floor comes before the rest of its category.

    Minutes are those still to do in any way of finishing soonest: what may be done in any of several is not told twice.
    """
    short = {one.id: one.short for one in standing.rules if one.kind == "of_which" and one.short}
    further = {one.id: one.further_at_least for one in standing.categories}
    signed = [one for one in requirements.categories if "signed_off" in one.counts and "activity" in one.accepts]
    return tuple(need for one in signed if further[one.id] for need in _of(one, further[one.id], short))


def _of(category: Category, further: int, short: Mapping[str, int]) -> Iterator[Need]:
    for floor in category.of_which:
        if floor.id in short:
            fields = _first({**category.accepts, **floor.accepts})
            yield Need(category.id, floor.title or floor.id, short[floor.id], fields, floor.id)
    yield Need(category.id, category.name, further, _first(category.accepts))


def _first(accepts: Accepts) -> dict[str, str]:
    return {name: values[0] for name, values in accepts.items() if values}
