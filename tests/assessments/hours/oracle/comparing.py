"""Holds the command's answer against the second solution; every difference is a sentence."""

from collections import Counter
from fractions import Fraction

from tests.assessments.hours.oracle.answer import Answer, can_be_met, floor_minutes, waiting_minutes
from tests.assessments.hours.oracle.command import Outcome
from tests.assessments.hours.oracle.credit import Case, credit
from tests.assessments.hours.oracle.documents import Facts, RequirementSet, read_facts, read_log, read_set
from tests.assessments.hours.oracle.strategies import Files

MINUTE = 1 + 1e-3
A_FEW = 10


def case_of(files: Files) -> Case:
    entries = next(iter(read_log(files.log_text).values()))
    facts = read_facts(files.facts_text)["t1"] if files.facts_text else Facts()
    return Case(read_set(files.set_text), entries, files.as_of, files.enrolled, facts)


def differences(files: Files, outcome: Outcome) -> list[str]:
    case = case_of(files)
    if not can_be_met(case):
        refused = outcome.status == 2 and not outcome.answers
        return [] if refused else [f"nobody can meet this set; status {outcome.status}: {outcome.faults}"]
    if outcome.status != 0:
        return [f"refused with {outcome.status}: {outcome.faults}"]
    mine, theirs = Answer(case), outcome.answers[0]
    return [
        *compare("further_minutes", theirs["further_minutes"], mine.further),
        *compare("credited_minutes", theirs["credited_minutes"], mine.credited),
        *compare("waiting_minutes", theirs["waiting_minutes"], waiting_minutes(case, mine), 2),
        *compare_categories(mine, theirs),
        *compare_rules(mine, theirs),
        *compare_picture(mine, theirs),
        *unaccounted(case, theirs),
    ]


def compare(name: str, theirs: float, mine: float, within: float = MINUTE) -> list[str]:
    return [] if abs(theirs - mine) <= within else [f"{name}: command {theirs}, second solution {mine:.3f}"]


def compare_categories(mine: Answer, theirs: dict) -> list[str]:
    found = []
    for category, answer in zip(mine.case.requirements.categories, theirs["categories"], strict=True):
        assert answer["id"] == category.id
        found += compare(f"{category.id} needed", answer["needed"], float(category.at_least))
        found += compare(f"{category.id} credited", answer["credited"], mine.credited_to(category.id))
        least = mine.further_at_least(category.id)
        if all(abs(answer["further_at_least"] - one) > MINUTE for one in least):
            found.append(f"{category.id} further at least: command {answer['further_at_least']}, second {least}")
    return found


def needed_by(requirements: RequirementSet) -> dict[str, Fraction]:
    needed = {total.id: total.at_least for total in requirements.totals}
    for category in requirements.categories:
        needed |= {inner.id: floor_minutes(inner, category) for inner in category.floors}
        needed |= {variety.id: Fraction(variety.at_least) for variety in category.varieties}
    return needed


def compare_rules(mine: Answer, theirs: dict) -> list[str]:
    needed = needed_by(mine.case.requirements)
    answers = {rule["id"]: rule for rule in theirs["rules"]}
    expected = set(needed) | {choice.id for choice in mine.case.requirements.choices}
    found = [] if set(answers) == expected else [f"rules: {sorted(set(answers) ^ expected)}"]
    for name, amount in needed.items():
        rule = answers[name]
        found += compare(f"{name} needed", rule["needed"], float(amount))
        found += compare(f"{name} short", rule["short"], max(0, rule["needed"] - rule["met"]))
        least, most = mine.met_between(name)
        if not least - MINUTE <= rule["met"] <= most + MINUTE:
            found.append(f"{name} met: command {rule['met']}, second solution {least:.3f} to {most:.3f}")
    return found


def unaccounted(case: Case, theirs: dict) -> list[str]:
    """Every logged minute of an entry is given or set aside, unless a rule gives it more than was logged."""
    found = []
    given, aside = minutes_by_entry(theirs["given"]), minutes_by_entry(theirs["set_aside"])
    for entry in case.entries:
        most = max(credit(case, entry, category) for category in case.requirements.categories)
        logged, accounted = entry.minutes, given[entry.id] + aside[entry.id]
        if accounted < logged or (accounted > logged and most <= logged):
            found.append(f"{entry.id}: {logged} logged, {given[entry.id]} given, {aside[entry.id]} set aside")
    return found


def minutes_by_entry(lines: list[dict]) -> Counter:
    minutes: Counter = Counter()
    for line in lines:
        minutes[line["entry"]] += line["minutes"]
    return minutes


def compare_picture(mine: Answer, theirs: dict) -> list[str]:
    """The whole minutes of the entries keep every cap, and cost at most a few minutes more than the optimum."""
    given = {(line["entry"], line["category"]): line["minutes"] for line in theirs["given"]}
    earned = {(entry.id, category.id): amount for entry, category, amount in mine.plan.earned}
    found = [
        f"{pair}: given {m} of {earned.get(pair)}" for pair, m in given.items() if not 0 < m < earned.get(pair, 0) + 1
    ]
    further = mine.further_if_given(given)
    if further > mine.further + A_FEW:
        found.append(f"picture: further would be {further:.3f}, optimum {mine.further:.3f}")
    for answer in theirs["categories"]:
        minutes = sum(m for (_, category), m in given.items() if category == answer["id"])
        found += compare(f"{answer['id']} picture", minutes, answer["credited"], A_FEW)
    return found
