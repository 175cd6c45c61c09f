"""Pass marks side by side: the one in use, the judges', and what a season's own grades speak for."""

from collections.abc import Mapping
from dataclasses import dataclass

from app.queries.season_lines import Stretch
from app.wording import seasons as words
from app.wording.languages import Language
from assessments.practicals.specification import Practical
from curriculum.faults import N_

Found = Mapping[str, object]
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
    """One row for each method along one line of marks; `at` is the mark in use, from 0 to 1."""

    rows: tuple[Stretch, ...] = ()
    at: float = 0.5
    ends: tuple[str, str] = ("", "")


def pass_marks_side_by_side(practical: Practical, found: Found, language: Language) -> PassMarks:
    """`found` holds statistics by method (`METHODS`); those that say nothing keep a row that says why."""
    known = {key: found[key] for key in METHODS if key in found}
    cut, error = float(practical.cut.at), practical.cut.standard_error
    reach = None if error is None else 1.96 * float(error)
    in_use = {
        "estimate": cut,
        "low": None if reach is None else cut - reach,
        "high": None if reach is None else cut + reach,
    }
    marks = [
        one[end] for one in (in_use, *known.values()) for end in ("estimate", "low", "high") if one[end] is not None
    ]
    low, high = 5 * (min(marks) // 5), 5 * -(-max(marks) // 5)
    high = max(high, low + 5)

    def row(name: str, one: Found) -> Stretch:
        if one["estimate"] is None:
            return Stretch(name, words.held_text(one["withheld"], language), cells=(name, "–", "–", "–"))
        values = [one[end] for end in ("estimate", "low", "high")]
        at, *ends = (None if value is None else (value - low) / (high - low) for value in values)
        cells = ("–" if value is None else words.decimal(value, language) for value in values)
        return Stretch(name, words.mark_text(*values, language), *ends, at=at, cells=(name, *cells))

    rows = (row(language(IN_USE), in_use), *(row(language(METHODS[key]), one) for key, one in known.items()))
    ends = (words.decimal(low, language, 0), words.decimal(high, language, 0))
    return PassMarks(rows, (cut - low) / (high - low), ends)
