"""Properties that hold for any practical and any sheets, and a second computation in plain floats."""

from dataclasses import replace
from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from assessments.practicals.result import Recommendation, result
from assessments.practicals.sheets import (
    CriticalSighting,
    LeftOut,
    SheetState,
    put_mark,
)
from tests.assessments.practicals.cast import practical, sheet


@st.composite
def shares_of_hundred(draw, names):
    cuts = sorted(
        draw(
            st.lists(
                st.integers(1, 99),
                min_size=len(names) - 1,
                max_size=len(names) - 1,
                unique=True,
            )
        )
    )
    edges = [0, *cuts, 100]
    return {name: edges[place + 1] - edges[place] for place, name in enumerate(names)}


@st.composite
def exams(draw):
    parts = draw(shares_of_hundred(["x", "y", "z"][: draw(st.integers(1, 3))]))
    criteria = draw(shares_of_hundred(["a", "b", "c", "d"][: draw(st.integers(1, 4))]))
    best = draw(st.sampled_from(["highest", "lowest"]))
    made = practical(parts, criteria, best=best, lowest=1, highest=4)
    value = st.one_of(st.integers(1, 4), st.sampled_from(list(LeftOut)))
    marks = st.fixed_dictionaries({(part, one): value for part in parts for one in criteria})
    return (
        made,
        parts,
        criteria,
        best,
        tuple(sheet(made, name, draw(marks)) for name in "ab"),
    )


def in_plain_floats(parts, criteria, best, sheets):
    top = bottom = 0.0
    for part, part_weight in parts.items():
        for one, weight in criteria.items():
            seen = [float(s.mark(part, one).level) for s in sheets if s.mark(part, one).level is not None]
            if seen:
                shares = [(level - 1) / 3 if best == "highest" else (4 - level) / 3 for level in seen]
                top += part_weight * weight * sum(shares) / len(shares)
                bottom += part_weight * weight
    return 100 * top / bottom if bottom else None


@settings(deadline=None, max_examples=150)
@given(exams())
def test_the_total_agrees_with_plain_floats(exam):
    made, parts, criteria, best, sheets = exam
    total, plain = (
        result(made, sheets).scores.total,
        in_plain_floats(parts, criteria, best, sheets),
    )
    assert (total is None) == (plain is None)
    assert total is None or abs(float(total) - plain) < 1e-9


@settings(deadline=None, max_examples=100)
@given(exams())
def test_the_order_of_sheets_does_not_matter(exam):
    made, *_, sheets = exam
    assert result(made, sheets) == result(made, sheets[::-1])


@settings(deadline=None, max_examples=100)
@given(exams(), st.data())
def test_a_better_level_never_lowers_a_total_or_a_part(exam, data):
    made, _, _, best, sheets = exam
    scored = [mark for mark in sheets[0].marks if mark.level is not None]
    if not scored:
        return
    mark = data.draw(st.sampled_from(scored))
    better = min(Fraction(4), mark.level + 1) if best == "highest" else max(Fraction(1), mark.level - 1)
    opened = put_mark(replace(sheets[0], state=SheetState.ON_DEVICE), replace(mark, level=better))
    before, after = (
        result(made, sheets),
        result(made, (replace(opened, state=SheetState.SENT), sheets[1])),
    )
    assert after.scores.total >= before.scores.total
    for old, new in zip(before.scores.parts, after.scores.parts, strict=True):
        assert old.per_cent is None or new.per_cent >= old.per_cent


@settings(deadline=None, max_examples=100)
@given(exams(), st.sampled_from(["spring", "spot"]))
def test_a_confirmed_critical_fault_never_passes(exam, code):
    made, *_, sheets = exam
    seen = (CriticalSighting(code, 1, "seen"),)
    both = tuple(replace(one, critical=seen) for one in sheets)
    assert result(made, both).recommendation is Recommendation.FAIL


@settings(deadline=None, max_examples=100)
@given(exams())
def test_every_total_lies_from_0_to_100_and_weights_add_up(exam):
    made, *_, sheets = exam
    scores = result(made, sheets).scores
    assert scores.total is None or 0 <= scores.total <= 100
    assert sum(cell.weight for cell in made.cells()) == 100
