"""A week that is tried; amounts are arithmetic by hand from the rule beside them (common practice: so much a day counts)."""

from datetime import timedelta

from app.wording.asides import AsideTexts
from assessments.hours.standing import SetAside
from assessments.hours.trial import tried
from tests.app.test_rules_table import AS_OF, FIRST, asked, entry

DAILY = "limits: [{id: cap, per: day, at_most: 2 h}]"


def test_what_is_planned_earns_what_the_rules_leave_of_it_and_shrinks_what_is_to_do() -> None:
    """10 h asked, 3 h done; of 3 h planned on one day 2 h may count, so 7 h to do become 5 h."""
    done, day = [entry(120), entry(60, 1)], (AS_OF - FIRST).days + 3
    found = tried(asked(DAILY), done, [entry(180, day)], as_of=AS_OF)
    name = entry(180, day).id
    assert (found.before.further_minutes, found.after.further_minutes, found.saved) == (420, 300, 120)
    assert found.earned == {name: 120}
    assert [(one.minutes, one.reason, one.rule) for one in found.aside[name]] == [(60, "day_cap", "cap")]


def test_both_standings_are_of_the_last_planned_day_so_that_what_lapses_until_then_is_not_laid_on_the_plan() -> None:
    read = asked(after="window: {lapses_after_months: 6}\n")
    day = (AS_OF - FIRST).days
    found = tried(read, [entry(60, day - 180)], [entry(60, day + 30)], as_of=AS_OF)
    assert found.after.as_of == AS_OF + timedelta(days=30)
    assert (found.before.credited_minutes, found.after.credited_minutes) == (0, 60)


def test_without_a_plan_nothing_changes() -> None:
    found = tried(asked(), [entry(60)], [], as_of=AS_OF)
    assert (found.saved, found.earned) == (0, {})


def test_a_reason_comes_with_the_sentence_of_its_rule() -> None:
    shut = (
        "gates: [{id: gate, category: seen, when: [{module: first}]}]\nwindow: {months: 6, lapses_after_months: 36}\n"
    )
    texts = AsideTexts(asked(DAILY + "\n    at_most: 12 h", after=shut))
    says = {
        ("day_cap", "cap"): "1 h: more than one day may count. seen: At most 2 h may count here on one day.",
        ("before_gate", "seen"): "1 h: dated before the category was opened. seen: Time counts here from the day by "
        "which the module “first” is completed.",
        ("category_full", "seen"): "1 h: the category is full. seen: Beyond 12 h, nothing more is credited here.",
        ("lapsed", "seen"): "1 h: too old: the hours have lapsed. Time that is older than 36 months lapses and no "
        "longer counts.",
        ("waiting", "seen"): "1 h: waiting for the host's signature",
    }
    assert {key: texts.of(SetAside("e", 60, *key)) for key in says} == says
