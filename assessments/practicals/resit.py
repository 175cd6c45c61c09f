"""A further attempt: the parts that are examined again, and what of earlier attempts still counts beside them."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from assessments.practicals.scoring import Scores, score
from assessments.practicals.sheets import Sheet
from assessments.practicals.specification import HUNDRED, Practical


@dataclass(frozen=True, slots=True)
class Again:
    """A further attempt: `parts` are examined again (none: all), `stood` are earlier sheets with the marks that count."""

    parts: tuple[str, ...] = ()
    stood: tuple[Sheet, ...] = ()


def only_parts(practical: Practical, parts: Iterable[str]) -> Practical:
    """The practical with these parts alone, weighing 100 together; the whole of it where none is named.

    Groups are left to the whole exam, since they may reach over parts that are not taken again.
    """
    wanted = frozenset(parts)
    if not wanted:
        return practical
    kept = [part for part in practical.parts if part.id in wanted]
    whole = sum(part.weight for part in kept)
    judged = {id for part in kept for id in part.criteria}
    return replace(
        practical,
        parts=tuple(replace(part, weight=part.weight * HUNDRED / whole) for part in kept),
        criteria=tuple(one for one in practical.criteria if one.id in judged),
        groups=(),
    )


def still_counts(
    practical: Practical, parts: Iterable[str], earlier: Sequence[tuple[tuple[str, ...], tuple[Sheet, ...]]]
) -> tuple[Sheet, ...]:
    """What earlier attempts still say of the parts that are not taken again.

    `earlier` are (parts examined, sheets that stand), the newest attempt first; no part named means all of them.
    """
    blocks = {part.id: {block.id for block in part.blocks} for part in practical.parts}
    taken, found = set(parts), []
    for examined, sheets in earlier:
        free = set(examined or blocks) - taken
        own = set().union(*(blocks.get(part, set()) for part in free))
        found += [
            replace(one, marks=tuple(mark for mark in one.marks if mark.block in own), critical=(), taps=())
            for one in sheets
        ]
        taken |= free
    return tuple(found)


def combined(practical: Practical, again: Again, sheets: tuple[Sheet, ...]) -> Scores:
    """All averages over the new sheets and what stood; each sheet's own total and levels are those of the new alone."""
    alone, whole = score(only_parts(practical, again.parts), sheets), score(practical, (*sheets, *again.stood))
    return replace(whole, by_sheet=alone.by_sheet, cells=alone.cells)
