"""The per-entry picture in whole minutes: nothing above what an entry, a cap or a category allows."""

from fractions import Fraction

from assessments.hours.model import Model
from assessments.hours.standing import down

NOISE = Fraction(1, 1000)


def whole_minutes(model: Model, values: list[float]) -> dict[int, int]:
    """Whole minutes by column of given credit, at most a few below the optimum; caps are checked exactly."""
    given = {column: down(values[column]) for column in model.given.values()}
    rest = [float(one) for one in values]
    lost = {column: values[column] - given[column] for column in given if values[column] - given[column] > 1e-3}
    rows = _caps(model, given)
    _trim(model, given, rest, rows)
    for column in sorted(lost, key=lost.get, reverse=True):
        if given[column] + 1 <= model.program.upper[column] and all(
            _slack(model, row, given, rest) >= model.program.rows[row][column] for row in rows.get(column, ())
        ):
            given[column] += 1
    return given


def _caps(model: Model, given: dict[int, int]) -> dict[int, list[int]]:
    """The rows with an upper bound in which a column of given credit stands."""
    found: dict[int, list[int]] = {}
    for number, row in enumerate(model.program.rows):
        if model.program.most[number] != float("inf"):
            for column in row:
                if column in given:
                    found.setdefault(column, []).append(number)
    return found


def _slack(model: Model, row: int, given: dict[int, int], rest: list[float]) -> Fraction:
    used = sum(
        coefficient * (given[column] if column in given else Fraction(rest[column]).limit_denominator(10_000))
        for column, coefficient in model.program.rows[row].items()
    )
    return Fraction(model.program.most[row]).limit_denominator(1_000_000) + NOISE - used


def _trim(model: Model, given: dict[int, int], rest: list[float], rows: dict[int, list[int]]) -> None:
    """Take back minutes where rounding down the whole of a share left its part too large."""
    for row in sorted({number for numbers in rows.values() for number in numbers}):
        if _surely_below(model, row, given, rest):
            continue
        over = -_slack(model, row, given, rest)
        for column, coefficient in sorted(model.program.rows[row].items(), reverse=True):
            if over <= 0:
                break
            if column in given and coefficient > 0:
                back = min(given[column], -int(-over // coefficient))
                given[column] -= back
                over -= back * coefficient


def _surely_below(model: Model, row: int, given: dict[int, int], rest: list[float]) -> bool:
    """Whether a row is far enough from its bound that floating point settles it."""
    terms = model.program.rows[row].items()
    used = sum(float(coefficient) * given.get(column, rest[column]) for column, coefficient in terms)
    return used < model.program.most[row] - 1e-3
