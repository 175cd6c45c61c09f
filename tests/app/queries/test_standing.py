"""The cohort's summaries, read all at once, say what each standing says on its own."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, date, datetime

import pytest
from sqlalchemy import event

from app.queries.standing import facts_of, standing_of, summaries_of, summarised
from app.storage.enrolments import ShownDocument, TimeGranted
from app.storage.exams import Exam, ExamDecision
from app.use_cases import demo
from app.use_cases.standings import keep_standings

NOW = datetime(2026, 11, 25, 15, 0, tzinfo=UTC)
TODAY = NOW.date()
SCHOOL = replace(demo.SCHOOL, id="cohort", slug="cohort")


@pytest.fixture
def cohort(store):
    """Three trainees of the demo; the second has every fact there is."""
    demo.fill_school(store, SCHOOL, NOW, trainees=3)
    with store.writing(SCHOOL.id) as work:
        _, second, _ = work.enrolments.all()
        examiner = work.people.with_role("examiner")[0].id
        practical = next(one.id for one in work.editions.of_kind("practical"))
        work.enrolments.add_document(second.id, ShownDocument("d", "first_aid", date(2026, 1, 1), None, examiner, NOW))
        work.enrolments.add_module(second.id, "anatomy", date(2026, 2, 1), examiner)
        work.enrolments.add_time(
            second.id, TimeGranted("g", "leave", date(2026, 3, 1), date(2026, 3, 9), "Illness", examiner, NOW)
        )
        work.exams.add(Exam("e", second.id, practical, date(2026, 5, 1), 600), (examiner,))
        work.exams.add_decision(ExamDecision("e", 1, "pass", "", examiner, NOW))
        work.commit()
    return store


@contextmanager
def statements_of(engine) -> Iterator[list[str]]:
    statements: list[str] = []

    def note(_connection, _cursor, statement, *_more) -> None:
        statements.append(statement)

    event.listen(engine, "before_cursor_execute", note)
    yield statements
    event.remove(engine, "before_cursor_execute", note)


def test_what_is_read_of_all_at_once_is_what_is_read_of_each(cohort):
    with cohort.reading(SCHOOL.id) as work:
        enrolments = work.enrolments.all()
        found = summaries_of(work, enrolments, TODAY)
        for one in enrolments:
            facts = facts_of(work, one)
            assert replace(found[one.id][0], weeks=None, forecast=None) == summarised(
                *standing_of(work, one, TODAY), facts
            )
            assert work.ledger.all_changed_at()[one.id] == work.ledger.changed_at(one.id)
            assert work.exams.all_passed()[one.id] == work.exams.passed(one.id) == facts.practicals
        second = facts_of(work, enrolments[1])
    assert list(second.practicals.values()) == [date(2026, 5, 1)]
    assert (second.modules, "first_aid" in second.documents, len(second.leave)) == (
        {"anatomy": date(2026, 2, 1)},
        True,
        1,
    )


def test_a_kept_cohort_is_read_in_as_many_queries_as_one_trainee(cohort):
    with cohort.reading(SCHOOL.id) as work:
        found = summaries_of(work, work.enrolments.all(), TODAY)
    keep_standings(cohort, SCHOOL.id, {one: kept for one, (_, kept) in found.items()})
    counted = {}
    for number in (1, 3):
        with cohort.reading(SCHOOL.id) as work:
            enrolments = work.enrolments.all()[:number]
            with statements_of(cohort.engine) as statements:
                kept = summaries_of(work, enrolments, TODAY)
        assert all(to_keep is None for _, to_keep in kept.values())
        counted[number] = len(statements)
    assert counted[1] == counted[3] > 0


def test_a_summary_is_made_anew_when_a_fact_comes(cohort):
    with cohort.reading(SCHOOL.id) as work:
        found = summaries_of(work, work.enrolments.all(), TODAY)
    keep_standings(cohort, SCHOOL.id, {one: kept for one, (_, kept) in found.items()})
    with cohort.writing(SCHOOL.id) as work:
        first, *others = work.enrolments.all()
        work.enrolments.add_time(
            first.id, TimeGranted("x", "extension", None, date(2027, 9, 1), "Illness", "director", NOW)
        )
        found = summaries_of(work, [first, *others], TODAY)
    assert [found[one.id][1] is None for one in (first, *others)] == [False, True, True]
