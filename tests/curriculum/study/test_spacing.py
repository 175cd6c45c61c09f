"""The spacing against the library `fsrs` itself and against the published formulas of its algorithm.

FSRS-6 as its authors publish it: a first answer gives the stability w0 to w3 for Again to Easy; at the retention of 90 %
the interval in days is the stability itself. The default weights are those that come with the library.
"""

from datetime import UTC, date, datetime, timedelta

import pytest
from fsrs import Card, Rating, Scheduler
from hypothesis import given, settings
from hypothesis import strategies as st

from curriculum.study.spacing import ANSWERS, LONGEST_DAYS, RATINGS, after, replayed

START = date(2026, 1, 5)
SEQUENCES = st.lists(st.tuples(st.sampled_from(ANSWERS), st.integers(0, 40)), min_size=1, max_size=12)


@settings(max_examples=60, deadline=None)
@given(SEQUENCES)
def test_the_same_answers_give_what_the_library_gives(sequence: list[tuple[str, int]]) -> None:
    library = Scheduler(learning_steps=(), relearning_steps=(), maximum_interval=LONGEST_DAYS, enable_fuzzing=False)
    card, day, given_answers = Card(card_id=1), START, []
    for answer, days in sequence:
        day += timedelta(days=days)
        card, _ = library.review_card(card, RATINGS[answer], datetime(day.year, day.month, day.day, tzinfo=UTC))
        given_answers.append((answer, day))
    memory = replayed(given_answers)
    assert (memory.stability, memory.difficulty) == (card.stability, card.difficulty)
    assert (memory.due_on, memory.last_on) == (card.due.date(), day)
    assert (memory.times, memory.answer) == (len(sequence), sequence[-1][0])


@pytest.mark.parametrize(("answer", "days"), [("blank", 1), ("prompted", 1), ("known", 2), ("teach", 8)])
def test_the_first_interval_is_the_rounded_weight_of_its_answer_and_a_day_at_least(answer: str, days: int) -> None:
    """Weights 0.212, 1.2931, 2.3065, 8.2956."""
    assert after(None, answer, START).due_on == START + timedelta(days=days)


def test_only_blank_counts_as_forgotten() -> None:
    assert [answer for answer, rating in RATINGS.items() if rating is Rating.Again] == ["blank"]
    assert sorted(RATINGS.values()) == [1, 2, 3, 4]


def test_a_better_answer_never_comes_back_sooner() -> None:
    memory = after(after(None, "known", START), "known", START + timedelta(days=2))
    due = [after(memory, answer, memory.due_on).due_on for answer in ANSWERS]
    assert due == sorted(due)


def test_nothing_leaves_for_longer_than_a_year() -> None:
    memory = None
    for _ in range(12):
        memory = after(memory, "teach", memory.due_on if memory else START)
    assert (memory.due_on - memory.last_on).days == LONGEST_DAYS


def test_an_answer_that_there_is_not_is_refused() -> None:
    with pytest.raises(ValueError, match="perhaps"):
        after(None, "perhaps", START)


def test_without_answers_nothing_is_remembered() -> None:
    assert replayed([]) is None
