"""What moves between categories when the log around a session changes; worked by hand from the sets beside them."""

from assessments.hours.moves import Move, moves
from tests.app.test_rules_table import asked, entry, standing

BOTH = asked(
    at_least="1 h",
    accepts="activity: [seen, both]",
    after="  - id: more\n    accepts: {activity: [more, both]}\n    at_least: 1 h\n",
)
DAILY = asked("limits: [{id: cap, per: day, at_most: 2 h}]")


def test_an_hour_that_two_categories_take_moves_where_it_is_needed_when_the_other_is_filled() -> None:
    """The hour counts in the category declared first, until another hour that only this one takes fills it."""
    both, seen = entry(60, activity="both"), entry(60, 1)
    found = moves(standing(BOTH, both), standing(BOTH, both, seen), {both.id})
    assert found == (Move(both.id, 60, "seen", "more", "enough"),)


def test_minutes_that_lose_or_gain_credit_say_the_rule_that_holds_now_or_held_before() -> None:
    early, late = entry(60), entry(90)
    first, second = (early, "a"), (late, "b")
    named = [type(one)(name, one.date, one.minutes, one.state, one.fields) for one, name in (first, second)]
    alone, with_it = standing(DAILY, named[1]), standing(DAILY, *named)
    assert moves(alone, with_it, {"b"}) == (Move("b", 30, "seen", "", "day_cap", "cap"),)
    assert moves(with_it, alone, {"b"}) == (Move("b", 30, "", "seen", "day_cap", "cap"),)


def test_what_changed_itself_is_no_move() -> None:
    assert moves(standing(BOTH, entry(60)), standing(BOTH, entry(30)), set()) == ()
