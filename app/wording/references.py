"""Reference values in words and as a table."""

from collections.abc import Iterator, Sequence

from app.wording.faults import fault_text
from app.wording.languages import ENGLISH, Language
from assessments.measurement.reference_value import NOT_COMPUTED, ReferenceValue
from curriculum.faults import N_

COUNTED = N_(
    "Of {all} values {agree} agree within their tolerance, {differ} differ, {not_computed} are not computed here."
)
DIFFERS = N_("  {entry}, {key}: {computed} here, {expected} by {by} (tolerance {tolerance})")
NOT_HERE = N_("  {entry}, {key}: not computed: {why}")
NO_REASON = N_("no command gives it")
HEADER = (
    N_("data"), N_("value"), N_("printed"), N_("recomputed by"), N_("their value"), N_("value here"), N_("tolerance"),
    N_("agrees"),
)  # fmt: skip
YES, NO = N_("yes"), N_("no")


def counted(values: Sequence[ReferenceValue], language: Language = ENGLISH) -> str:
    agree, differ = sum(bool(value.agrees) for value in values), sum(value.differs for value in values)
    numbers = {"all": len(values), "agree": agree, "differ": differ, "not_computed": len(values) - agree - differ}
    return language(COUNTED, **{name: language.figure(number) for name, number in numbers.items()})


def reference_sentences(values: Sequence[ReferenceValue], language: Language = ENGLISH) -> Iterator[str]:
    """How many agree, and each that does not."""
    yield counted(values, language)
    for value in values:
        if value.differs:
            shown = {name: _shown(getattr(value, name), language) for name in ("computed", "expected")}
            where = {"entry": value.entry, "key": value.key, "by": value.by, "tolerance": f"{value.tolerance:g}"}
            yield language(DIFFERS, **where, **shown)
        elif value.computed is NOT_COMPUTED:
            yield language(NOT_HERE, entry=value.entry, key=value.key, why=_why(value, language))


def reference_table(values: Sequence[ReferenceValue], language: Language = ENGLISH) -> Iterator[str]:
    """Every value, as a table in Markdown."""
    yield counted(values, language)
    yield ""
    yield f"| {' | '.join(language(name) for name in HEADER)} |"
    yield "|" + "---|" * len(HEADER)
    for value in values:
        missing = value.computed is NOT_COMPUTED
        cells = [value.entry, value.key, _shown(value.published, language), value.by, _shown(value.expected, language)]
        cells += ["–" if missing else _shown(value.computed, language), f"{value.tolerance:g}"]
        cells.append(_why(value, language) if missing else language(YES if value.agrees else NO))
        yield f"| {' | '.join(cell.replace('|', '/') for cell in cells)} |"


def _why(value: ReferenceValue, language: Language) -> str:
    return fault_text(value.why_not, language) if value.why_not else language(NO_REASON)


def _shown(value: object, language: Language) -> str:
    if value is None:
        return ""
    if isinstance(value, list | tuple):
        return language.listed([_shown(part, language) for part in value])
    if isinstance(value, str):
        return value
    return language.figure(float(f"{float(value):.6g}"))
