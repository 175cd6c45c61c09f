"""A trainee's standing in hours: credit, the program, the picture by entry, and the plan."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from assessments.hours.asides import set_aside
from assessments.hours.calendar import earliest_end
from assessments.hours.clauses import Clauses
from assessments.hours.credit import Dates, Earned, Earning, dates_of
from assessments.hours.entry import Entry, Facts
from assessments.hours.items import items_of
from assessments.hours.model import Model
from assessments.hours.planning import plan_of
from assessments.hours.rule_standing import Met
from assessments.hours.solution import Optimum, optimum
from assessments.hours.standing import (
    CategoryStanding,
    Given,
    RuleStanding,
    Standing,
    down,
    up,
)
from assessments.hours.whole import whole_minutes
from curriculum.requirements.requirement_set import RequirementSet

NO_FACTS = Facts()


def assess(
    requirements: RequirementSet,
    entries: Iterable[Entry],
    facts: Facts = NO_FACTS,
    *,
    as_of: date,
    enrolled: date | None = None,
) -> Standing:
    """The standing on the day `as_of`; without `enrolled` no window is applied.

    Raises `Unmeetable` for a set that nobody could meet (see `check`).
    """
    entries = tuple(sorted(entries, key=lambda one: (one.date, one.id)))
    clauses = Clauses(requirements)
    now = Assessment(clauses, entries, facts, as_of, enrolled)
    met = tuple(now.met.rules())
    later = now
    if any(one.state == "waiting" for one in entries):
        signed = tuple(replace(one, state="signed_off") if one.state == "waiting" else one for one in entries)
        later = Assessment(clauses, signed, facts, as_of, enrolled)
    rules = _with_waiting(met, tuple(later.met.rules()) if later is not now else met)
    return Standing(
        as_of=as_of,
        enrolled=enrolled,
        window_applied=now.dates.end is not None,
        further_minutes=up(now.best.further),
        credited_minutes=down(now.best.credited),
        waiting_minutes=down(later.best.credited) - down(now.best.credited),
        categories=tuple(_category(one, now.best, later.best) for one in requirements.categories),
        rules=rules,
        given=tuple(now.given_lines()),
        set_aside=tuple(set_aside(requirements, now.held, now.model, now.best.values, now.given)),
        plan=plan_of(requirements, now.best, rules, as_of, now.dates.end),
        earliest_end=earliest_end(requirements.window, enrolled, facts, as_of) if enrolled else None,
    )


class Assessment:
    """One solving of the program."""

    def __init__(
        self,
        clauses: Clauses,
        entries: tuple[Entry, ...],
        facts: Facts,
        as_of: date,
        enrolled: date | None,
    ):
        masks = [clauses.mask(one) for one in entries]
        masked = list(zip(entries, masks, strict=True))
        self.dates: Dates = dates_of(clauses, masked, facts, as_of, enrolled)
        earning = Earning(clauses, self.dates)
        self.held: list[tuple[Entry, Earned]] = [(entry, earning.of(entry, mask)) for entry, mask in masked]
        self.model = Model(clauses, items_of(clauses, self.held, masks))
        self.best: Optimum = optimum(self.model)
        self.met = Met(self.model, self.best.values)
        self.given = whole_minutes(self.model, self.best.values)

    def given_lines(self) -> Iterable[Given]:
        """Whole minutes by entry and category, in the order of the log."""
        for (index, name), column in self.model.given.items():
            if self.given[column]:
                yield Given(self.model.items[index].entry.id, name, self.given[column])


def _category(one, now: Optimum, later: Optimum) -> CategoryStanding:
    credited = down(now.by_category[one.id])
    return CategoryStanding(
        id=one.id,
        title=one.title,
        needed=up(one.at_least),
        credited=credited,
        waiting=down(later.by_category[one.id]) - credited,
        further_at_least=up(now.further_at_least[one.id]),
    )


def _with_waiting(now: tuple[RuleStanding, ...], later: tuple[RuleStanding, ...]) -> tuple[RuleStanding, ...]:
    return tuple(replace(one, waiting=after.met - one.met) for one, after in zip(now, later, strict=True))
