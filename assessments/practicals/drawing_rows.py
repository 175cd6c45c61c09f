"""The clauses of a drawing as rows of a 0/1 program; list f holds column f * size + i for exercise i."""

from collections.abc import Sequence
from dataclasses import dataclass

from assessments.practicals.bank import BankExercise
from assessments.practicals.drawing_solver import INFINITE, Row
from assessments.practicals.drawing_specification import DrawingSpecification

Bank = Sequence[BankExercise]


@dataclass(frozen=True, slots=True)
class Reserve:
    """Minutes kept free for transitions, and sets of exercises (by place) that no order brings within the minutes."""

    minutes: float = 0.0
    too_long: tuple[tuple[int, ...], ...] = ()


NOTHING = Reserve()


def list_rows(bank: Bank, spec: DrawingSpecification, shift: int, reserve: Reserve = NOTHING) -> list[Row]:
    """What each list must satisfy by itself."""
    rows: list[Row] = [("tasks", spec.tasks, spec.tasks, {shift + i: 1.0 for i in range(len(bank))})]
    minutes = {shift + i: one.minutes for i, one in enumerate(bank)}
    rows += _between("minutes", spec.least_minutes, _less(spec.most_minutes, reserve.minutes), minutes)
    rows += [("minutes.at_most", -INFINITE, len(one) - 1, {shift + i: 1.0 for i in one}) for one in reserve.too_long]
    for place, clause in enumerate(spec.include):
        members = {shift + i: 1.0 for i, one in enumerate(bank) if one.is_accepted(clause.accepts)}
        rows += _between(f"include[{place}]", clause.at_least, clause.at_most, members)
    for clause in spec.counts:
        for one in _values(bank, clause.field) if clause.value is None else (clause.value,):
            members = {shift + i: 1.0 for i, e in enumerate(bank) if e.fields.get(clause.field) == one}
            rows += _between(clause.name, clause.at_least, clause.at_most, members, plain=True)
    where = {one.id: shift + i for i, one in enumerate(bank)}
    rows += [(f"always[{p}]", 1, 1, {where[one]: 1.0}) for p, one in enumerate(spec.always)]
    rows += [(f"apart[{p}]", -INFINITE, 1, {where[o]: 1.0 for o in pair}) for p, pair in enumerate(spec.apart)]
    return rows


def _values(bank: Bank, field: str) -> list[str]:
    return [one for one in dict.fromkeys(e.fields.get(field, "") for e in bank) if one]


def _less(most: float | None, reserve: float) -> float | None:
    return None if most is None else most - reserve


def _between(name: str, least: float | None, most: float | None, members: dict[int, float], plain=False) -> list[Row]:
    low, high = (name, name) if plain else (f"{name}.at_least", f"{name}.at_most")
    rows = [(low, least, INFINITE, members)] if least is not None else []
    return rows if most is None else [*rows, (high, -INFINITE, most, members)]


def recent_rows(bank: Bank, spec: DrawingSpecification, lists: int, drawn: Sequence[int]) -> list[Row]:
    """Each exercise in at most so many lists, counting those `drawn` already and its column `recently_drawn`."""
    if spec.most_recent is None:
        return []
    return [
        ("recently_drawn.at_most", -INFINITE, max(0, spec.most_recent - one.recently_drawn - drawn[i]),
         {f * len(bank) + i: 1.0 for f in range(lists)})
        for i, one in enumerate(bank)
    ]  # fmt: skip


def joint_rows(bank: Bank, spec: DrawingSpecification, lists: int, reserve: Reserve) -> tuple[list[Row], int]:
    """Every clause for all lists at once, and the number of columns: lists, one for a deviation, shared tasks."""
    size = len(bank)
    rows = [row for f in range(lists) for row in list_rows(bank, spec, f * size, reserve)]
    rows += recent_rows(bank, spec, lists, [0] * size)
    if spec.tolerance is not None:
        rows += tolerance_rows(bank, spec, lists)
    if spec.overlap is not None:
        rows += _shared_rows(size, lists, spec.overlap)
    extra = size * lists * (lists - 1) // 2 if spec.overlap else 0
    return rows, size * lists + 1 + extra


def tolerance_rows(bank: Bank, spec: DrawingSpecification, lists: int) -> list[Row]:
    """The mean difficulty of each list lies within the tolerance of the mean of all lists."""
    most = spec.tolerance * spec.tasks
    rows = []
    for f in range(lists):
        members = {
            g * len(bank) + i: one.difficulty * ((g == f) - 1 / lists)
            for g in range(lists) for i, one in enumerate(bank)
        }  # fmt: skip
        rows.append(("difficulty.tolerance", -most, most, members))
    return rows


def _shared_rows(size: int, lists: int, overlap: float) -> list[Row]:
    """At most so many shared by each pair of lists."""
    if not overlap:
        return [("overlap", -INFINITE, 1, {f * size + i: 1.0 for f in range(lists)}) for i in range(size)]
    rows, start = [], size * lists + 1
    for f in range(lists):
        for g in range(f):
            both = [{f * size + i: 1.0, g * size + i: 1.0, start + i: -1.0} for i in range(size)]
            rows += [("overlap", -INFINITE, 1, members) for members in both]
            rows.append(("overlap", -INFINITE, overlap, {start + i: 1.0 for i in range(size)}))
            start += size
    return rows


def next_rows(bank: Bank, spec: DrawingSpecification, reserve: Reserve, found: Sequence[Sequence[int]]) -> list[Row]:
    """What one more list must keep beside those `found`, each by the places of its exercises."""
    drawn = [sum(place in one for one in found) for place in range(len(bank))]
    rows = [*list_rows(bank, spec, 0, reserve), *recent_rows(bank, spec, 1, drawn)]
    if spec.overlap is not None:
        rows += [("overlap", -INFINITE, spec.overlap, dict.fromkeys(one, 1.0)) for one in found]
    return rows


def target_rows(bank: Bank, spec: DrawingSpecification, lists: int) -> list[Row]:
    """The column after all lists' is the largest distance of any list's information from the target."""
    rows, size = [], len(bank)
    for point, wanted in spec.target:
        for f in range(lists):
            members = {f * size + i: one.information(point) for i, one in enumerate(bank)}
            rows.append(("target", -INFINITE, wanted, {**members, size * lists: -1.0}))
            rows.append(("target", wanted, INFINITE, {**members, size * lists: 1.0}))
    return rows
