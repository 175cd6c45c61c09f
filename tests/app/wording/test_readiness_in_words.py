"""Every code that readiness can give has its sentence."""

from dataclasses import replace
from datetime import date

import pytest

from app.wording import readiness as words
from assessments.readiness.evidence import DocumentEvidence, Evidence, ModuleEvidence, PracticalEvidence
from assessments.readiness.report import report
from tests.assessments.readiness.cast import ALL, EARLY, FULL, ON, short

DAYS = (None, date(2026, 3, 9))


def cases():
    for day in DAYS:
        for state in ("booked", "marking", "deciding", "passed", "referred", "failed"):
            for left in (0, 1):
                yield Evidence(practicals=(PracticalEvidence("final", state, day, ("Mat",), day, left),))
        for state in ("booked", "attended", "completed"):
            yield Evidence(modules=(ModuleEvidence("anatomy", state, day),))
        for checked in (False, True):
            for ends in (None, ON, date(2026, 2, 1), date(2030, 1, 1)):
                yield Evidence(documents=(DocumentEvidence("insurance", checked, day, ends),))
    yield from (
        FULL,
        EARLY,
        Evidence(),
        short(4_200, 60),
        short(4_200, window_end=date(2026, 4, 1)),
        short(10, window_end=None),
    )


def test_every_code_has_a_sentence_and_every_sentence_its_code():
    lines, gaps = {}, {}
    for evidence in cases():
        found = report(ALL, evidence, ON)
        assert words.answer(found)
        lines |= {line.code: words.criterion_text(line) for line in found.lines}
        gaps |= {gap.code: words.gap_text(gap) for gap in found.gaps}
    assert (set(lines), set(gaps)) == (set(words.LINES), set(words.TO_DO))
    assert not any("{" in text or "None" in text for text in (*lines.values(), *gaps.values()))


@pytest.mark.parametrize(("end", "more"), [(date(2026, 12, 31), ", before 31 Dec 2026."), (None, ".")])
def test_the_answer_says_when(end, more):
    found = words.answer(report(ALL, short(4_200, window_end=end), ON))
    assert found == f"Not ready yet. At the usual pace everything can be there by 5 Jul 2026{more}"


def test_what_waits_for_a_gate_names_it():
    found = {gap.criterion: gap for gap in report(ALL, short(4_200), ON).gaps}
    titles = {one.id: one.title for one in ALL.criteria}
    assert words.waits_text(found["final"], titles) == "Can't start before: Hours, Anatomy."
    assert words.waits_text(replace(found["final"], can_start_today=True), titles) == ""


def test_whom_it_waits_on_is_counted():
    assert words.waiting_on(report(ALL, short(4_200, 60), ON)) == "Waiting on: trainee 5, host 1."
