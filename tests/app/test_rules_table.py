"""Every row of docs/rules.md: a small log on which the rule, switched on and off, changes a figure or a refusal.

Amounts are arithmetic by hand from the rule beside them; the rules are common practice unless docs/rules.md says more.
"""

import re
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest

from app.files.requirements import requirements_from_text
from app.storage.hosts import Host
from assessments.hours.assessing import assess
from assessments.hours.attendance import Mark, Room, attendance, completion_refusals
from assessments.hours.entry import Entry, Facts, Span
from assessments.hours.log_rules import RULES, Bounds, ends_after_it_starts, no_overlap, refusals
from assessments.hours.session import STATE_OF_PROOF, Part, Session, after
from assessments.hours.signing_rules import SigningBounds, signing_refusals
from assessments.readiness.evidence import DocumentEvidence, Evidence, HoursEvidence, PracticalEvidence
from assessments.readiness.from_hours import hours_evidence
from assessments.readiness.report import report
from tests.assessments.readiness.cast import FINAL, HOURS, INSURANCE, only

DOCS = Path(__file__).parents[2] / "docs/rules.md"
ROWS_OF_PART = {"E": 12, "C": 16, "D": 13, "S": 10, "G": 12, "T": 11}
AS_OF, FIRST = date(2026, 11, 25), date(2026, 1, 5)
SESSION = Session("s", FIRST, 540, 600, (Part(60, "seen", "mat"),), host="h")
BOUNDS = Bounds(FIRST + timedelta(days=1), 600, FIRST)
DAY = FIRST + timedelta(days=5)
HOST = Host("h", "H", "h@example.org", "", "comprehensive", FIRST)
SECOND = "  - id: more\n    accepts: {activity: more}\n    at_least: "


def entry(minutes: int, day: int = 0, state: str = "signed_off", activity: str = "seen", **fields: str) -> Entry:
    values = {name: (text,) for name, text in fields.items()} | {"activity": (activity,)}
    return Entry(f"{day:03}-{activity}", FIRST + timedelta(days=day), minutes, state, values)


def asked(rule: str = "", at_least: str = "10 h", accepts: str = "activity: seen", after: str = ""):
    """A set of one category with `rule` inside it, and what comes `after` it in the document."""
    own = f"    {rule}\n" if rule else ""
    text = f"  - id: seen\n    accepts: {{{accepts}}}\n    at_least: {at_least}\n{own}{after}"
    return requirements_from_text(f"title: One\ncategories:\n{text}", "set.yaml")


def standing(read, *log: Entry, facts: Facts | None = None, enrolled: date | None = None):
    return assess(read, log, facts or Facts(), as_of=AS_OF, enrolled=enrolled)


def credit(on: str, *log: Entry, off: str = "", **more: str) -> tuple[int, int]:
    """Minutes credited with a line inside the category and without it."""
    return tuple(standing(asked(rule, **more), *log).credited_minutes for rule in (on, off))


def to_do(on: str, *log: Entry, off: str = "", **more: str) -> tuple[int, int]:
    """Minutes still to do with a line inside the category and without it."""
    return tuple(standing(asked(rule, **more), *log).further_minutes for rule in (on, off))


def earned(on, off, *log: Entry, facts: Facts | None = None, enrolled: date | None = None) -> tuple[int, int]:
    """Minutes credited by one set and by another."""
    return tuple(standing(read, *log, facts=facts, enrolled=enrolled).credited_minutes for read in (on, off))


def cap(most: str, minutes: int, at_least: str = "10 h", per: str = "", **fields: str) -> tuple[int, int]:
    """What a cap inside the category leaves of one entry with these fields."""
    of = f"per: {per}" if per else "accepts: {" + ", ".join(f"{key}: {text}" for key, text in fields.items()) + "}"
    return credit(f"limits: [{{id: cap, {of}, at_most: {most}}}]", entry(minutes, **fields), at_least=at_least)


def floor(least: str, accepts: str, minutes: int = 600) -> tuple[int, int]:
    """What a floor inside the category adds where nothing that matches was done."""
    return to_do(f"of_which: [{{id: floor, accepts: {{{accepts}}}, at_least: {least}}}]", entry(minutes))


def variety(rule: str, *log: Entry, at_least: str = "1 h") -> tuple[int, int]:
    return to_do(f"variety: [{{id: several, {rule}}}]", *log, at_least=at_least)


def gate(when: str, *log: Entry, facts: Facts | None = None, after: str = "") -> tuple[int, int]:
    """What a gate before the category leaves of a log."""
    shut = asked(after=f"{after}gates: [{{id: gate, category: seen, when: [{when}]}}]\n")
    return earned(shut, asked(after=after), *log, facts=facts)


def refused(rule, change: dict, *others: Session) -> tuple[list[str], list[str]]:
    """The codes of what is refused with a rule of the log and without it."""
    session, bounds = replace(SESSION, **change), replace(BOUNDS, others=others)
    without = tuple(one for one in RULES if one is not rule)
    return tuple([fault.code for fault in refusals(session, bounds, rules)] for rules in (RULES, without))


def signed(rule: str, today: date, *sessions: Session) -> tuple[list[str], list[str]]:
    """The codes of what a signature is refused for with a rule of the set and without it, all sessions signed at once."""
    bounds = SigningBounds(today, sessions, sessions)
    sets = (asked(after=f"signing: {{{rule}}}\n"), asked())
    return tuple([fault.code for fault in signing_refusals(SESSION, one.signing, bounds)] for one in sets)


def attended(*kinds: str) -> tuple[list[str], list[str]]:
    """The codes of what speaks against completing a module, one day for each mark, with a rule of the set and without it."""
    rooms = [Room(str(day), "m", FIRST, 540, 600, "workshop", {"t": Mark(kind)}) for day, kind in enumerate(kinds)]
    sets = (asked(after="modules: [{module: m, missed_at_most: 2}]\n"), asked())
    found = attendance(rooms, "t", "m")
    return tuple([fault.code for fault in completion_refusals(one.modules, "m", found)] for one in sets)


def opens(*after_: str) -> tuple[bool, bool]:
    """Whether the final practical can start today while what it comes after is open, and without that line."""
    short = Evidence(hours=(("set", HoursEvidence(False, 600, 0, 0)),))
    waiting = (replace(FINAL, after=after_), replace(FINAL, after=()))
    other = replace(FINAL, id="written", subject="written", after=())
    found = [report(only(one, replace(HOURS, part_after=()), other), short, AS_OF).gaps for one in waiting]
    return tuple(next(gap.can_start_today for gap in gaps if gap.criterion == "final") for gaps in found)


def ready(document: DocumentEvidence | None, *criteria: object) -> tuple[bool, bool]:
    """Whether the certificate can be given with a document criterion and without any."""
    evidence = Evidence(
        practicals=(PracticalEvidence("final", "passed", FIRST),), documents=(document,) if document else ()
    )
    passed = replace(FINAL, after=())
    return tuple(report(only(*some), evidence, AS_OF).ready for some in ((passed, *criteria), (passed,)))


def least_months() -> tuple[bool, bool]:
    """Whether a trainee who is done after ten months and three weeks is ready, with a year asked for and without."""
    found = []
    for window in ("window: {least_months: 12}\n", ""):
        done = standing(asked(after=window), entry(600), enrolled=FIRST)
        evidence = Evidence(hours=(("set", hours_evidence(done)),))
        found.append(report(only(replace(HOURS, part_after=())), evidence, AS_OF).ready)
    return tuple(found)


def time_given(facts: Facts) -> tuple[int, int]:
    read = asked(after="window: {months: 1, extension_months: 1}\n")
    late = entry(60, 40)
    return tuple(standing(read, late, facts=one, enrolled=FIRST).credited_minutes for one in (facts, Facts()))


def windowed(window: str, *log: Entry) -> tuple[int, int]:
    return earned(asked(after=f"window: {{{window}}}\n"), asked(), *log, enrolled=FIRST)


LIVE = "mode: [live, live_remote]"
OBSERVED = "  - id: more\n    accepts: {activity: more, mode: live}\n    at_least: 1 h\n"
CASES = {
    "E1": (lambda: refused(ends_after_it_starts, {"end": 540}), (["end-before-start"], [])),
    "E2": (lambda: credit("credit: {round_down_to: 15 min}", entry(100)), (90, 100)),
    "E3": (
        lambda: credit(
            "credit: {sessions: [{from: 1 min, to: 29 min, as: 0 min}, {from: 241 min, as: 240 min}]}",
            entry(20), entry(300, 1),
        ),
        (240, 320),
    ),
    "E4": (lambda: refused(no_overlap, {}, replace(SESSION, id="o", start=570, end=630)), (["overlap"], [])),
    "E5": (
        lambda: (
            standing(asked(at_least="1 h", after=SECOND.replace("more}", "seen}") + "1 h\n"), entry(60)).further_minutes,
            standing(asked("of_which: [{id: also, accepts: {}, at_least: 1 h}]", "1 h"), entry(60)).further_minutes,
        ),
        (60, 0),
    ),
    "E6": (lambda: gate("{module: first}", entry(60), entry(60, 6), facts=Facts(modules={"first": DAY})), (60, 120)),
    "E7": (lambda: credit("credit: {weights: [{accepts: {late: yes}, as: 0 %}]}", entry(60, late="yes")), (0, 60)),
    "E8": (lambda: windowed("months: 1", entry(60), entry(60, 40)), (60, 120)),
    "E9": (lambda: earned(asked(), asked(accepts="activity: [seen, travel]"), entry(60, activity="travel")), (0, 60)),
    "E10": (lambda: earned(asked(accepts="activity: seen, apparatus: [mat]"), asked(), entry(60)), (0, 60)),
    "E11": (lambda: earned(asked(accepts="activity: seen, noted: yes"), asked(), entry(60)), (0, 60)),
    "E12": (
        lambda: tuple(
            standing(asked(), entry(60, state=state)).credited_minutes
            for state in (after(STATE_OF_PROOF["signature"], "send"), "signed_off")
        ),
        (0, 60),
    ),
    "C1": (
        lambda: earned(
            asked(after="limits: [{id: cap, per: day, at_most: 8 h}]\n"), asked(), entry(300), entry(300)
        ),
        (480, 600),
    ),
    "C2": (lambda: cap("4 h", 300, per="day"), (240, 300)),
    "C3": (lambda: cap("2 h", 180, per="day"), (120, 180)),
    "C4": (
        lambda: earned(
            asked(after="limits: [{id: cap, per: week, at_most: 5 h}]\n"), asked(), entry(200), entry(200, 2)
        ),
        (300, 400),
    ),
    "C5": (lambda: variety("of: week, at_least: 3, each: 60 min", entry(60)), (120, 0)),
    "C6": (lambda: cap("25 %", 200, mode="recorded"), (150, 200)),
    "C7": (lambda: gate("{document: no-host-near}", entry(60, mode="recorded")), (0, 60)),
    "C8": (
        lambda: earned(
            asked(accepts=f"activity: seen, {LIVE}"), asked(accepts="activity: seen, mode: live"),
            entry(60, mode="live_remote"),
        ),
        (60, 0),
    ),
    "C9": (lambda: cap("50 %", 400, setting="group"), (300, 400)),
    "C10": (
        lambda: credit("limits: [{id: cap, per: host, at_most: 50 %}]", entry(400, host="h")),
        (300, 400),
    ),
    "C11": (lambda: cap("50 %", 400, client_relation="family"), (300, 400)),
    "C12": (lambda: cap("60 %", 400, supervision="none"), (360, 400)),
    "C13": (lambda: cap("5 h", 400, topic="business"), (300, 400)),
    "C14": (lambda: cap("12 h", 800, "16 h", mode="distance"), (720, 800)),
    "C15": (
        lambda: credit(
            "limits: [{id: cap, per: renewal_year, at_most: 15 h}]", entry(1000, renewal_year="2"), at_least="20 h"
        ),
        (900, 1000),
    ),
    "C16": (lambda: credit("at_most: 2 h", entry(180), at_least="1 h"), (120, 180)),
    "D1": (lambda: variety("of: host, at_least: 3, each: 2 h", entry(120, host="h")), (240, 0)),
    "D2": (lambda: variety("of: site, at_least: 2, each: 1 h", entry(120, site="a")), (60, 0)),
    "D3": (lambda: variety("of: client, at_least: 10", entry(120, client="a")), (9, 0)),
    "D4": (
        lambda: variety(
            "of: client, accepts: {client_stage: beginner}, at_least: 3", entry(120, client="a", client_stage="beginner")
        ),
        (2, 0),
    ),
    "D5": (lambda: floor("40 %", "apparatus: reformer"), (240, 0)),
    "D6": (lambda: floor("2 h", "supervision: trainer"), (120, 0)),
    "D7": (
        lambda: (standing(asked(after=SECOND + "40 h\n"), entry(600)).further_minutes,
                 standing(asked(), entry(600)).further_minutes),
        (2400, 0),
    ),
    "D8": (lambda: floor("4 h", "setting: private"), (240, 0)),
    "D9": (lambda: variety("of: week, at_least: 4, each: 45 min", entry(60)), (135, 0)),
    "D10": (lambda: floor("50 %", "teacher: lead"), (300, 0)),
    "D11": (
        lambda: (
            standing(
                asked(after="totals: [{id: there, of: all, accepts: {mode: live}, at_least: 5 h}]\n"),
                entry(600, mode="recorded"),
            ).further_minutes,
            standing(asked(), entry(600, mode="recorded")).further_minutes,
        ),
        (300, 0),
    ),
    "D12": (
        lambda: variety(
            "of: client, accepts: {case_study: yes}, at_least: 2, each: 10 h", entry(600, client="a", case_study="yes")
        ),
        (600, 0),
    ),
    "D13": (
        lambda: gate("{total: all, at_least: 2 h}", entry(60), entry(120, 1, activity="more"), entry(60, 2),
                     after=SECOND + "10 h\n"),
        (180, 240),
    ),
    "S1": (lambda: credit("counts: [signed_off]", entry(60, state="attested"), off="counts: [attested]"), (0, 60)),
    "S2": (
        lambda: (replace(HOST, eligible_until=FIRST).eligible_on(DAY), HOST.eligible_on(DAY)),
        (False, True),
    ),
    "S4": (lambda: signed("within_days: 14", FIRST + timedelta(days=15)), (["signed-late"], [])),
    "S5": (lambda: signed("at_once: 50 h", FIRST, *[SESSION] * 51), (["too-much-at-once"], [])),
    "S6": (
        lambda: signed("host_day: 12 h", FIRST, replace(SESSION, start=0, end=660), replace(SESSION, start=660, end=721)),
        (["day-too-long"], []),
    ),
    "S7": (lambda: credit("counts: [attested, signed_off]", entry(60, state="attested")), (60, 0)),
    "S9": (
        lambda: tuple(
            standing(asked(), entry(60, state=after("waiting", step))).credited_minutes for step in ("send_back", "sign")
        ),
        (0, 60),
    ),
    "S10": (
        lambda: tuple(replace(HOST, eligible_until=DAY).eligible_on(day) for day in (FIRST, AS_OF)),
        (True, False),
    ),
    "G1": (
        lambda: gate("{category: more, accepts: {mode: live}, at_least: 1 h}", entry(60),
                     entry(60, 1, activity="more", mode="live"), entry(60, 2), after=OBSERVED),
        (120, 180),
    ),
    "G2": (lambda: gate("{total: all, at_least: 2 h}", entry(60), entry(60, 1), entry(60, 2)), (120, 180)),
    "G3": (
        lambda: gate("{practical: basic}", entry(60), entry(60, 6), facts=Facts(practicals={"basic": DAY})),
        (60, 120),
    ),
    "G4": (
        lambda: gate("{total: all, at_least: 1 h}, {category: more, at_least: 1 h}", entry(60),
                     entry(60, 3, activity="more"), entry(60, 4), after=SECOND + "1 h\n"),
        (120, 180),
    ),
    "G5": (lambda: gate("{practical: own-body}", entry(60)), (0, 60)),
    "G6": (lambda: opens("written"), (False, True)),
    "G7": (lambda: opens("hours"), (False, True)),
    "G9": (
        lambda: ready(DocumentEvidence("insurance", True, FIRST, AS_OF - timedelta(days=1)), INSURANCE),
        (False, True),
    ),
    "G10": (lambda: ready(None, replace(INSURANCE, id="fees", subject="fees")), (False, True)),
    "G11": (lambda: gate("{document: of-age}", entry(60)), (0, 60)),
    "G12": (
        lambda: earned(asked(accepts="activity: seen, site: centre"), asked(), entry(60, site="elsewhere")),
        (0, 60),
    ),
    "T1": (lambda: windowed("months: 2", entry(60), entry(60, 60)), (60, 120)),
    "T2": (least_months, (False, True)),
    "T3": (lambda: time_given(Facts(extensions=(FIRST,))), (60, 0)),
    "T4": (lambda: time_given(Facts(leave=(Span(FIRST, FIRST + timedelta(days=13)),))), (60, 0)),
    "T5": (lambda: windowed("lapses_after_months: 6", entry(60), entry(60, 200)), (60, 120)),
    "T6": (
        lambda: attended("missing", "missing", "missing", "makes_up", "makes_up"),
        (["missed-too-much", "not-made-up"], []),
    ),
    "T7": (lambda: to_do("of_which: [{id: there, accepts: {attended: yes}, at_least: 90 %}]", entry(600)), (540, 0)),
    "T8": (lambda: credit("credit: {weights: [{accepts: {late: yes}, as: 50 %}]}", entry(60, late="yes")), (30, 60)),
    "T9": (lambda: cap("50 %", 400, origin="transfer"), (300, 400)),
    "T10": (
        lambda: credit("counts: [signed_off, accepted]", entry(60, state="accepted"), off="counts: [signed_off]"),
        (60, 0),
    ),
    "T11": (
        lambda: tuple(standing(asked(at_least=one), entry(600)).further_minutes for one in ("10 h", "12 h")),
        (0, 120),
    ),
}  # fmt: skip


@pytest.mark.parametrize("row", CASES)
def test_switching_the_rule_changes_a_figure_or_a_refusal(row: str) -> None:
    found, expected = CASES[row]
    on, off = found()
    assert (on, off) == expected
    assert on != off


def test_the_table_names_every_rule_once_and_has_a_case_for_each_that_can_be_stated() -> None:
    stated, open_ = DOCS.read_text(encoding="utf-8").split("## Not stated yet")
    in_tables = [re.findall(r"^\| ([A-Z]\d+) \|", part, re.MULTILINE) for part in (stated, open_)]
    assert in_tables[0] == list(CASES)
    every = [f"{part}{number}" for part, most in ROWS_OF_PART.items() for number in range(1, most + 1)]
    assert sorted(in_tables[0] + in_tables[1]) == sorted(every)
