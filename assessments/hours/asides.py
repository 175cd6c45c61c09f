"""Why logged minutes earn nothing: one line per entry and reason."""

from collections.abc import Iterator

from assessments.hours.credit import Earned, conversion_reason
from assessments.hours.entry import Entry
from assessments.hours.model import Model
from assessments.hours.standing import SetAside, down
from curriculum.requirements.amounts import Share
from curriculum.requirements.requirement_set import RequirementSet

PRECEDENCE = (
    "before_gate", "lapsed", "after_window", "before_enrolment", "after_as_of", "waiting", "not_sent", "sent_back",
    "withdrawn", "proof_not_accepted", "rounded_down", "weighted",
)  # fmt: skip
TIGHT = 1.5


def set_aside(
    requirements: RequirementSet, held: list[tuple[Entry, Earned]], model: Model, values: list[float],
    given: dict[int, int],
) -> Iterator[SetAside]:  # fmt: skip
    """Every logged minute that is not credited."""
    place = {item.entry.id: index for index, item in enumerate(model.items)}
    codes = cap_codes(requirements)
    rows = _tight_rows(model, values, codes)
    for entry, earned in held:
        if not earned.minutes:
            reason, rule = _nothing(earned)
            if entry.minutes:
                yield SetAside(entry.id, entry.minutes, reason, rule)
        else:
            yield from _partly(requirements, entry, earned, model, place[entry.id], given, rows, codes)


def _nothing(earned: Earned) -> tuple[str, str]:
    if not earned.reasons:
        return "no_category", ""
    return min(
        ((reason, name) for name, reason in earned.reasons.items()),
        key=lambda one: PRECEDENCE.index(one[0]),
    )


def _partly(requirements, entry, earned, model, index, given, rows, codes) -> Iterator[SetAside]:
    columns = {name: model.given[index, name] for name in earned.minutes}
    credited = {name: given[column] for name, column in columns.items()}
    aside = entry.minutes - sum(credited.values())
    if aside <= 0:
        return
    used = [name for name in credited if credited[name]] or list(credited)
    best = max(used, key=lambda name: earned.minutes[name])
    converted = min(aside, max(0, entry.minutes - down(earned.minutes[best])))
    if converted:
        yield SetAside(
            entry.id,
            converted,
            conversion_reason(entry, requirements.category(best)),
            best,
        )
    if aside > converted:
        found = {row for column in columns.values() for row in rows.get(column, ())}
        rule = min(found, key=lambda name: list(codes).index(name), default="")
        reason = codes.get(rule, "other_rules")
        yield SetAside(entry.id, aside - converted, reason, rule.removesuffix(" at_most"))


def _tight_rows(model: Model, values: list[float], codes: dict[str, str]) -> dict[int, set[str]]:
    """The caps that bind, by column."""
    found: dict[int, set[str]] = {}
    program = model.program
    for number, row in enumerate(program.rows):
        if program.names[number] in codes and program.most[number] != float("inf"):
            used = sum(float(coefficient) * values[column] for column, coefficient in row.items())
            if used > program.most[number] - TIGHT:
                for column, coefficient in row.items():
                    if coefficient > 0:
                        found.setdefault(column, set()).add(program.names[number])
    return found


def cap_codes(requirements: RequirementSet) -> dict[str, str]:
    """The reason's code of every cap, the narrowest first."""
    inner = [cap for category in requirements.categories for cap in category.limits]
    found = {}
    for overall, caps in ((False, inner), (True, requirements.limits)):
        for cap in sorted(
            caps,
            key=lambda one: ("session", "day", "week").index(one.per) if one.per in ("session", "day", "week") else 9,
        ):
            found[cap.id] = _code(cap, overall)
    full = {category.id + " at_most": "category_full" for category in requirements.categories}
    return found | full


def _code(cap, overall: bool) -> str:
    if cap.per in ("day", "week", "session"):
        return f"{cap.per}_cap"
    if cap.per:
        return "value_cap"
    if isinstance(cap.at_most, Share):
        return "share_cap"
    return "overall_cap" if overall else "part_cap"
