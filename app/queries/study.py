"""The study pages: the next few questions, what is due and new, and how much of each series is known."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

from app.queries.repertoire import exercise_href
from app.storage.recalls import Wish
from app.storage.work import Work
from app.wording.languages import Language
from app.wording.study import answer_rows, prompt_text
from curriculum.repertoire.edition import Edition
from curriculum.study.choosing import chosen_questions, due_questions, new_questions, next_few
from curriculum.study.making import questions_of
from curriculum.study.question import Question
from curriculum.study.spacing import Memory

A_SITTING = 5


@dataclass(frozen=True, slots=True)
class Asked:
    """One question as it is asked; `answer_id` is the id that its answer will have."""

    answer_id: str
    id: str
    number: int
    prompt: str
    exercise: str
    above: str
    answer: tuple[tuple[str, str], ...]
    confirm: bool
    frame: str
    stop: str
    href: str
    new: bool


@dataclass(frozen=True, slots=True)
class StudyOverview:
    """A sitting: what is left of it, how many were answered today, and what can be taken back ("" for nothing)."""

    asked: tuple[Asked, ...]
    of: int
    answered_today: int
    due: int
    new: int
    all: int
    last_id: str
    last_prompt: str
    wish: Wish

    @property
    def done(self) -> bool:
        """Whether today's five are answered."""
        return self.answered_today > 0 and self.answered_today % A_SITTING == 0


@dataclass(frozen=True, slots=True)
class SeriesKnown:
    """One series: questions in all, answered at least once, known at the last answer, and due."""

    name: str
    href: str
    all: int
    answered: int
    known: int
    due: int


@dataclass(frozen=True, slots=True)
class _Made:
    """Questions of an edition, kept while it is; compared by which edition it is, not by all that is in it."""

    edition: Edition

    def __hash__(self) -> int:
        return id(self.edition)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Made) and other.edition is self.edition


@lru_cache(maxsize=16)
def _questions(made: _Made) -> tuple[Question, ...]:
    return questions_of(made.edition)


def all_questions(edition: Edition) -> tuple[Question, ...]:
    """Every question of an edition, made once."""
    return _questions(_Made(edition))


def study_overview(
    work: Work, person_id: str, edition: Edition, day: date, more: bool, new_id: Callable[[], str], language: Language
) -> StudyOverview:
    """The rest of today's five (or of five more), one's own choice of apparatus and level in mind."""
    wish, memories = work.recalls.wish(person_id), work.recalls.memories(person_id)
    wish = Wish(
        tuple(one.id for one in edition.apparatus if one.id in wish.apparatus),
        wish.level if wish.level in {one.id for one in edition.levels} else "",
    )
    chosen = chosen_questions(edition, all_questions(edition), wish.apparatus, wish.level)
    due = due_questions(chosen, memories, day)
    new = new_questions(edition, chosen, memories, f"{person_id} {day.isoformat()}")
    today = len(work.recalls.answers_on(person_id, day))
    before = 0 if more and today % A_SITTING == 0 else today % A_SITTING
    left = 0 if today and today % A_SITTING == 0 and not more else A_SITTING - before
    few = next_few(due, new, A_SITTING)[:left]
    last = work.recalls.last_answer(person_id)
    prompts = {one.id: one for one in all_questions(edition)}
    undoable = last is not None and last.day == day
    return StudyOverview(
        tuple(
            _asked(edition, one, memories, before + place, new_id(), language) for place, one in enumerate(few, start=1)
        ),
        min(A_SITTING, before + len(few)),
        today,
        len(due),
        len(new),
        len(chosen),
        last.id if undoable else "",
        prompt_text(prompts[last.question], language) if undoable and last.question in prompts else "",
        wish,
    )


def known_by_series(
    work: Work, person_id: str, edition: Edition, day: date
) -> tuple[tuple[str, tuple[SeriesKnown, ...]], ...]:
    """How many questions of each series are known, apparatus by apparatus."""
    memories = work.recalls.memories(person_id)
    by_exercise: dict[str, list[Question]] = {}
    for one in all_questions(edition):
        by_exercise.setdefault(one.exercise, []).append(one)
    found = []
    for apparatus in edition.apparatus:
        rows = []
        for series in edition.series_of(apparatus.id):
            asked = [one for exercise in edition.in_series(series.id) for one in by_exercise.get(exercise.id, ())]
            mine = [memories[one.id] for one in asked if one.id in memories]
            known, due = sum(one.known for one in mine), sum(one.due_on <= day for one in mine)
            href = f"/repertoire/{apparatus.id}#{series.id}"
            rows.append(SeriesKnown(series.name, href, len(asked), len(mine), known, due))
        if rows:
            found.append((apparatus.name, tuple(rows)))
    return tuple(found)


def _asked(
    edition: Edition, one: Question, memories: dict[str, Memory], number: int, answer_id: str, language: Language
) -> Asked:
    exercise = edition.exercise(one.exercise)
    apparatus = edition.apparatus_named(exercise.apparatus)
    place = f"#{one.place}" if one.place else ""
    return Asked(
        answer_id,
        one.id,
        number,
        prompt_text(one, language),
        exercise.name,
        apparatus.name if apparatus else "",
        answer_rows(one, exercise.confirm, language),
        one.confirm,
        edition.frame if one.framed else "",
        edition.stop if one.kind == "caution" else "",
        exercise_href(exercise.id) + place,
        one.id not in memories,
    )
