"""Simulations in words: what was looked at, what is expected, and where a method falls short."""

from collections.abc import Iterator, Sequence

from app.wording.languages import ENGLISH, Language
from assessments.measurement.simulation.study import Finding, Study
from curriculum.faults import N_

TITLE = N_("{title} ({runs} runs)")
LINE = N_("  {what}: {value} ± {error}; expected {low} to {high}. {verdict}")
AS_EXPECTED = N_("As expected.")
BY_CHANCE = N_("Outside, but so few runs can't tell it from chance.")
SHORT = N_("Falls short.")
NOTHING = N_("No run could answer.")
ALL_WELL = N_("Nothing falls short of what is expected.")
SUMMARY = N_("Of {all} results, {short} fall short of what is expected:")
MISSED = N_("  {study}: {what}: {value}, expected {low} to {high}")
HEADER = (N_("what was looked at"), N_("found"), N_("±"), N_("expected"), N_("verdict"))
DIGITS = 3


def what(finding: Finding, language: Language = ENGLISH) -> str:
    """What a measure looks at."""
    values = {name: _said(value, language) for name, value in finding.measure.values.items()}
    return language(finding.measure.sentence, **values)


def verdict(finding: Finding, language: Language = ENGLISH) -> str:
    if not finding.observations:
        return language(NOTHING)
    return language(AS_EXPECTED if finding.as_expected else SHORT if finding.falls_short else BY_CHANCE)


def study_sentences(study: Study, found: Sequence[Finding], runs: int, language: Language = ENGLISH) -> Iterator[str]:
    yield language(TITLE, title=language(study.title), runs=language.figure(runs))
    for finding in found:
        yield language(
            LINE, what=what(finding, language), **_figures(finding, language), verdict=verdict(finding, language)
        )


def summary_sentences(found: Sequence[tuple[Study, Finding]], language: Language = ENGLISH) -> Iterator[str]:
    """What falls short, of everything that was run."""
    short = [(study, finding) for study, finding in found if finding.falls_short]
    if not short:
        yield language(ALL_WELL)
        return
    yield language(SUMMARY, all=language.figure(len(found)), short=language.figure(len(short)))
    for study, finding in short:
        figures = _figures(finding, language)
        figures.pop("error")
        yield language(MISSED, study=study.name, what=what(finding, language), **figures)


def study_table(study: Study, found: Sequence[Finding], runs: int, language: Language = ENGLISH) -> Iterator[str]:
    """The same as a table in Markdown."""
    yield f"### {language(TITLE, title=language(study.title), runs=language.figure(runs))}"
    yield ""
    yield f"| {' | '.join(language(name) for name in HEADER)} |"
    yield "|---|---|---|---|---|"
    for finding in found:
        shown = _figures(finding, language)
        ends = language(N_("{low} to {high}"), low=shown["low"], high=shown["high"])
        cells = (what(finding, language), shown["value"], shown["error"], ends, verdict(finding, language))
        yield f"| {' | '.join(cells)} |"
    yield ""


def _figures(finding: Finding, language: Language) -> dict[str, str]:
    measure = finding.measure
    numbers = {"value": finding.value, "error": finding.error, "low": measure.low, "high": measure.high}
    return {name: language.decimal(number, DIGITS) for name, number in numbers.items()}


def _said(value: object, language: Language) -> str:
    return language(value) if isinstance(value, str) else language.figure(value)
