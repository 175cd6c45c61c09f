"""The set of springs on another machine that comes closest to a load over a travel, found by trying every set."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from itertools import combinations

from curriculum.faults import N_, Fault, RefusedError
from curriculum.sessions.springs import Line, Machine, Spring, refusal

CLOSE_ENOUGH = 0.15
ALIKE = 0.05


@dataclass(frozen=True, slots=True)
class SpringMatch:
    """The closest set. `worst_difference` is the greatest |load − wanted| ÷ wanted over the travel, at `worst_at`
    metres; loads are in newtons at the two ends of the travel; `extrapolated` where the travel was not measured."""

    wanted: tuple[str, ...]
    labels: tuple[str, ...]
    gear: str
    wanted_loads: tuple[float, float]
    loads: tuple[float, float]
    worst_difference: float
    worst_at: float
    left_out: tuple[Fault, ...]
    extrapolated: bool

    @property
    def close(self) -> bool:
        """Whether the set lies within 15 % over the whole travel."""
        return self.worst_difference <= CLOSE_ENOUGH


def springs_meant(machine: Machine, number: int) -> tuple[Spring, ...]:
    """Which springs "so many springs" are on a machine: its setting, all of them, or any of equal ones.

    Raises `RefusedError` where the springs differ and the machine has no setting for the number.
    """
    setting = dict(machine.settings).get(number)
    if setting:
        return tuple(one for label in setting if (one := machine.spring(label)))
    values = {"machine": machine.name, "number": number, "most": len(machine.springs)}
    if not 1 <= number <= len(machine.springs):
        sentence = N_("{machine} has {most} springs; {number} is not from 1 to {most}")
        raise RefusedError([Fault("no-such-number", sentence, values, "springs", machine.line)])
    if number < len(machine.springs) and not _equal(machine.springs):
        sentence = N_("{machine} has springs of different strength and no setting for {number}; name their labels")
        raise RefusedError([Fault("which-springs", sentence, values, "springs", machine.line)])
    return machine.springs[:number]


def _equal(springs: Sequence[Spring]) -> bool:
    """Whether each pulls like the first, within 5 % over the travel that was measured."""
    first = springs[0]
    return all(
        abs(one.line.at(travel) - first.line.at(travel)) <= ALIKE * abs(first.line.at(travel))
        for one in springs
        for travel in first.measured
    )


def springs_named(machine: Machine, labels: Sequence[str]) -> tuple[Spring, ...]:
    """The springs with these labels; raises `RefusedError` for a label that the machine doesn't have."""
    unknown = [label for label in labels if machine.spring(label) is None]
    if unknown or len(set(labels)) < len(labels):
        known = ", ".join(one.label for one in machine.springs)
        sentence = N_("{machine} has the springs {known}, each once; not {labels}")
        values = {"machine": machine.name, "known": known, "labels": ", ".join(labels)}
        raise RefusedError([Fault("no-such-spring", sentence, values, "springs", machine.line)])
    return tuple(machine.spring(label) for label in labels)


def match_springs(
    origin: Machine, wanted: Sequence[Spring], target: Machine, travel: tuple[float, float], today: date, gear: str = ""
) -> SpringMatch:
    """The closest set of `target`'s springs to `wanted` of `origin` over `travel` (metres, from and to).

    Stale or worn springs are refused on the first machine and left out on the second. Raises `RefusedError`.
    """
    load, left_out = _wanted_load(origin, wanted, gear, travel, today), []
    usable = []
    for spring in target.springs:
        reason = refusal(target, spring, today)
        left_out.append(reason) if reason else usable.append(spring)
    best = min(_sets(target, usable, load, travel), key=lambda one: one[:3], default=None)
    if best is None:
        sentence = N_("{machine} has no set of springs that can be used")
        raise RefusedError([*left_out, Fault("no-set", sentence, {"machine": target.name}, line=target.line)])
    difference, _, labels, name, worst_at, line = best
    chosen = springs_named(target, labels)
    return SpringMatch(
        tuple(one.label for one in wanted),
        labels,
        name,
        (load.at(travel[0]), load.at(travel[1])),
        (line.at(travel[0]), line.at(travel[1])),
        difference,
        worst_at,
        tuple(left_out),
        any(not _measured(one, travel) for one in (*wanted, *chosen)),
    )


def worst_difference(load: Line, other: Line, travel: tuple[float, float]) -> tuple[float, float]:
    """The greatest relative difference over the travel, and where.

    The ratio of two straight lines only rises or only falls while the lower one is above 0, so an end is the worst.
    """
    return max((abs(other.at(x) - load.at(x)) / load.at(x), x) for x in travel)


def together(springs: Sequence[Spring], stretch: float = 0.0) -> Line:
    """The load of springs side by side, each hooked in `stretch` metres further."""
    return sum((one.line.stretched(stretch) for one in springs), Line(0.0, 0.0))


def _sets(target: Machine, usable: Sequence[Spring], load: Line, travel: tuple[float, float]):
    most = target.most_springs or len(usable)
    for gear, stretch in target.gears or (("", 0.0),):
        for number in range(1, min(most, len(usable)) + 1):
            for chosen in combinations(usable, number):
                labels = tuple(one.label for one in chosen)
                line = together(chosen, stretch)
                if target.fixes(labels) or min(line.at(travel[0]), line.at(travel[1])) <= 0:
                    continue
                difference, where = worst_difference(load, line, travel)
                yield difference, number, labels, gear, where, line


def _wanted_load(
    origin: Machine, wanted: Sequence[Spring], gear: str, travel: tuple[float, float], today: date
) -> Line:
    faults = [reason for one in wanted if (reason := refusal(origin, one, today))]
    labels = [one.label for one in wanted]
    if origin.fixes(labels):
        sentence = N_("{labels} fix the carriage of {machine}: there is no load to match")
        values = {"labels": ", ".join(labels), "machine": origin.name}
        faults.append(Fault("fixed", sentence, values, "springs", origin.line))
    gears = dict(origin.gears) or {"": 0.0}
    name = gear or next(iter(gears))
    if name not in gears:
        sentence = N_("{machine} has the gears {known}, not {gear}")
        values = {"machine": origin.name, "known": ", ".join(gears) or "–", "gear": gear}
        faults.append(Fault("no-such-gear", sentence, values, "gear", origin.line))
    if faults:
        raise RefusedError(faults)
    load = together(wanted, gears[name])
    if min(load.at(travel[0]), load.at(travel[1])) <= 0:
        sentence = N_("the springs of {machine} are slack on a part of the travel: there is no load to match")
        raise RefusedError([Fault("slack", sentence, {"machine": origin.name}, "travel", origin.line)])
    return load


def _measured(spring: Spring, travel: tuple[float, float]) -> bool:
    shortest, longest = spring.measured
    return shortest <= travel[0] and travel[1] <= longest
