"""Pass marks side by side: the one in use, the judges', and what a season's own grades speak for."""

from collections.abc import Mapping
from dataclasses import dataclass

from app.queries.season_lines import Stretch
from app.wording import seasons as words
from app.wording.languages import Language
from assessments.practicals.specification import Practical
from curriculum.faults import N_

Found = Mapping[str, object]
ENDS = ("estimate", "low", "high")
IN_USE = N_("In use")
METHODS: Mapping[str, str] = {
    "judges": N_("The judges' candidate who just passes"),
    "hofstee": N_("What the judges could accept, met with who fails"),
    "beuk": N_("The judges' mark against the share they expect to pass"),
    "regression": N_("Regression on overall grades"),
    "group": N_("Middle of the borderline exams"),
    "contrast": N_("Between exams graded above and below borderline"),
}


@dataclass(frozen=True, slots=True)
class PassMarks:
    """One row for each method along one line of marks; `at` is the mark in use, from 0 to 1.

    `held` are (method, why) of those that say nothing yet. No rows: there is nothing to set beside the mark in use.
    """

    rows: tuple[Stretch, ...] = ()
    at: float = 0.5
    ends: tuple[str, str] = ("", "")
    held: tuple[tuple[str, str], ...] = ()


def pass_marks_side_by_side(practical: Practical, found: Found, language: Language) -> PassMarks:
    """`found` holds statistics by method (`METHODS`), each with its number or why there is none."""
    methods = {language(name): found[key] for key, name in METHODS.items() if key in found}
    known = {name: one for name, one in methods.items() if one["estimate"] is not None}
    held = tuple(
        (name, words.held_text(one["withheld"], language)) for name, one in methods.items() if name not in known
    )
    if not known:
        return PassMarks(held=held)
    cut, error = float(practical.cut.at), practical.cut.standard_error
    reach = None if error is None else 1.96 * float(error)
    in_use = {"estimate": cut, "low": reach and cut - reach, "high": reach and cut + reach}
    ends = _ends([one[end] for one in (in_use, *known.values()) for end in ENDS if one[end] is not None])
    rows = tuple(_row(name, one, ends, language) for name, one in {language(IN_USE): in_use, **known}.items())
    return PassMarks(rows, _place(cut, ends), tuple(words.decimal(end, language, 0) for end in ends), held)


def _ends(marks: list[float]) -> tuple[float, float]:
    low, high = 5 * (min(marks) // 5), 5 * -(-max(marks) // 5)
    return low, max(high, low + 5)


def _place(mark: float, ends: tuple[float, float]) -> float:
    return (mark - ends[0]) / (ends[1] - ends[0])


def _row(name: str, one: Found, ends: tuple[float, float], language: Language) -> Stretch:
    values = [one[end] for end in ENDS]
    at, low, high = (None if value is None else _place(value, ends) for value in values)
    cells = ("–" if value is None else words.decimal(value, language) for value in values)
    return Stretch(name, words.mark_text(*values, language), low, high, at, cells=(name, *cells))
