"""What a report must say, and which machines are out of use. The rules are common practice; the cases are ours."""

from dataclasses import replace
from datetime import date

import pytest

from assessments.incidents.report import Moved, Report, machine_names, out_of_use, report_faults, withdrawn_in

TODAY = date(2026, 3, 2)
REPORT = Report("near-miss", "lesson", TODAY, "North room", "A strap slipped.", "", "Strap replaced.")


@pytest.mark.parametrize(
    ("change", "faults"),
    [
        ({}, []),
        ({"degree": "incident"}, ["nobody-told"]),
        ({"degree": "incident", "told": "The director at noon."}, []),
        ({"changed": "", "machines": ("reformer 1",)}, []),
        ({"changed": " "}, ["nothing-changed"]),
        ({"degree": "", "during": "dream", "day": date(2026, 3, 3), "words": ""},
         ["no-degree", "no-during", "in-future", "no-words"]),
        ({"words": "x" * 4001}, ["too-long"]),
        ({"machines": ("x" * 61,)}, ["machines"]),
    ],
)  # fmt: skip
def test_everything_that_is_missing_is_named(change, faults):
    assert [one.code for one in report_faults(replace(REPORT, **change), TODAY)] == faults


def test_names_are_taken_between_commas_once_each():
    assert machine_names(" reformer  1, Table\n,, REFORMER 1 ") == ("REFORMER 1", "Table")


def test_a_machine_stays_out_until_every_incident_lets_it_back():
    moves = [Moved("Chair", "a", False), Moved("chair", "b", False), Moved("Chair", "a", True)]
    assert out_of_use(moves) == {"Chair": ("b",)}
    assert out_of_use([*moves, Moved("CHAIR", "b", True)]) == {}


def test_a_room_says_which_of_its_machines_are_out():
    assert withdrawn_in(("Reformer 1", "table"), ["reformer 1", "chair"]) == ("Reformer 1",)
