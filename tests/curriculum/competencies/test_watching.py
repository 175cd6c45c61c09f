"""What to watch next, worked by hand from the rule in the docstring of `watch_next`."""

from datetime import date

from curriculum.competencies.evidence import Coverage, Evidence, coverage_of
from curriculum.competencies.watching import own_level, watch_next
from curriculum.document import node_of
from curriculum.repertoire.edition import Edition
from curriculum.repertoire.reading import read_edition
from tests.curriculum.repertoire.cast import exercise, series, shared

DAY = date(2026, 3, 2)


def two_series() -> Edition:
    """First a b c (basic), then d e (basic), f (advanced), all on the reformer in this order."""
    files = {
        "one.yaml": series(exercise("a"), exercise("b"), exercise("c"), series="one"),
        "two.yaml": series(exercise("d"), exercise("e", worth=9), exercise("f", level="advanced"), series="two"),
    }
    return read_edition(node_of(shared(series=list(files))), {name: node_of(one) for name, one in files.items()})


EDITION = two_series()


def covered(seen: str = "", waiting: str = "", practised: str = "") -> dict[str, Coverage]:
    evidence = [Evidence(one, "observed", DAY, True) for one in seen]
    evidence += [Evidence(one, "observed", DAY, False) for one in waiting]
    evidence += [Evidence(one, "practised", DAY, True) for one in practised]
    return {one.id: coverage_of(one.id, evidence) for one in EDITION.exercises}


def watched(**what: str) -> list[tuple[str, int]]:
    return [(one.exercise.id, one.holds_back) for one in watch_next(EDITION, covered(**what))]


def test_the_level_is_the_easiest_of_which_less_than_three_quarters_are_seen():
    assert own_level(EDITION, covered()) == "basic"
    assert own_level(EDITION, covered("abc")) == "basic", "3 of 5"
    assert own_level(EDITION, covered("abcd")) == "advanced", "4 of 5; there is none of the level between"
    assert own_level(EDITION, covered("abcdef")) == "advanced"


def test_what_stands_first_of_a_long_unseen_stretch_holds_back_the_most():
    """All five basic ones are unseen: a holds back 5, d 2; f is above the level."""
    assert watched() == [("a", 5), ("d", 2)]


def test_a_stretch_ends_at_what_is_seen():
    """c is seen: a holds back a and b; d holds back d and e. Equals: both are worth 3, so the order decides."""
    assert watched(seen="c") == [("a", 2), ("d", 2)]


def test_equals_go_by_how_much_a_lesson_wants_them():
    """b, c and d are seen: a and e hold back themselves; e is worth 9."""
    assert watched(seen="bcd") == [("e", 1), ("a", 1)]


def test_what_waits_for_a_signature_is_not_asked_for_again_and_own_practice_is_not_seeing():
    assert watched(seen="bcd", waiting="e") == [("a", 1)]
    assert watched(seen="bcd", waiting="e", practised="a") == [("a", 1)]


def test_nothing_is_left_to_watch_when_all_is_seen():
    assert watched(seen="abcdef") == []
