"""Whether every exercise and field that a specification names stands in the bank."""

from collections.abc import Sequence

from assessments.practicals.bank import BankExercise
from assessments.practicals.drawing_specification import DrawingSpecification
from curriculum.faults import N_, Fault, RefusedError


def check_names(bank: Sequence[BankExercise], spec: DrawingSpecification) -> None:
    """Raise `RefusedError` with every name that the bank does not hold."""
    exercises, fields = {one.id for one in bank}, {name for one in bank for name in one.fields}
    exercise, column = N_("{name} is not in the bank"), N_("{name} is not a column of the bank")
    named = [("always", one, exercises, exercise) for one in spec.always]
    named += [(f"apart[{p}]", one, exercises, exercise) for p, pair in enumerate(spec.apart) for one in pair]
    named += [
        (f"include[{p}].accepts", one, fields, column)
        for p, clause in enumerate(spec.include)
        for one in clause.accepts
    ]
    named += [(one.name, one.field, fields, column) for one in spec.counts]
    named += [("transitions", one, fields, column) for one in spec.transitions]
    faults = [Fault("unknown", text, {"name": one}, field) for field, one, known, text in named if one not in known]
    if faults:
        raise RefusedError(faults)
