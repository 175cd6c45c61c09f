"""Every step of a result has its sentence."""

from dataclasses import replace
from fractions import Fraction

import pytest

from app.wording import practicals as words
from assessments.practicals.resit import Again
from assessments.practicals.result import result
from assessments.practicals.sheets import CriticalSighting, LeftOut, SteppedIn
from tests.assessments.practicals.cast import level_sheet, practical, sheet

SPRING = (CriticalSighting("spring", 125, "loaded"),)
STEPPED = (SteppedIn(65, "strap", True), SteppedIn(70, "dizzy", False))
FLOORS = {"weight": 100, "floor": 60}
GROUPS = [{"id": "g", "title": "G", "criteria": ["a"], "floor": 60}]


def cases():
    for band in (0, 30):
        made = practical(
            {"x": FLOORS}, {"a": FLOORS}, groups=GROUPS, band={"marks": band}, apart={"total": 5, "levels": 0}
        )
        for first in (1, 3, 4, LeftOut.NOT_SEEN):
            for second in (1, 3, 4, LeftOut.NOT_SEEN):
                one, two = sheet(made, "a", {("x", "a"): first}), sheet(made, "b", {("x", "a"): second})
                third = level_sheet(made, "c", 3, second_marking=True)
                kept = tuple(replace(it, after_talking="kept", reason="r") for it in (one, two))
                loud = replace(one, critical=SPRING, stepped_in=STEPPED)
                for sheets in ((), (one,), (one, two), kept, (loud, two), (loud, two, third), (one, two, third)):
                    yield result(made, sheets)
                yield result(replace(made, resits=replace(made.resits, capped=True)), kept, again=Again())
                yield result(made, (loud, replace(two, critical=SPRING)))


def test_every_step_that_can_come_about_has_a_sentence():
    found = {(step.code, step.state): words.step_sentence(step) for one in cases() for step in one.steps}
    assert set(words.STEPS) - set(found) == {("left-out", "note")}
    assert not any("{" in sentence for sentence in found.values())


@pytest.mark.parametrize(("value", "shown"), [("79.99", "79.9"), ("80", "80"), ("66.6667", "66.6"), ("0", "0")])
def test_marks_are_never_rounded_up(value, shown):
    assert words.marks(Fraction(value)) == shown


def test_names_and_time_are_shown_for_people():
    made = practical({"x": 100}, {"a": 100})
    first = level_sheet(made, "e1", 4, critical=SPRING, stepped_in=STEPPED[:1])
    found = words.how_it_came_about(
        result(made, (first, level_sheet(made, "e2", 4))), {"e1": "Ines", "spring": "Springs"}
    )
    assert "Critical fault “Springs” was seen by Ines alone: a further examiner marks." in found
    assert "Ines stepped in at 1:05: strap. The exam went on." in found
