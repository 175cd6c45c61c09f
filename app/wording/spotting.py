"""Fault spotting in sentences: what was found, how good the eye is, which way it leans."""

from collections.abc import Mapping

from app.wording.languages import Language
from assessments.measurement.limits import DEFAULT_LIMITS
from assessments.measurement.statistic import Statistic
from assessments.spotting.scoring import Answer, Counts, Eye, area
from curriculum.faults import N_

LEAST = int(DEFAULT_LIMITS.detection.withhold["signal_trials"])
# One tap each: what the button says, and whether it says wrong and sure.
VERDICTS: Mapping[str, tuple[str, bool, bool]] = {
    "wrong-sure": (N_("Something is wrong: I am sure"), True, True),
    "wrong-unsure": (N_("Something is wrong: I think so"), True, False),
    "sound-sure": (N_("This is sound: I am sure"), False, True),
    "sound-unsure": (N_("This is sound: I think so"), False, False),
}
FOUND = N_("You found {hits} of {planted} planted faults and called {alarms} of {sound} sound moments wrong.")
EYE = N_("Your eye for faults is {figure} (0 is guessing, 3 is near perfect; likely between {low} and {high}).")
HELD = N_(
    "That is too little for a figure: it takes {least} planted and {least} sound moments. They add up over lessons, "
    "so it comes by itself."
)
FEW = N_("These are still few moments: take the figure with its range, not by itself.")
LETS_PASS = N_("You lean towards letting things pass: when in doubt, you say sound.")
CALLS_WRONG = N_("You lean towards calling things wrong: when in doubt, you say wrong.")
NO_LEANING = N_("No leaning can be told: you may let pass as readily as you call wrong.")
TRUSTED = N_(
    "Given one faulty and one sound moment, you doubt the faulty one more in {share} cases of 100, a tie counting half."
)
NAMED = N_("Of {named} found faults whose kind you named, {right} were of that kind.")
GROUP_FOUND = N_(
    "Together they found {hits} of {planted} planted faults and called {alarms} of {sound} sound moments wrong."
)
GROUP_EYE = N_(
    "A typical eye of the group is {figure} (0 is guessing, 3 is near perfect; likely between {low} and {high}), "
    "with each person's own leaning allowed for."
)
GROUP_HELD = N_("That is too little for a figure of the group yet.")
TRAINEES, EXAMINERS = N_("Trainees"), N_("Examiners")
OF_ALL = N_("{some} of {all}")


def verdict_text(answer: Answer, language: Language) -> str:
    """What was said of a moment, as its button says it."""
    return next(
        language(words) for words, wrong, sure in VERDICTS.values() if (wrong, sure) == (answer.wrong, answer.sure)
    )


def eye_sentences(found: Eye, language: Language) -> tuple[str, ...]:
    """What somebody reads of their own answers, the figure only if it can be shown."""
    lines = [language(FOUND, **_counts(found.counts, language))]
    if found.d_prime.estimate is None:
        return (*lines, language(HELD, least=language.figure(LEAST)))
    lines += [language(EYE, **_figures(found.d_prime, language)), language(leaning(found.criterion))]
    doubted = area(found.counts.planted, found.counts.sound)
    lines.append(language(TRUSTED, share=language.figure(round(100 * doubted))))
    if found.counts.named:
        named, right = (language.figure(number) for number in (found.counts.named, found.counts.named_right))
        lines.append(language(NAMED, named=named, right=right))
    return (*lines, language(FEW)) if found.few else tuple(lines)


def group_sentences(counts: Counts, typical: Statistic, language: Language) -> tuple[str, ...]:
    """What a director reads of a group."""
    line = language(GROUP_FOUND, **_counts(counts, language))
    if typical.estimate is None:
        return line, language(GROUP_HELD)
    return line, language(GROUP_EYE, **_figures(typical, language))


def leaning(criterion: Statistic) -> str:
    """Which way it leans, if the interval keeps clear of 0."""
    if criterion.low is not None and criterion.low > 0:
        return LETS_PASS
    if criterion.high is not None and criterion.high < 0:
        return CALLS_WRONG
    return NO_LEANING


def figure_text(statistic: Statistic, language: Language) -> str:
    """A figure with its range, to two digits; a dash if it is held back."""
    if statistic.estimate is None:
        return "–"
    shown = (language.decimal(value, 2) for value in (statistic.estimate, statistic.low, statistic.high))
    return language(N_("{figure} ({low} to {high})"), **dict(zip(("figure", "low", "high"), shown, strict=True)))


def of_all(some: int, all: int, language: Language) -> str:
    return language(OF_ALL, some=language.figure(some), all=language.figure(all))


def _counts(counts: Counts, language: Language) -> dict[str, str]:
    names = ("hits", "planted", "alarms", "sound")
    return {name: language.figure(number) for name, number in zip(names, counts.row, strict=True)}


def _figures(statistic: Statistic, language: Language) -> dict[str, str]:
    shown = (statistic.estimate, statistic.low, statistic.high)
    return {name: language.decimal(value, 1) for name, value in zip(("figure", "low", "high"), shown, strict=True)}
