"""The records of a sheet: shared cases by hand, and what holds for any records of any devices in any order.

That the union of what several devices hold is the same whoever asks (commutative, associative, idempotent) is the
definition of a state-based replicated type in M. Shapiro, N. Preguiça, C. Baquero and M. Zawirski, Conflict-free
Replicated Data Types, 2011; the cases are worked by hand.
"""

import json
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assessments.practicals.sheet_changes import changes
from assessments.practicals.sheet_record_checks import check_record
from assessments.practicals.sheet_records import SheetRecord, next_count, sheet_of, standing_records
from assessments.practicals.sheets import (
    CriticalSighting,
    Grade,
    LeftOut,
    Manner,
    Mark,
    Noticed,
    Sheet,
    SteppedIn,
    Tap,
    in_order,
)
from tests.assessments.practicals.cast import practical

CASES = json.loads(Path(__file__).with_name("sheet_records.json").read_text(encoding="utf-8"))
PRACTICAL = practical({"x": 60, "y": 40}, {"a": 50, "b": 50})
CELLS = [(cell.block, cell.criterion) for cell in PRACTICAL.cells()]
CHOICES = ("", "1", "2", "3", "4", *LeftOut)


def value_of(kind: str, draw) -> dict[str, str]:  # noqa: ANN001
    def one(*values: str) -> str:
        return draw(st.sampled_from(values))

    block, criterion = draw(st.sampled_from(CELLS))
    item, words = one("i", "j"), one("", "saw it")
    return {
        "mark": {"block": block, "criterion": criterion, "choice": one(*CHOICES)},
        "manner": {"block": block, "criterion": criterion, "manner": one(*Manner)},
        "reason": {"block": block, "criterion": criterion, "text": words},
        "grade": {"block": block, "grade": one("", "0", "4")},
        "tap": {"item": item, "exercise": "hundred", "noticed": one(*Noticed), "at_block": block, "instead": words,
                "gone": one("", "yes")},
        "critical": {"code": one("spring", "spot"), "why": words, "exercise": "", "gone": one("", "yes")},
        "stepped": {"item": item, "why": words, "went_on": one("yes", "no"), "gone": one("", "yes")},
        "note": {"text": words},
        "clock": {"act": one("go", "hold"), "moment": ""},
        "undo": {"of": f"{draw(st.integers(0, 30))}"},
    }[kind]  # fmt: skip


@st.composite
def histories(draw):  # noqa: ANN001, ANN201
    """Records of two devices that now and then hear of each other."""
    kinds = ("mark", "manner", "reason", "grade", "tap", "critical", "stepped", "note", "clock", "undo")
    records, known = [], {"one": 0, "two": 0}
    for number in range(draw(st.integers(0, 24))):
        device, kind = draw(st.sampled_from(("one", "two"))), draw(st.sampled_from(kinds))
        known[device] = 1 + (max(known.values()) if draw(st.booleans()) else known[device])
        at = draw(st.integers(-1, 300))
        records.append(SheetRecord(str(number), device, known[device], kind, at, value_of(kind, draw)))
    return records


@st.composite
def sheets(draw):  # noqa: ANN001, ANN201
    """Any sheet that the form can make."""
    texts, times = st.sampled_from(("", "saw it")), st.integers(-1, 300)
    level = st.one_of(st.none(), st.integers(1, 4).map(Fraction), st.sampled_from(LeftOut))
    marks = []
    for place in CELLS:
        chosen, manner, reason = draw(level), draw(st.sampled_from(Manner)), draw(texts)
        out = isinstance(chosen, LeftOut)
        mark = Mark(*place, None if out else chosen, chosen if out else None, manner, reason)
        marks += [mark] if mark != Mark(*place) else []
    at = st.one_of(st.none(), st.integers(0, 300))
    tap = st.builds(Tap, st.sampled_from(("hundred", "frog")), st.sampled_from(Noticed), at, texts, texts)
    sightings = [st.builds(CriticalSighting, st.just(code), times, texts) for code in ("spring", "spot")]
    return Sheet(
        "", "", "p", "1",
        marks=tuple(marks),
        taps=tuple(draw(st.lists(tap, max_size=4))),
        critical=tuple(draw(one) for one in sightings if draw(st.booleans())),
        stepped_in=tuple(draw(st.lists(st.builds(SteppedIn, times, texts, st.booleans()), max_size=3))),
        grades=tuple(Grade(block, draw(st.integers(0, 4))) for block in "xy" if draw(st.booleans())),
        note=draw(texts),
    )  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=[case["title"] for case in CASES])
def test_a_case_worked_by_hand(case: dict) -> None:
    records = [SheetRecord(**one) for one in case["records"]]
    assert {place: one.id for place, one in standing_records(records).items()} == case["standing"]
    assert next_count(records) == case["next"]


@settings(max_examples=60, deadline=None)
@given(histories(), st.randoms(use_true_random=False))
def test_any_order_any_repeats_and_any_way_to_meet_make_one_sheet(history, chance) -> None:  # noqa: ANN001
    shuffled = history + [one for one in history if chance.random() < 0.3]
    chance.shuffle(shuffled)
    assert sheet_of(PRACTICAL, shuffled) == sheet_of(PRACTICAL, history)
    assert standing_records(shuffled) == standing_records(history)


@settings(max_examples=60, deadline=None)
@given(histories(), sheets())
def test_the_form_s_records_make_the_form_s_sheet_whatever_was_there(history, sheet) -> None:  # noqa: ANN001
    added = changes(PRACTICAL, history, sheet)
    assert sheet_of(PRACTICAL, [*history, *added]) == in_order(PRACTICAL, sheet)
    assert changes(PRACTICAL, [*history, *added], sheet) == ()
    assert [check_record(PRACTICAL, one) for one in added] == [()] * len(added)


def test_a_record_that_does_not_fit_is_refused_at_its_field() -> None:
    mark = SheetRecord("1", "one", 1, "mark", 0, {"block": "x", "criterion": "a", "choice": "4"})
    assert check_record(PRACTICAL, mark) == ()
    said = {
        "choice": replace(mark, value=mark.value | {"choice": "5"}),
        "criterion": replace(mark, value=mark.value | {"criterion": "c"}),
        "at": replace(mark, at=12 * 60 * 60 + 1),
        "count": replace(mark, count=0),
        "kind": replace(mark, kind="marks"),
        "block": replace(mark, kind="grade", value={"block": "z", "grade": "1"}),
        "grade": replace(mark, kind="grade", value={"block": "x", "grade": "5"}),
        "code": replace(mark, kind="critical", value={"code": "no", "why": "", "exercise": "", "gone": ""}),
        "act": replace(mark, kind="clock", value={"act": "stop", "moment": ""}),
        "text": replace(mark, kind="note", value={"text": "x" * 4001}),
        "of": replace(mark, kind="undo", value={"of": ""}),
    }
    for field, record in said.items():
        assert [one.field for one in check_record(PRACTICAL, record)] == [field], field
    assert [one.field for one in check_record(PRACTICAL, replace(mark, value={"block": "x"}))] == ["kind"]
