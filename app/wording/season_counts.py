"""What a season is counted in, in the plural that goes with the number."""

from collections.abc import Callable, Mapping

from app.wording.languages import Language

Counted = Callable[[Language, int], str]

# By what a limit counts (`assessments.measurement.limits`).
THINGS: Mapping[str, Counted] = {
    "units with two ratings": lambda language, number: exams_with_two_sheets(language, number),
    "common units": lambda language, number: exams_with_two_sheets(language, number),
    "candidates": lambda language, number: language.ngettext("{number} exam", "{number} exams", number),
    "examiners": lambda language, number: examiners(language, number),
    "ratings": lambda language, number: language.ngettext("{number} rating", "{number} ratings", number),
    "sessions": lambda language, number: language.ngettext(
        "{number} exam day with ratings enough", "{number} exam days with ratings enough", number
    ),
    "grades used": lambda language, number: language.ngettext(
        "{number} overall grade in use", "{number} overall grades in use", number
    ),
    "borderline candidates": lambda language, number: language.ngettext(
        "{number} exam that was borderline overall", "{number} exams that were borderline overall", number
    ),
    "candidates in the smaller group": lambda language, number: language.ngettext(
        "{number} exam in the smaller group", "{number} exams in the smaller group", number
    ),
    "judges": lambda language, number: language.ngettext("{number} judge", "{number} judges", number),
    "ratings a session": lambda language, number: language.ngettext(
        "{number} rating a day", "{number} ratings a day", number
    ),
}
# By why something takes no part (`assessments.season.gathered.LeftOut`).
LEFT_OUT: Mapping[str, Counted] = {
    "void": lambda language, number: language.ngettext(
        "{number} exam that was declared void", "{number} exams that were declared void", number
    ),
    "waiting": lambda language, number: language.ngettext(
        "{number} exam whose first sheets are not all sent, so that nothing is given away",
        "{number} exams whose first sheets are not all sent, so that nothing is given away",
        number,
    ),
    "second-marking": lambda language, number: language.ngettext(
        "{number} sheet of a further examiner, who was called in because of the result",
        "{number} sheets of further examiners, who were called in because of the result",
        number,
    ),
    "after-talking": lambda language, number: language.ngettext(
        "{number} version that was made after the examiners had talked; the one made alone counts",
        "{number} versions that were made after the examiners had talked; those made alone count",
        number,
    ),
    "no-level": lambda language, number: language.ngettext(
        "{number} criterion without a level: not seen, not reached or declined",
        "{number} criteria without a level: not seen, not reached or declined",
        number,
    ),
    "no-grade": lambda language, number: language.ngettext(
        "{number} block without a grade", "{number} blocks without a grade", number
    ),
}


def examiners(language: Language, number: int) -> str:
    return language.ngettext("{number} examiner", "{number} examiners", number)


def exams_with_two_sheets(language: Language, number: int) -> str:
    return language.ngettext("{number} exam with two sheets", "{number} exams with two sheets", number)


def exams_outside(language: Language, number: int) -> str:
    """Points of a control chart that lie outside its limits."""
    return language.ngettext(
        "{number} exam outside the dashed lines", "{number} exams outside the dashed lines", number
    )
