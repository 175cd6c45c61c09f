"""Reads a requirement set, a log and facts into plain values, with PyYAML and csv alone.

Every scalar is text as written; minutes are Fractions, so that nothing is rounded on the way.
"""

import csv
import io
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction

import yaml

COLUMNS = ("trainee", "id", "date", "minutes", "activity", "state")


@dataclass(frozen=True)
class Entry:
    id: str
    date: date
    minutes: int
    state: str
    fields: dict[str, tuple[str, ...]]  # an empty value is an empty tuple


@dataclass(frozen=True)
class Bound:
    """An amount of minutes, or a share: of the category's at_least, of what is credited, or of another's end amount."""

    minutes: Fraction | None = None
    share: Fraction | None = None
    of: str | None = None  # None: the category's at_least; "credited"; or an id


@dataclass(frozen=True)
class Floor:
    id: str
    accepts: dict[str, list[str]]
    at_least: Bound


@dataclass(frozen=True)
class Cap:
    id: str
    accepts: dict[str, list[str]]
    per: str | None
    at_most: Bound


@dataclass(frozen=True)
class Variety:
    id: str
    of: str
    accepts: dict[str, list[str]]
    at_least: int
    each: Fraction


@dataclass(frozen=True)
class Category:
    id: str
    accepts: dict[str, list[str]]
    counts: list[str]
    at_least: Fraction
    at_most: Bound | None
    floors: list[Floor]
    caps: list[Cap]
    varieties: list[Variety]
    round_down_to: Fraction | None
    sessions: list[tuple[Fraction, Fraction, Fraction]]  # from, to, as
    weights: list[tuple[dict[str, list[str]], Fraction]]


@dataclass(frozen=True)
class Total:
    id: str
    of: list[str]
    accepts: dict[str, list[str]]
    at_least: Fraction


@dataclass(frozen=True)
class Choice:
    id: str
    at_least: int
    among: list[str]


@dataclass(frozen=True)
class Gate:
    id: str
    category: str
    when: list[dict]  # minutes conditions hold "minutes" and "accepts" beside what was written


@dataclass(frozen=True)
class RequirementSet:
    fields: dict[str, list[str]]
    window: dict[str, int]
    categories: list[Category]
    totals: list[Total]
    caps: list[Cap]
    choices: list[Choice]
    gates: list[Gate]

    def category(self, name: str) -> Category:
        return next(c for c in self.categories if c.id == name)


@dataclass(frozen=True)
class Facts:
    practicals: dict[str, date] = field(default_factory=dict)
    modules: dict[str, date] = field(default_factory=dict)
    documents: dict[str, tuple[date, date]] = field(default_factory=dict)
    extensions: list[date] = field(default_factory=list)
    leave: list[tuple[date, date]] = field(default_factory=list)


def load(text: str):
    return yaml.load(text, Loader=yaml.BaseLoader)


def read_set(text: str) -> RequirementSet:
    doc = load(text)
    unit = minutes_of(doc.get("unit", "60 min"), Fraction(60))
    counts = as_list(doc.get("counts", ["signed_off"]))
    categories = [read_category(c, unit, counts) for c in doc["categories"]]
    units = {c["id"]: minutes_of(c["unit"], unit) if "unit" in c else unit for c in doc["categories"]}
    ids = [c.id for c in categories]
    return RequirementSet(
        fields={name: as_list(values) for name, values in doc.get("fields", {}).items()},
        window={name: int(value) for name, value in doc.get("window", {}).items()},
        categories=categories,
        totals=[
            Total(
                t["id"],
                ids if t["of"] == "all" else as_list(t["of"]),
                accepts_of(t),
                minutes_of(t["at_least"], unit),
            )
            for t in doc.get("totals", [])
        ],
        caps=[read_cap(c, unit) for c in doc.get("limits", [])],
        choices=[Choice(c["id"], int(c["at_least"]), as_list(c["among"])) for c in doc.get("choose", [])],
        gates=[read_gate(g, unit, units) for g in doc.get("gates", [])],
    )


def read_category(doc: dict, set_unit: Fraction, set_counts: list[str]) -> Category:
    unit = minutes_of(doc["unit"], set_unit) if "unit" in doc else set_unit
    credit = doc.get("credit", {})
    return Category(
        id=doc["id"],
        accepts=accepts_of(doc),
        counts=as_list(doc["counts"]) if "counts" in doc else set_counts,
        at_least=minutes_of(doc["at_least"], unit),
        at_most=bound_of(doc["at_most"], unit) if "at_most" in doc else None,
        floors=[Floor(f["id"], accepts_of(f), bound_of(f["at_least"], unit)) for f in doc.get("of_which", [])],
        caps=[read_cap(c, unit) for c in doc.get("limits", [])],
        varieties=[
            Variety(v["id"], v["of"], accepts_of(v), int(v["at_least"]), minutes_of(v.get("each", "1 min"), unit))
            for v in doc.get("variety", [])
        ],
        round_down_to=minutes_of(credit["round_down_to"], unit) if "round_down_to" in credit else None,
        sessions=[
            tuple(minutes_of(line[key], Fraction(60)) for key in ("from", "to", "as"))
            for line in credit.get("sessions", [])
        ],
        weights=[(accepts_of(line), share_of(line["as"])) for line in credit.get("weights", [])],
    )


def read_cap(doc: dict, unit: Fraction) -> Cap:
    return Cap(doc["id"], accepts_of(doc), doc.get("per"), bound_of(doc["at_most"], unit))


def read_gate(doc: dict, unit: Fraction, units: dict[str, Fraction]) -> Gate:
    when = []
    for condition in doc["when"]:
        condition = dict(condition)
        if "at_least" in condition:
            condition["minutes"] = minutes_of(condition["at_least"], units.get(condition.get("category"), unit))
            condition["accepts"] = accepts_of(condition)
        when.append(condition)
    return Gate(doc["id"], doc["category"], when)


def accepts_of(doc: dict) -> dict[str, list[str]]:
    return {name: as_list(value) for name, value in doc.get("accepts", {}).items()}


def as_list(value) -> list[str]:
    return value if isinstance(value, list) else [value]


def minutes_of(text: str, unit: Fraction) -> Fraction:
    number, measure = text.split()
    return Fraction(number) * {"h": unit, "min": Fraction(1)}[measure]


def share_of(text: str) -> Fraction:
    return Fraction(text.removesuffix("%").strip()) / 100


def bound_of(text: str, unit: Fraction) -> Bound:
    if "%" not in text:
        return Bound(minutes=minutes_of(text, unit))
    share, _, base = text.partition("%")
    base = base.strip().removeprefix("of ").strip()
    return Bound(share=Fraction(share.strip()) / 100, of=base or None)


def read_log(text: str) -> dict[str, list[Entry]]:
    """Every trainee's entries in (date, id) order."""
    logs: dict[str, list[Entry]] = {}
    for row in csv.DictReader(io.StringIO(text)):
        fields = {
            name: tuple(dict.fromkeys(v.strip() for v in value.split("|") if v.strip()))
            for name, value in row.items()
            if name not in COLUMNS or name == "activity"
        }
        day = date.fromisoformat(row["date"])
        year, week, _ = day.isocalendar()
        fields |= {"day": (row["date"],), "week": (f"{year}-W{week:02}",)}
        logs.setdefault(row["trainee"], []).append(Entry(row["id"], day, int(row["minutes"]), row["state"], fields))
    return {trainee: sorted(entries, key=lambda e: (e.date, e.id)) for trainee, entries in logs.items()}


def read_facts(text: str) -> dict[str, Facts]:
    return {trainee: facts_of(doc) for trainee, doc in load(text).items()}


def facts_of(doc: dict) -> Facts:
    day = date.fromisoformat
    return Facts(
        practicals={name: day(d) for name, d in doc.get("practicals", {}).items()},
        modules={name: day(d) for name, d in doc.get("modules", {}).items()},
        documents={name: (day(d["from"]), day(d["to"])) for name, d in doc.get("documents", {}).items()},
        extensions=[day(d) for d in doc.get("extensions", [])],
        leave=[(day(d["from"]), day(d["to"])) for d in doc.get("leave", [])],
    )
