"""Calibration in words: how somebody stands, how near they came, in which direction and where."""

from collections.abc import Mapping

from app.wording.dates import day_text
from app.wording.languages import Language
from assessments.calibration.comparing import Distance
from assessments.calibration.standing import Standing, State
from assessments.practicals.specification import Calibration, Practical
from curriculum.faults import N_

STATES: Mapping[State, tuple[str, str]] = {
    State.HOLDS: (N_("calibrated until {until}"), "done"),
    State.TOO_FEW: (N_("{done} of {wanted} performances scored"), "waiting"),
    State.OUTSIDE: (N_("too far from the reference"), "behind"),
    State.LAPSED: (N_("the calibration has lapsed"), "behind"),
    State.NOT_ASKED: (N_("no calibration is asked for"), "quiet"),
}
NEAR = N_("Your marks lie {levels} from the reference on average (in levels); {same} of {marks} are the same.")
EVEN = N_("As strict as the reference on the whole.")
STRICTER = N_("On the whole {marks} marks of 100 stricter than the reference.")
MILDER = N_("On the whole {marks} marks of 100 more lenient than the reference.")
STRICTER_ON = N_("Stricter on {criterion}, by {levels} on average (in levels).")
MILDER_ON = N_("More lenient on {criterion}, by {levels} on average (in levels).")
PUBLISHED = N_("The reference: {how}")
FOUNDED = N_(
    "The reference is the school's own: {number} examiners scored alone before there was one, and the median of their"
    " marks has been the reference since {day}. Whoever was among them is held against the others."
)
NOT_FOUNDED = N_(
    "There is no reference yet. This school sets it by its own founding panel: everybody scores alone, and the school"
    " sets the reference once {founders} have."
)
# A direction smaller than this on a criterion is not worth a sentence.
WORTH_SAYING = 0.5


def state_words(found: Standing, rules: Calibration, language: Language) -> tuple[str, str]:
    """How somebody stands, and the kind of state that supports it."""
    sentence, kind = STATES[found.state]
    until = day_text(found.until, language.locale) if found.until else ""
    return language(sentence, until=until, done=len(found.counted), wanted=rules.performances), kind


def rules_text(rules: Calibration, language: Language) -> str:
    """What a calibration asks, in a sentence."""
    sentence = N_(
        "A place on panels needs {performances} performances scored alone within {months} months: a mark at most {levels}"
        " from the reference on average (in levels), and the whole at most {total} marks of 100."
    )
    values = {"performances": rules.performances, "months": rules.months}
    return language(sentence, **values, levels=figure(rules.distance, language), total=figure(rules.total, language))


def figure(value: object, language: Language) -> str:
    """A number with at most two decimals."""
    return language.figure(round(float(value), 2))


def direction_text(found: Distance, language: Language) -> str:
    """Whether somebody is strict or lenient on the whole."""
    marks = round(float(found.stricter), 1)
    if not marks:
        return language(EVEN)
    return language(STRICTER if marks > 0 else MILDER, marks=language.figure(abs(marks)))


def distance_texts(found: Distance, practical: Practical, language: Language) -> list[str]:
    """How near, in which direction, and on which criteria."""
    near = {"levels": figure(found.levels, language), "same": found.same, "marks": len(found.marks)}
    return [language(NEAR, **near), direction_text(found, language), *where_texts(found, practical, language)]


def where_texts(found: Distance, practical: Practical, language: Language) -> list[str]:
    """The criteria on which somebody leans, the most first."""
    titles = {one.id: one.title for one in practical.criteria}
    leaning = sorted(found.by_criterion.items(), key=lambda one: (-abs(one[1]), one[0]))
    return [
        language(
            STRICTER_ON if levels > 0 else MILDER_ON,
            criterion=titles.get(id, id),
            levels=figure(abs(levels), language),
        )
        for id, levels in leaning
        if abs(levels) >= WORTH_SAYING
    ]
