"""Rules that nobody could meet together, found with an empty log."""

from assessments.hours.clauses import Clauses
from assessments.hours.model import Model
from assessments.hours.solution import can_be_met
from curriculum.faults import N_, Fault
from curriculum.requirements.requirement_set import RequirementSet


def check(requirements: RequirementSet) -> tuple[Fault, ...]:
    """One fault naming a smallest group of rules that clash; nothing if the set can be met."""
    if _can_be_met(requirements, frozenset()):
        return ()
    names = clashing(requirements)
    sentence = N_("nobody could meet these rules together: {rules}; at least one of them must give way")
    shown = ", ".join(names)
    lines = {one.id: one.line for one in (*requirements.categories, *requirements.rules())}
    line = next((lines.get(name.removesuffix(" at_most")) for name in names), None)
    return (
        Fault(
            "clash",
            sentence,
            {"rules": shown},
            field=names[0] if names else "",
            line=line,
        ),
    )


def clashing(requirements: RequirementSet) -> tuple[str, ...]:
    """An irreducible group: drop rules one by one, and keep dropped what isn't needed for the clash."""
    names = [name for one in requirements.categories for name in (one.id, one.id + " at_most")]
    names += [one.id for one in requirements.rules()]
    dropped: frozenset[str] = frozenset()
    for name in reversed(names):
        if not _can_be_met(requirements, dropped | {name}):
            dropped |= {name}
    return tuple(name for name in names if name not in dropped)


def _can_be_met(requirements: RequirementSet, dropped: frozenset[str]) -> bool:
    return can_be_met(Model(Clauses(requirements), [], dropped))
