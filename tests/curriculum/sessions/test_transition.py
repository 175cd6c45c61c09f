"""Equipment changes between two set-ups; seconds are the small edition's own."""

from dataclasses import fields

from curriculum.repertoire.edition import ChangeSeconds
from curriculum.repertoire.set_up import Springs
from curriculum.sessions.changes import spring_changes
from curriculum.sessions.transition import derived_changes, passage
from tests.curriculum.repertoire.cast import edition, exercise


def changes(before: dict, after: dict, **more: object) -> list[str]:
    read = edition(exercise("a", set_up=before), exercise("b", set_up=after), **more)
    return [one.code for one in derived_changes(read, *read.exercises)]


def test_equal_set_ups_need_nothing_but_a_moment():
    read = edition(*(exercise(id, set_up={"springs": 4, "foot_bar": "up"}) for id in "ab"))
    way = passage(read, *read.exercises)
    assert (way.derived, way.seconds) == ((), 4)


def test_the_apparatus_comes_to_rest_before_springs_change():
    assert changes({"springs": 4}, {"springs": 2}) == ["at-rest", "springs"]


def test_each_spring_costs_its_seconds():
    read = edition(exercise("a", set_up={"springs": 4}), exercise("b", set_up={"springs": 1}))
    assert passage(read, *read.exercises).seconds == 2 + 3 * 4


def test_straps_come_off_first_and_go_on_last():
    before = {"springs": 2, "straps": "hands", "foot_bar": "down"}
    after = {"springs": 4, "straps": "feet", "foot_bar": "up"}
    assert changes(before, after) == ["at-rest", "straps-off", "springs", "foot-bar", "straps-on"]


def test_the_safety_strap_is_on_before_a_spring_from_below():
    before = {"springs": 1, "attachment": "top", "safety_strap": "off"}
    after = {"springs": 2, "attachment": "bottom", "safety_strap": "on"}
    assert changes(before, after, apparatus="trapeze-table") == ["at-rest", "safety-strap-on", "springs", "attachment"]


def test_the_safety_strap_goes_off_after_the_springs():
    before = {"springs": 2, "attachment": "bottom", "safety_strap": "on"}
    after = {"springs": 1, "attachment": "top", "safety_strap": "off"}
    assert changes(before, after, apparatus="trapeze-table") == ["at-rest", "springs", "attachment", "safety-strap-off"]


def test_the_client_is_off_while_the_box_is_fetched():
    found = changes({"springs": 2, "box": "none"}, {"springs": "all", "box": "short"})
    assert found == ["at-rest", "dismount", "springs", "box-on", "mount"]


def test_any_leaves_a_part_as_it_is():
    assert changes({"foot_bar": "up"}, {"foot_bar": "any"}) == []


def test_an_authored_transition_wins_and_both_are_shown():
    way = {"to": "b", "seconds": 20, "steps": ["Do it."]}
    read = edition(exercise("a", set_up={"springs": 4}, transitions=[way]), exercise("b", set_up={"springs": 2}))
    found = passage(read, *read.exercises)
    assert (found.seconds, found.derived_seconds, found.disagree, found.steps) == (20, 10, True, ("Do it.",))


def test_the_way_for_the_machine_is_taken_and_the_slower_one_where_it_is_not_known():
    ways = [{"to": "b", "seconds": s, "foot_bar": bar} for s, bar in ((15, "foot-lowered"), (25, "locks"))]
    read = edition(exercise("a", transitions=ways), exercise("b"))
    found = [passage(read, *read.exercises, foot_bar).seconds for foot_bar in ("foot-lowered", "locks", "")]
    assert found == [15, 25, 25]


def test_all_springs_have_seconds_of_their_own():
    read = edition(exercise("a", set_up={"springs": 2}), exercise("b", set_up={"springs": "all"}))
    assert [passage(read, *pair).seconds for pair in (read.exercises, read.exercises[::-1])] == [2 + 8, 2 + 8]


def test_springs_of_another_kind_are_all_changed_over():
    """Every spring comes off and every other one goes on (common practice)."""
    cost = ChangeSeconds(**{one.name: 5 for one in fields(ChangeSeconds)})
    (step,) = spring_changes(Springs(2, 2, 2, kind="arm"), Springs(1, 1, 1, kind="leg"), cost)
    assert step.text() == "Springs to 1 (leg)"
    assert step.seconds == 15


def test_a_bar_brings_its_own_springs():
    """Common practice: hooking a roll-down bar takes 8 to 10 s, springs and all."""
    bar = {"springs": {"count": 2, "kind": "light"}, "attachment": "top", "hang": "roll-bar"}
    loops = {"springs": {"count": 2, "kind": "long"}, "attachment": "middle", "hang": "leg-springs"}
    assert changes(bar, loops, apparatus="trapeze-table") == ["at-rest", "dismount", "hang", "mount"]


def test_a_bar_sprung_from_below_is_hooked_in_only_with_the_safety_strap_on():
    """Common practice: push-through bar with its safety strap 15 to 20 s."""
    bar = {"springs": 2, "attachment": "top", "hang": "roll-bar"}
    below = {"springs": 1, "attachment": "bottom", "hang": "push-through-bar", "safety_strap": "on"}
    read = edition(exercise("a", set_up=bar), exercise("b", set_up=below), apparatus="trapeze-table")
    found = derived_changes(read, *read.exercises)
    assert [one.code for one in found] == ["at-rest", "dismount", "safety-strap-on", "hang", "mount"]
    assert sum(one.seconds for one in found if one.code in ("safety-strap-on", "hang")) == 17
    assert found[3].text() == "Change to: push-through-bar (bottom), 1 spring(s), hooks tried by hand"


def test_the_strap_goes_off_after_the_bar_is_hooked_away():
    below = {"springs": 1, "attachment": "bottom", "hang": "push-through-bar", "safety_strap": "on"}
    found = changes(below, {"hang": "none"}, apparatus="trapeze-table")
    assert found == ["at-rest", "dismount", "hang", "safety-strap-off", "mount"]
