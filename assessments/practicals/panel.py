"""Examiners seated for every exam: first who examines whom, then when and in which room."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy

from assessments.practicals.drawing_solver import INFINITE, Row, refuse, solve
from curriculum.faults import N_, Fault, RefusedError

LINKINGS = 20
TIMINGS = 8
# By how many slots an exam may begin later than it could, on average: closes gaps without proving the last one.
LATER = 0.25
# What an avoided pair costs, in pairs of examiners that sit together more than once.
AVOIDED = 100.0


@dataclass(frozen=True, slots=True)
class Examiner:
    """`slots` is empty when the examiner can come to all of them; loads count exams."""

    id: str
    senior: bool
    at_least: int = 0
    at_most: int = 1000
    slots: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Exam:
    """One candidate's place in the day."""

    candidate: str
    slot: str
    room: str
    examiners: tuple[str, ...]


def seat(
    candidates: Mapping[str, frozenset[str]],
    examiners: Sequence[Examiner],
    conflicts: frozenset[tuple[str, str]],
    rooms: Mapping[str, tuple[str, ...]],
    size: int = 2,
    avoided: frozenset[tuple[str, str]] = frozenset(),
    in_a_row: int | None = None,
) -> tuple[Exam, ...]:
    """Seat all; `candidates` to their slots (empty: any), `rooms` by slot; raise `RefusedError` saying why not.

    `conflicts` and `avoided` are (candidate, examiner); what is avoided is done only where it has to be.
    Nobody examines in more than `in_a_row` slots one after another, in the order of `rooms`.
    """
    panels = [p for p in combinations(examiners, size) if any(one.senior for one in p)]
    choices = [
        (c, p) for c, own in candidates.items() for p in panels
        if not any((c, one.id) in conflicts for one in p) and _common(own, p, rooms)
    ]  # fmt: skip
    _check_counts(candidates, examiners, rooms, size, {c for c, _ in choices})
    rows, columns = _rows(candidates, examiners, choices)
    islands: list[set[str]] = []
    for attempt in range(TIMINGS):
        try:
            chosen = _linked(choices, rows, columns, islands, attempt, avoided)
        except RefusedError:
            # After the first time only what was found to have no times is left out as well: that is the reason then.
            if not attempt:
                raise
            break
        exams = _timed([choices[place] for place in chosen], candidates, rooms, in_a_row)
        if exams:
            return exams
        rows.append(("times", -INFINITE, len(chosen) - 1, dict.fromkeys(chosen, 1.0)))
    sentence = N_("no times were found in {tries} tries; more slots, rooms or examiners are needed, or fewer breaks")
    raise RefusedError([Fault("untimed", sentence, {"tries": TIMINGS}, "panel")])


def _linked(choices, rows, columns, islands, attempt, avoided) -> list[int]:  # noqa: PLR0913
    """Who examines whom, as varied in pairs as can be; panels of two or more are linked by adding to `islands`."""
    variety = numpy.ones(columns - len(choices))
    chance = numpy.random.Generator(numpy.random.PCG64(attempt)).random(len(choices))
    light = chance * 0.5 / len({candidate for candidate, _ in choices})
    light += [AVOIDED * sum((c, one.id) in avoided for one in p) for c, p in choices]
    for _ in range(LINKINGS):
        costs = numpy.concatenate([light, variety, numpy.zeros(2 * len(islands))])
        best = solve(costs, rows, len(costs) - len(choices), 0.9)
        if best is None:
            raise refuse(len(costs), rows, len(costs) - len(choices))
        chosen = [place for place in range(len(choices)) if best.values[place] > 0.5]
        panels = [{one.id for one in choices[place][1]} for place in chosen]
        island = _island(panels)
        if not island or len(panels[0]) == 1:
            return chosen
        rows += _linking_rows(choices, island, columns + 2 * len(islands))
        islands.append(island)
    sentence = N_("no panels that link all examiners were found in {tries} tries")
    raise RefusedError([Fault("unlinked", sentence, {"tries": LINKINGS}, "panel")])


def _linking_rows(choices, island: set[str], column: int) -> list[Row]:
    """Where panels sit within the island and others outside it, some panel must cross; two columns say whether."""
    within: dict[tuple[str, int], dict[int, float]] = {}
    crossing = {column: -1.0, column + 1: -1.0}
    for place, (candidate, panel) in enumerate(choices):
        inside = sum(one.id in island for one in panel)
        if 0 < inside < len(panel):
            crossing[place] = 1.0
        else:
            side = column if inside else column + 1
            within.setdefault((candidate, side), {side: -1.0})[place] = 1.0
    rows = [("examiners linked", -INFINITE, 0, members) for members in within.values()]
    return [*rows, ("examiners linked", -1, INFINITE, crossing)]


def is_connected(exams: Sequence[Exam]) -> bool:
    """Whether all who examine are linked through shared candidates."""
    return not exams or not _island([set(one.examiners) for one in exams])


def _common(own, panel, rooms) -> list[str]:
    return [s for s in rooms if (not own or s in own) and all(not one.slots or s in one.slots for one in panel)]


def _check_counts(candidates, examiners, rooms, size, seatable) -> None:
    faults = []
    exams = len(candidates)
    counts = (
        ("few-places", N_("{exams} exams need {need} places in rooms; there are {have}"), exams, sum(map(len, rooms.values()))),
        ("few-at-once", N_("{exams} exams need {need} places; with these examiners {have} can be held in the times there are"),
         exams, sum(min(len(names), _free(examiners, slot) // size) for slot, names in rooms.items())),
        ("few-seats", N_("{exams} exams need {need} seats; the examiners' loads allow {have}"), exams * size,
         sum(min(one.at_most, exams) for one in examiners)),
        ("few-seniors", N_("{exams} exams need {need} senior seats; the loads of senior examiners allow {have}"), exams,
         sum(min(one.at_most, exams) for one in examiners if one.senior)),
    )  # fmt: skip
    for code, sentence, need, have in counts:
        if have < need:
            faults.append(Fault(code, sentence, {"exams": exams, "need": need, "have": have}, "panel"))
    for name in candidates:
        if name not in seatable:
            sentence = N_("{name} has no allowed panel: conflicts and slots leave none")
            faults.append(Fault("conflict", sentence, {"name": name}, "candidate"))
    if faults:
        raise RefusedError(faults)


def _free(examiners, slot) -> int:
    return sum(not one.slots or slot in one.slots for one in examiners)


def _rows(candidates, examiners, choices):
    rows = [
        (f"candidate {c}", 1, 1, {i: 1.0 for i, (d, _) in enumerate(choices) if d == c}) for c in candidates
    ]  # fmt: skip
    for one in examiners:
        members = {i: 1.0 for i, (_, p) in enumerate(choices) if one in p}
        rows.append((f"load of {one.id}", one.at_least, one.at_most, members))
    column = len(choices)
    for pair in combinations(examiners, 2):
        members = {i: 1.0 for i, (_, p) in enumerate(choices) if pair[0] in p and pair[1] in p}
        rows.append(("pairs", -INFINITE, 1, {**members, column: -1.0}))
        column += 1
    return rows, column


def _island(panels: Sequence[set[str]]) -> set[str]:
    """The examiners reached from the first one, or none when that is all who examine."""
    reached = set(panels[0])
    while (wider := reached.union(*(p for p in panels if p & reached))) != reached:
        reached = wider
    return set() if reached == set().union(*panels) else reached


def _breaks(places, slots, in_a_row) -> list[Row]:
    """Of any `in_a_row` slots and the next one, everybody has one free."""
    found = []
    for first in range(len(slots) - in_a_row):
        window = set(slots[first : first + in_a_row + 1])
        here = [place for place, (_, _, slot) in enumerate(places) if slot in window]
        for one in dict.fromkeys(one for place in here for one in places[place][1]):
            found.append(("break", -INFINITE, in_a_row, {n: 1.0 for n in here if one in places[n][1]}))
    return found


def _timed(seated, candidates, rooms, in_a_row) -> tuple[Exam, ...]:
    places = [(c, p, s) for c, p in seated for s in _common(candidates[c], p, rooms)]
    rows = [(c, 1, 1, {i: 1.0 for i, place in enumerate(places) if place[0] == c}) for c, _ in seated]
    for slot, free in rooms.items():
        here = [i for i, place in enumerate(places) if place[2] == slot]
        rows.append((slot, -INFINITE, len(free), dict.fromkeys(here, 1.0)))
        for one in dict.fromkeys(one for i in here for one in places[i][1]):
            rows.append((slot, -INFINITE, 1, {i: 1.0 for i in here if one in places[i][1]}))
    rows += _breaks(places, list(rooms), in_a_row) if in_a_row else []
    order = {slot: place for place, slot in enumerate(rooms)}
    best = solve(numpy.array([float(order[s]) for _, _, s in places]), rows, stop=LATER * len(seated))
    if best is None:
        return ()
    free = {slot: list(names) for slot, names in rooms.items()}
    held = sorted(
        (place for i, place in enumerate(places) if best.values[i] > 0.5), key=lambda p: list(rooms).index(p[2])
    )
    return tuple(Exam(c, s, free[s].pop(0), tuple(one.id for one in p)) for c, p, s in held)
