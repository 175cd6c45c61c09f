"""Every fault of a requirement set has its code and the line it stands on."""

import pytest

from app.files.requirements import requirements_from_text
from curriculum.faults import RefusedError

SET = """title: One
unit: 60 min
counts: [signed_off]
fields: {mode: [live, recorded]}
window: {months: 18}
categories:
  - id: seen
    accepts: {activity: seen}
    at_least: 10 h
    limits:
      - {id: cap, accepts: {mode: recorded}, at_most: 25 %}
    variety:
      - {id: hosts, of: host, at_least: 2, each: 60 min}
    credit: {round_down_to: 15 min, weights: [{accepts: {late: yes}, as: 50 %}]}
totals:
  - {id: total, of: [seen], at_least: 10 h}
limits:
  - {id: online, accepts: {mode: recorded}, at_most: 30 % of total}
choose:
  - {id: any, at_least: 1, among: [seen, hosts]}
gates:
  - {id: gate, category: seen, when: [{practical: safety}]}
"""


def faults(old: str, new: str) -> list[tuple[str, int | None]]:
    assert SET.count(old) >= 1
    with pytest.raises(RefusedError) as refused:
        requirements_from_text(SET.replace(old, new, 1), "set.yaml")
    return [(one.code, one.line) for one in refused.value.faults]


def test_the_plain_set_is_taken() -> None:
    assert requirements_from_text(SET, "set.yaml").categories[0].at_least == 600


@pytest.mark.parametrize(
    ("old", "new", "code", "line"),
    [
        ("title: One", "title:", "missing", 1),
        ("unit: 60 min", "unit: 60", "not-a-duration", 2),
        ("unit: 60 min", "unit: 0 min", "no-unit", 2),
        ("[signed_off]", "[waiting]", "unknown-proof", 3),
        ("[live, recorded]", "[live]", "unknown-id", 11),
        ("{months: 18}", "{months: none}", "not-a-count", 5),
        ("{months: 18}", "{years: 2}", "unknown-key", 5),
        ("- id: seen", "- id: all", "reserved-id", 7),
        ("- id: seen", "- id: a b", "not-an-id", 7),
        ("{activity: seen}", "{minutes: seen}", "not-a-field", 8),
        ("{activity: seen}", "{activity: []}", "empty-list", 8),
        ("at_least: 10 h\n    limits", "at_least: 10\n    limits", "not-a-duration", 9),
        ("at_least: 10 h\n    limits", "at_least: 25 %\n    limits", "not-a-duration", 9),
        ("at_most: 25 %}", "at_most: 25 % of nowhere}", "unknown-id", 11),
        ("id: cap", "id: seen", "double-id", 11),
        ("of: host", "of: state", "not-a-field", 13),
        ("each: 60 min", "each: 0 min", "no-credit", 13),
        ("round_down_to: 15 min", "round_down_to: 0 min", "no-step", 14),
        ("as: 50 %", "as: half", "not-a-percentage", 14),
        ("of: [seen]", "of: [unseen]", "unknown-id", 16),
        ("of: [seen]", "of: [seen, all]", "all-and-more", 16),
        ("30 % of total", "30 %", "share-of-nothing", 18),
        ("among: [seen, hosts]", "among: [seen, cap]", "unknown-id", 20),
        ("at_least: 1, among", "at_least: 3, among", "too-many", 20),
        ("category: seen, when", "category: none, when", "unknown-id", 22),
        ("{practical: safety}", "{practical: safety, module: x}", "no-condition", 22),
        ("{practical: safety}", "{total: some, at_least: 1 h}", "unknown-total", 22),
    ],
)
def test_each_fault_is_named_on_its_line(old: str, new: str, code: str, line: int) -> None:
    assert (code, line) in faults(old, new)


def test_all_faults_come_at_once_in_the_order_of_the_lines() -> None:
    text = SET.replace("unit: 60 min", "unit: x").replace("as: 50 %", "as: x").replace("of: [seen]", "of: [x]")
    with pytest.raises(RefusedError) as refused:
        requirements_from_text(text, "set.yaml")
    assert [one.line for one in refused.value.faults] == [2, 14, 16]


CHOICE = "choose:\n  - {id: any, at_least: 1, among: [seen, hosts]}\n"
MORE_THAN_THERE_ARE = SET.replace("of: host, at_least: 2", "of: mode, at_least: 3")


def test_more_values_than_can_occur_are_refused_only_where_no_choice_may_leave_them_out() -> None:
    with pytest.raises(RefusedError) as refused:
        requirements_from_text(MORE_THAN_THERE_ARE.replace(CHOICE, ""), "set.yaml")
    assert [(one.code, one.line) for one in refused.value.faults] == [("too-many", 13)]
    assert requirements_from_text(MORE_THAN_THERE_ARE, "set.yaml").categories[0].variety[0].at_least == 3
