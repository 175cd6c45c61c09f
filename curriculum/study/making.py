"""Every question that an edition holds an answer to, in its order."""

from curriculum.repertoire.edition import Edition
from curriculum.study.order_questions import before_questions, name_questions, next_questions
from curriculum.study.question import Question
from curriculum.study.set_up_questions import (
    check_questions,
    set_up_questions,
    spot_questions,
    spring_questions,
    tempo_questions,
    transition_questions,
    way_questions,
)
from curriculum.study.teaching_questions import adaptation_questions, caution_questions, fault_questions

MAKERS = (
    next_questions,
    before_questions,
    name_questions,
    set_up_questions,
    spring_questions,
    check_questions,
    way_questions,
    tempo_questions,
    spot_questions,
    transition_questions,
    fault_questions,
    adaptation_questions,
    caution_questions,
)


def questions_of(edition: Edition) -> tuple[Question, ...]:
    """All questions, exercise by exercise in the order of the edition."""
    place = {one.id: number for number, one in enumerate(edition.exercises)}
    made = [question for make in MAKERS for question in make(edition)]
    return tuple(sorted(made, key=lambda question: place[question.exercise]))
