"""Ratings from tables as people keep them: long, one column per examiner, a square of two examiners, or counts."""

from collections.abc import Sequence

import numpy as np

from app.files.measurement import Table, categories_in, refuse_mixture
from assessments.measurement.ratings import Ratings
from curriculum.faults import N_, Fault, RefusedError

MOST_COUNTED = 20_000_000


def ratings_long(
    table: Table, unit: str, examiner: str, score: str, categories: Sequence[str] | None = None
) -> Ratings:
    """One row a rating; a unit rated twice by one examiner is a fault."""
    units, unit_of = table.complete_codes(unit)
    examiners, examiner_of = table.complete_codes(examiner)
    table.refuse_repeated(unit_of * len(examiners) + examiner_of, unit)
    if not categories:
        refuse_mixture(table, [score])
    labels, category = table.codes(score, categories or categories_in(table.text(score)))
    return _kept(unit_of, examiner_of, category, len(units), examiners, labels, categories)


def ratings_wide(table: Table, examiners: Sequence[str], categories: Sequence[str] | None = None) -> Ratings:
    """One row a unit, a column for each examiner; an empty cell is no rating."""
    if not categories:
        refuse_mixture(table, examiners)
    labels = tuple(categories or categories_in(cell for column in examiners for cell in table.text(column)))
    codes = np.stack([table.codes(examiner, labels)[1] for examiner in examiners], axis=1)
    rows, places = np.indices(codes.shape)
    return _kept(rows.ravel(), places.ravel(), codes.ravel(), len(table), tuple(examiners), labels, categories)


def ratings_square(table: Table) -> Ratings:
    """Counts of units: a row for each category of examiner A, a column for each of examiner B, in one order."""
    names = list(table.columns)
    columns = names[1:] if len(names) == len(table) + 1 else names
    if len(columns) != len(table):
        sentence = N_("a square table needs as many rows as columns, after the labels; there are {rows} and {columns}")
        values = {"rows": len(table), "columns": len(columns)}
        raise RefusedError([Fault("not-square", sentence, values, line=1, source=table.source)])
    cells = _counts(table, columns).ravel()
    a, b = (np.repeat(place.ravel(), cells) for place in np.indices((len(columns), len(columns))))
    n = len(a)
    numbers = _values(columns)
    category = np.concatenate([a, b])
    values = None if numbers is None else numbers[category]
    return Ratings(
        np.tile(np.arange(n), 2), np.repeat([0, 1], n), category, n, ("A", "B"), tuple(columns), values, True, True
    )


def ratings_counts(table: Table, columns: Sequence[str], ordered: bool) -> Ratings:
    """One row a unit, a column for each category: how many examiners put the unit there."""
    counts = _counts(table, columns)
    rows, places = np.indices(counts.shape)
    unit, category = np.repeat(rows.ravel(), counts.ravel()), np.repeat(places.ravel(), counts.ravel())
    numbers = _values(columns)
    values = None if numbers is None else numbers[category]
    nobody = np.zeros(len(unit), np.int64)
    return Ratings(unit, nobody, category, len(table), (), tuple(columns), values, ordered or numbers is not None)


def _counts(table: Table, columns: Sequence[str]) -> np.ndarray:
    counts = np.stack([np.nan_to_num(table.numbers(column, whole=True)) for column in columns], axis=1).astype(int)
    if (counts < 0).any():
        row, column = np.argwhere(counts < 0)[0]
        sentence = N_("a count can't be below nothing")
        raise RefusedError([Fault("negative", sentence, {}, columns[column], table.lines[row], table.source)])
    if counts.sum() > MOST_COUNTED:
        sentence = N_("counts more than {most} ratings in all")
        raise RefusedError([Fault("too-many", sentence, {"most": f"{MOST_COUNTED:,}"}, "", None, table.source)])
    return counts


def _kept(
    unit: np.ndarray,
    examiner: np.ndarray,
    category: np.ndarray,
    units: int,
    examiners: tuple[str, ...],
    labels: tuple[str, ...],
    asked: Sequence[str] | None,
) -> Ratings:
    given = category >= 0
    numbers = _values(labels)
    values = None if numbers is None else numbers[category[given]]
    ordered = asked is not None or numbers is not None
    return Ratings(unit[given], examiner[given], category[given], units, examiners, labels, values, ordered)


def _values(labels: Sequence[str]) -> np.ndarray | None:
    try:
        numbers = np.array([float(label) for label in labels])
    except ValueError:
        return None
    return numbers if np.isfinite(numbers).all() else None
