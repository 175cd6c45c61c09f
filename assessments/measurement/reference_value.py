"""A value from a list of references, beside what the methods here make of the same data."""

from collections.abc import Sequence
from dataclasses import dataclass

from assessments.measurement.statistic import reason
from curriculum.faults import N_, Fault

NOT_COMPUTED = object()


@dataclass(frozen=True, slots=True)
class ReferenceValue:
    """`expected` and `computed` are numbers, lists of them (of groups of labels), or words; `by` says who else computed it."""

    entry: str
    key: str
    expected: object
    computed: object
    tolerance: float
    published: object
    by: str
    why_not: Fault | None

    @property
    def agrees(self) -> bool | None:
        """Whether both are the same within the tolerance; None where nothing was computed."""
        return None if self.computed is NOT_COMPUTED else _near(self.computed, self.expected, self.tolerance)

    @property
    def differs(self) -> bool:
        return self.agrees is False


def _near(one: object, other: object, tolerance: float) -> bool:
    if isinstance(one, Sequence) and isinstance(other, Sequence) and not isinstance(one, str):
        return len(one) == len(other) and all(_near(a, b, tolerance) for a, b in zip(one, other, strict=True))
    if isinstance(one, str) or isinstance(other, str):
        # A reference in a program's own words says with its first word whether there is a number at all.
        return isinstance(one, str) and (one == other or str(other).startswith("(None"))
    return one is not None and abs(float(one) - float(other)) <= tolerance


def why_not(entry: str, key: str) -> Fault | None:
    """Why a value is not computed here, where that is by choice."""
    if key.startswith(("seconds", "solve_seconds")):
        return SECONDS
    if key.startswith("components_"):
        return GRAPH
    if key.endswith("_plain"):
        return PLAIN
    if "slope1" in key:
        return UNIT_SPREAD
    return {"wine_clmm": OTHER_MODEL, "ata_12_2forms": OTHER_LISTS}.get(entry)


SECONDS = reason("seconds", N_("a time measured on another machine, with which nothing here has to agree"))
GRAPH = reason(
    "graph",
    N_("pieces of a graph, which calls a plan whole that falls apart; the rank test beside it stands in for it"),
)
PLAIN = reason(
    "plain",
    N_("the squared distance from the cut is always corrected for the error of the mean here (the value above)"),
)
UNIT_SPREAD = reason(
    "unit-spread",
    N_("the spread of candidates is always estimated here, never held at 1 (the common slope beside it is compared)"),
)
OTHER_MODEL = reason(
    "other-model", N_("another model (cumulative logits); ratings are modelled by adjacent categories here")
)
OTHER_LISTS = reason(
    "other-lists", N_("several pairs of lists are equally good and chance picks one; their common distance is compared")
)
