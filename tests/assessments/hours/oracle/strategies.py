"""Small invented requirement sets, logs and facts with every rule of the format, as the text of files."""

from dataclasses import dataclass
from datetime import date, timedelta

import yaml
from hypothesis import strategies as st

MODES = ["live", "live_remote", "recorded"]
ACTIVITIES = ["observing", "teaching", "lecture"]
OPEN_VALUES = {"apparatus": ["mat", "reformer", "chair"], "host": ["h1", "h2", "h3"], "client": ["c1", "c2", "c3"]}
STATES = ["signed_off"] * 12 + ["accepted", "registered", "attested", "waiting", "waiting", "not_sent", "withdrawn"]
AS_OF = date(2026, 6, 30)
ENROLLED = date(2026, 1, 31)
PRESENT = "x"


@dataclass(frozen=True)
class Files:
    set_text: str
    log_text: str
    facts_text: str | None
    enrolled: date | None
    as_of: date = AS_OF


def filters(names: list[str]) -> st.SearchStrategy:
    """`accepts` with at most one of the fields."""

    def value_of(name: str) -> st.SearchStrategy:
        values = MODES if name == "mode" else OPEN_VALUES[name]
        return st.one_of(
            st.sampled_from(values), st.lists(st.sampled_from(values), min_size=1, max_size=2, unique=True)
        )

    one = st.sampled_from(names).flatmap(lambda name: st.fixed_dictionaries({name: value_of(name)}))
    return one.map(lambda accepts: {"accepts": accepts})


NO_FILTER = st.just({})
FLOORS = st.sampled_from(["20 min", "45 min", "1 h", "90 min", "2 h", "15 %", "30 %", "50 %", "33.3 %"])
NEEDS = st.sampled_from(["2 h", "3 h", "200 min", "5 h", "7 h", "10 h"])
CEILINGS = st.sampled_from(["30 min", "1 h", "100 min", "2 h", "3 h", "4 h"])
SHARES = st.sampled_from(["10 %", "25 %", "50 %", "60 %", "75 %", "33.3 %"])
STEPS = st.sampled_from(["1 min", "15 min", "30 min", "1 h", "100 min"])


@st.composite
def caps(draw: st.DrawFn, names: list[str], bases: list[str], *, inside: bool) -> dict:
    cap = dict(draw(st.one_of(NO_FILTER, filters(names))))
    per = draw(st.sampled_from([None, None, "day", "week", "session", *names]))
    if per:
        cap["per"] = per
    whole = len(cap) == 0  # a share of the category on the whole of it would shut it
    kinds = ["duration", *(["plain", "credited"] if inside and not whole else []), *(["of", "of"] if bases else [])]
    kind = draw(st.sampled_from(kinds))
    if kind == "duration":
        cap["at_most"] = draw(st.sampled_from(["6 h", "10 h", "11 h"]) if whole else CEILINGS)
    elif kind == "of":
        cap["at_most"] = (
            f"{draw(st.sampled_from([60, 100, 150, 200] if whole else [10, 20, 35, 50, 100]))} % of {draw(st.sampled_from(bases))}"
        )
    else:
        cap["at_most"] = draw(SHARES) + (" of credited" if kind == "credited" else "")
    return cap


@st.composite
def floors(draw: st.DrawFn, names: list[str]) -> dict:
    return draw(filters(names)) | {"at_least": draw(FLOORS)}


@st.composite
def varieties(draw: st.DrawFn, names: list[str]) -> dict:
    rule = {"of": draw(st.sampled_from(["day", "week", "session", *names, *names]))}
    rule |= draw(st.one_of(NO_FILTER, NO_FILTER, filters(names)))
    rule["at_least"] = str(draw(st.integers(1, 4)))
    each = draw(st.one_of(st.none(), STEPS))
    return rule | ({"each": each} if each else {})


@st.composite
def categories(draw: st.DrawFn, number: int, names: list[str], ids: list[str]) -> dict:
    own = f"k{number}"
    wanted = draw(st.lists(st.sampled_from(ACTIVITIES), min_size=2, max_size=3, unique=True))
    doc: dict = {"id": own, "accepts": {"activity": wanted}, "at_least": draw(NEEDS)}
    if draw(st.integers(0, 5)) == 0:
        doc["accepts"] |= draw(filters(names))["accepts"]
    if draw(st.integers(0, 3)) == 0:
        doc["at_most"] = draw(st.sampled_from(["12 h", "100 %", "130 %", "150 %"]))
    if draw(st.integers(0, 3)) == 0:
        doc["counts"] = draw(st.sampled_from([["registered", "signed_off"], ["signed_off", "attested"], ["accepted"]]))
    if draw(st.integers(0, 3)) == 0:
        doc["unit"] = draw(st.sampled_from(["45 min", "50 min"]))
    if draw(st.integers(0, 2)) == 0:
        doc["credit"] = draw(credits(names))
    others = [i for i in ids if i != own]
    for key, rules, most in (
        ("of_which", floors(names), 2),
        ("limits", caps(names, others, inside=True), 2),
        ("variety", varieties(names), 2),
    ):
        found = [draw(rules) for _ in range(draw(st.integers(0, most)))]
        if found:
            doc[key] = [{"id": f"{own}-{key}-{i}"} | rule for i, rule in enumerate(found)]
    return doc


@st.composite
def credits(draw: st.DrawFn, names: list[str]) -> dict:
    doc: dict = {}
    if draw(st.booleans()):
        doc["round_down_to"] = draw(st.sampled_from(["5 min", "15 min", "30 min"]))
    if draw(st.booleans()):
        lines = [{"from": "50 min", "to": "60 min", "as": "1 h"}, {"from": "30 min", "to": "55 min", "as": "45 min"}]
        doc["sessions"] = draw(st.sampled_from([lines, lines[:1], lines[::-1]]))
    if not doc or draw(st.booleans()):
        one = st.tuples(filters(names), st.sampled_from(["50 %", "25 %", "150 %", "0 %"]))
        doc["weights"] = [line | {"as": share} for line, share in draw(st.lists(one, min_size=1, max_size=2))]
    return doc


@st.composite
def conditions(draw: st.DrawFn, names: list[str], ids: list[str]) -> dict:
    kind = draw(st.sampled_from(["category", "category", "total", "practical", "document", "module"]))
    if kind in ("practical", "document", "module"):
        return {kind: PRESENT}
    where = {"total": "all"} if kind == "total" else {"category": draw(st.sampled_from(ids))}
    narrowed = draw(st.one_of(NO_FILTER, filters(names)))
    return where | narrowed | {"at_least": draw(st.sampled_from(["30 min", "1 h", "2 h", "4 h"]))}


@st.composite
def requirement_sets(draw: st.DrawFn) -> dict:
    names = draw(st.lists(st.sampled_from(["mode", *OPEN_VALUES]), min_size=2, max_size=2, unique=True))
    ids = [f"k{i}" for i in range(draw(st.sampled_from([1, 2, 2, 3])))]
    totals = [f"total-{i}" for i in range(draw(st.sampled_from([0, 0, 1, 1, 2])))]
    doc: dict = {"title": "Invented certificate"}
    if draw(st.integers(0, 4)) == 0:
        doc["unit"] = "45 min"
    if draw(st.booleans()):
        doc["counts"] = ["signed_off", "accepted"]
    if draw(st.booleans()):
        doc["fields"] = {"mode": MODES}
    if draw(st.integers(0, 3)) == 0:
        doc["window"] = draw(windows())
    doc["categories"] = [draw(categories(i, names, [*ids, *totals])) for i in range(len(ids))]
    doc["totals"] = [{"id": name} | draw(total_rules(names, ids)) for name in totals]
    if draw(st.integers(0, 2)) == 0:
        found = draw(st.lists(caps(names, [*ids, *totals], inside=False), min_size=1, max_size=2))
        doc["limits"] = [{"id": f"limit-{i}"} | rule for i, rule in enumerate(found)]
    if draw(st.integers(0, 2)) == 0:
        doc["choose"] = [draw(choices(doc))]
    if draw(st.integers(0, 3)) == 0:
        doc["gates"] = [draw(gates(i, names, ids)) for i in range(draw(st.integers(1, 2)))]
    return {key: value for key, value in doc.items() if value}


@st.composite
def total_rules(draw: st.DrawFn, names: list[str], ids: list[str]) -> dict:
    of = draw(st.one_of(st.just("all"), st.lists(st.sampled_from(ids), min_size=1, unique=True)))
    narrowed = draw(st.one_of(NO_FILTER, filters(names)))
    return (
        {"of": of} | narrowed | {"at_least": draw(st.sampled_from(["2 h", "5 h", "400 min", "10 h", "15 h", "20 h"]))}
    )


@st.composite
def windows(draw: st.DrawFn) -> dict:
    window = {"months": str(draw(st.integers(2, 6)))}
    if draw(st.booleans()):
        window["extension_months"] = str(draw(st.integers(1, 2)))
    if draw(st.booleans()):
        window["lapses_after_months"] = draw(st.sampled_from(["3", "4", "5"]))
    return window


@st.composite
def choices(draw: st.DrawFn, doc: dict) -> dict:
    """Members are categories and totals, or rules inside: a rule and its own category never together."""
    outer = [rule["id"] for rule in [*doc["categories"], *doc["totals"]]]
    inner = [r["id"] for c in doc["categories"] for key in ("of_which", "variety") for r in c.get(key, [])]
    among = draw(st.sampled_from([outer, inner or outer]))
    among = draw(st.lists(st.sampled_from(among), min_size=1, unique=True))
    return {"id": "choose-0", "at_least": str(draw(st.integers(1, len(among)))), "among": among}


@st.composite
def gates(draw: st.DrawFn, number: int, names: list[str], ids: list[str]) -> dict:
    when = draw(st.lists(conditions(names, ids), min_size=1, max_size=2))
    return {"id": f"gate-{number}", "category": draw(st.sampled_from(ids)), "when": when}


WEEKDAYS = st.integers(0, 9).map(lambda n: date(2026, 3, 2) + timedelta(days=n))
DAYS = st.one_of(
    WEEKDAYS,
    WEEKDAYS,
    st.sampled_from([date(2026, 1, 30), ENROLLED, date(2026, 2, 28), date(2026, 4, 30), date(2026, 5, 31)]),
    st.sampled_from([date(2026, 3, 31), date(2026, 6, 29), AS_OF, date(2026, 7, 1)]),
)


LEAST = st.sampled_from([0, 1, 1, 1])


@st.composite
def rows(draw: st.DrawFn, number: int) -> dict:
    def several(name: str) -> str:
        values = draw(
            st.lists(st.sampled_from([*OPEN_VALUES[name], "other"]), min_size=draw(LEAST), max_size=2, unique=True)
        )
        return draw(st.sampled_from(["|", " | "])).join(values)

    return {
        "trainee": "t1",
        "id": f"e{number:02}",
        "date": draw(DAYS).isoformat(),
        "minutes": str(draw(st.sampled_from([1, 29, 45, 50, 55, 60, 61, 90, 90, 100, 120, 120, 180, 240]))),
        "activity": draw(st.sampled_from([*ACTIVITIES * 3, "observing|lecture", "rest"])),
        "state": draw(st.sampled_from(STATES)),
        "mode": draw(st.sampled_from([*MODES, "live|recorded"])),
        "apparatus": several("apparatus"),
        "host": draw(st.sampled_from([*OPEN_VALUES["host"] * 3, "h4", ""])),
        "client": several("client"),
        "session": draw(st.sampled_from(["s1", "s2", f"own{number}", ""])),
    }


@st.composite
def facts(draw: st.DrawFn) -> dict:
    day = DAYS.map(date.isoformat)
    doc: dict = {}
    for key in ("practicals", "modules"):
        if draw(st.integers(0, 3)):
            doc[key] = {PRESENT: draw(day)}
    if draw(st.booleans()):
        doc["documents"] = {PRESENT: span(draw(DAYS), draw(st.sampled_from([0, 5, 40, 200])))}
    if draw(st.integers(0, 3)) == 0:
        doc["extensions"] = ["2026-03-01"]
    if draw(st.integers(0, 3)) == 0:
        doc["leave"] = [span(date(2026, 3, 2), draw(st.integers(0, 30)))]
    return doc


def span(first: date, days: int) -> dict:
    return {"from": first.isoformat(), "to": (first + timedelta(days=days)).isoformat()}


@st.composite
def files(draw: st.DrawFn) -> Files:
    log = [draw(rows(number)) for number in range(draw(st.sampled_from([1, 3, 6, 8, 10, 12, 14, 16])))]
    known = draw(st.one_of(st.none(), facts(), facts()))
    header = ",".join(log[0])
    return Files(
        set_text=yaml.safe_dump(draw(requirement_sets()), sort_keys=False, default_flow_style=None, width=200),
        log_text="\n".join([header, *(",".join(row.values()) for row in log)]) + "\n",
        facts_text=yaml.safe_dump({"t1": known}, sort_keys=False) if known else None,
        enrolled=draw(st.sampled_from([None, ENROLLED])),
    )
