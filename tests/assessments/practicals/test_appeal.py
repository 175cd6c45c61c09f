"""Appeals and complaints: deadlines counted, grounds, other people, an end.

ISO/IEC 17024:2012, 9.8 and 9.9 (from memory): published, decided by other people, no disadvantage, an outcome told. The
grounds, and that a review may raise, keep or lower only as the rules said before, are common practice.
"""

from datetime import date

import pytest

from assessments.practicals.appeal import (
    Filing,
    Made,
    answer_by,
    assigned_to,
    assigning_faults,
    deciding_faults,
    direction_of,
    file_until,
    filing_faults,
    is_open,
)
from assessments.practicals.appeal_rules import Appeals
from assessments.practicals.deciding import Outcome
from assessments.practicals.reading import read_practical
from curriculum.document import node_of
from tests.assessments.practicals.cast import document

RULES = Appeals()
DECIDED = date(2026, 3, 2)
APPEAL = Filing("appeal", ("procedure",), "The order was changed while I taught.")
COMPLAINT = Filing("complaint", (), "The room was cold.")


def codes(filing, today=DECIDED, outcome=Outcome.FAIL, already=False):
    return [one.code for one in filing_faults(filing, RULES, outcome, DECIDED, today, already)]


def test_days_are_counted_from_the_day_after():
    # 2 March and 28 days is 30 March; 42 days from there is 11 May.
    assert (file_until(RULES, DECIDED), answer_by(RULES, date(2026, 3, 30))) == (date(2026, 3, 30), date(2026, 5, 11))


@pytest.mark.parametrize(
    ("filing", "more", "faults"),
    [
        (APPEAL, {"today": date(2026, 3, 30)}, []),
        (APPEAL, {"today": date(2026, 3, 31)}, ["too-late"]),
        (APPEAL, {"outcome": None}, ["no-decision"]),
        (APPEAL, {"outcome": Outcome.PASS}, ["passed"]),
        (APPEAL, {"already": True}, ["already"]),
        (Filing("appeal", (), "I disagree."), {}, ["no-grounds"]),
        (Filing("appeal", ("mood",), " "), {}, ["no-grounds", "no-words"]),
        (COMPLAINT, {"outcome": None}, []),
        (COMPLAINT, {"today": date(2026, 3, 1)}, ["too-early"]),
        (Filing("complaint", ("bias",), "x" * 4001), {}, ["grounds", "too-long"]),
        (Filing("question", (), "x"), {}, ["no-kind"]),
    ],
)
def test_everything_against_a_filing_is_named(filing, more, faults):
    assert codes(filing, **more) == faults


def test_nobody_of_the_exam_or_its_decision_decides():
    staff, involved = frozenset({"ada", "bo", "cy"}), frozenset({"ada"})
    assert assigning_faults("bo", staff, involved, "cara") == ()
    assert [one.code for one in assigning_faults("ada", staff, involved, "cara")] == ["involved"]
    assert [one.code for one in assigning_faults("cara", staff | {"cara"}, involved, "cara")] == ["no-person"]


@pytest.mark.parametrize(
    ("before", "after", "way"),
    [
        (Outcome.FAIL, Outcome.PASS, "raise"),
        (Outcome.REFER, Outcome.REFER, "keep"),
        (Outcome.REFER, Outcome.FAIL, "lower"),
        (Outcome.FAIL, Outcome.VOID, "raise"),
        (Outcome.NOT_COMPLETED, Outcome.PASS, "raise"),
        (Outcome.VOID, Outcome.FAIL, "lower"),
    ],
)
def test_where_an_outcome_leads_and_whether_the_rules_said_so(before, after, way):
    assert direction_of(before, after) == way
    assert [one.code for one in deciding_faults(RULES, "appeal", before, after)] == (
        ["not-allowed"] if way == "lower" else []
    )
    assert deciding_faults(RULES, "complaint", before, before) == ()


def test_it_ends_once_it_is_decided_or_withdrawn():
    steps = [Made("assigned", "bo"), Made("assigned", "cy")]
    assert (assigned_to([]), assigned_to(steps), is_open(steps)) == ("", "cy", True)
    assert not is_open([*steps, Made("decided", "cy")])


def test_an_edition_says_how_long_and_where_it_may_lead():
    fields = document({"x": 100}, {"a": 100}, appeals={"within_days": 10, "may": ["lower", "keep"]})
    assert read_practical(node_of(fields)).appeals == Appeals(10, 42, ("keep", "lower"))
    assert read_practical(node_of(document({"x": 100}, {"a": 100}))).appeals == RULES
