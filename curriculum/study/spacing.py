"""When a question is asked again: the open scheduler FSRS (library `fsrs`), by whole days and without chance."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, date, datetime

from fsrs import Card, Rating, Scheduler, State

# What a trainee says of an answer, least first. The scheduler takes only Again for forgotten; an answer that came
# late, in part or after a prompt was still recalled, which is its Hard. Known is its Good, and what one could teach
# somebody else is its Easy.
RATINGS = {
    "blank": Rating.Again,
    "prompted": Rating.Hard,
    "known": Rating.Good,
    "teach": Rating.Easy,
}
ANSWERS = tuple(RATINGS)
KNOWN = ("known", "teach")
LONGEST_DAYS = 365
# No steps within a day, since there is one sitting a day; a question never leaves for longer than a year.
SCHEDULER = Scheduler(learning_steps=(), relearning_steps=(), maximum_interval=LONGEST_DAYS, enable_fuzzing=False)


@dataclass(frozen=True, slots=True)
class Memory:
    """How well a question is remembered: `stability` in days until nine in ten would still recall it, `difficulty`
    from 1 to 10, the days of the last answer and of the next asking, and how often it was answered."""

    stability: float
    difficulty: float
    last_on: date
    due_on: date
    times: int
    answer: str

    @property
    def known(self) -> bool:
        """Whether the last answer was known, or could be taught."""
        return self.answer in KNOWN


def after(memory: Memory | None, answer: str, day: date) -> Memory:
    """What is remembered after an answer on a day; None before the first. Raises ValueError for another answer."""
    if answer not in RATINGS:
        raise ValueError(answer)
    card, _ = SCHEDULER.review_card(_card(memory, day), RATINGS[answer], _moment(day))
    times = memory.times + 1 if memory else 1
    return Memory(card.stability, card.difficulty, day, card.due.date(), times, answer)


def replayed(answers: Iterable[tuple[str, date]]) -> Memory | None:
    """What is remembered after answers, each with its day, the earliest first; None without any."""
    memory = None
    for answer, day in answers:
        memory = after(memory, answer, day)
    return memory


def _card(memory: Memory | None, day: date) -> Card:
    """The library's card; its own id is a clock reading and plays no part."""
    if memory is None:
        return Card(card_id=0, due=_moment(day))
    return Card(
        0, State.Review, None, memory.stability, memory.difficulty, _moment(memory.due_on), _moment(memory.last_on)
    )


def _moment(day: date) -> datetime:
    return datetime(day.year, day.month, day.day, tzinfo=UTC)
