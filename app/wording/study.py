"""Study questions in words: prompts and answers, how well an answer was known."""

from collections.abc import Callable

from app.wording.languages import Language
from app.wording.repertoire import BAR_LOCKS, CUE_KINDS, position_text, set_up_rows
from curriculum.faults import N_
from curriculum.repertoire.set_up import SetUp
from curriculum.study.question import Line, Question

ANSWERS = {
    "blank": N_("Blank"),
    "prompted": N_("Only with a prompt"),
    "known": N_("Known"),
    "teach": N_("Could teach it"),
}


def prompt_text(question: Question, language: Language) -> str:
    """What is asked."""
    return _text(question.prompt, language)


def answer_rows(question: Question, confirm: tuple[str, ...], language: Language) -> tuple[tuple[str, str], ...]:
    """The answer: (term, text) pairs for a set-up, with "" for a term elsewhere."""
    rows: list[tuple[str, str]] = []
    for one in question.answer:
        set_up = one.values.get("set_up")
        if isinstance(set_up, SetUp):
            rows += set_up_rows(set_up, confirm, language)
        else:
            rows.append(("", _text(one, language)))
    return tuple(rows)


WORDS: dict[str, Callable[[object, Language], str]] = {
    "position": position_text,
    "cue": lambda kind, language: language(CUE_KINDS[kind]),
    "foot_bar": lambda kind, language: language(BAR_LOCKS[kind]),
    "number": lambda number, language: language.figure(number),
}


def _text(one: Line, language: Language) -> str:
    values = {name: WORDS[name](value, language) if name in WORDS else value for name, value in one.values.items()}
    return language(one.sentence, **values)
