"""Time of seating sixty candidates with twelve examiners in three rooms: panels, then times, from an invented season."""

import json
import sys
from collections import Counter
from random import Random
from time import perf_counter

from assessments.practicals.panel import Exam, Examiner, is_connected, seat

SEASONS = 5


def invented_season(seed: int) -> tuple[dict, tuple[Examiner, ...], frozenset, dict]:
    """Half of the examiners senior, each away for a quarter of the times; a third of the candidates bound in time."""
    chance = Random(seed)
    slots = [f"s{place:02}" for place in range(24)]
    candidates = {
        f"c{place}": frozenset(chance.sample(slots, 8)) if chance.random() < 1 / 3 else frozenset()
        for place in range(60)
    }
    examiners = tuple(
        Examiner(f"x{place}", place < 6, 8, 12, frozenset(chance.sample(slots, 18))) for place in range(12)
    )
    conflicts = frozenset((name, f"x{chance.randrange(12)}") for name in candidates for _ in range(chance.randrange(3)))
    return candidates, examiners, conflicts, dict.fromkeys(slots, ("one", "two", "three"))


def measure(seasons: int = SEASONS) -> dict[str, object]:
    """The slowest season in seconds; whether each is linked and keeps every rule, counted apart from the solver.

    Pairs must repeat 12 times: seniors have 72 seats for 60 exams, so at most 12 exams have two of them, and the 48
    others share 36 pairs of one senior and one who is not.
    """
    seconds, kept, repeated = [], [], []
    for seed in range(1, seasons + 1):
        season = invented_season(seed)
        start = perf_counter()
        exams = seat(*season)
        seconds.append(perf_counter() - start)
        kept.append(is_connected(exams) and keeps_the_rules(exams, *season))
        repeated.append(sum(count - 1 for count in Counter(one.examiners for one in exams).values()))
    return {"candidates": 60, "examiners": 12, "rooms": 3, "seasons": seasons, "slowest_seconds": max(seconds),
            "linked_and_kept": all(kept), "pairs_repeated": repeated}  # fmt: skip


def keeps_the_rules(
    exams: tuple[Exam, ...], candidates: dict, examiners: tuple, conflicts: frozenset, rooms: dict
) -> bool:
    """Everybody once, nobody and no room twice at once, loads, times, seniors and conflicts."""
    known = {one.id: one for one in examiners}
    loads = Counter(who for one in exams for who in one.examiners)
    at_once = Counter((one.slot, thing) for one in exams for thing in (one.room, *one.examiners))
    return (
        Counter(one.candidate for one in exams) == Counter(list(candidates))
        and max(at_once.values()) == 1
        and all(one.at_least <= loads[one.id] <= one.at_most for one in examiners)
        and all(one.room in rooms[one.slot] for one in exams)
        and all(not candidates[one.candidate] or one.slot in candidates[one.candidate] for one in exams)
        and all(one.slot in known[who].slots for one in exams for who in one.examiners)
        and all(any(known[who].senior for who in one.examiners) for one in exams)
        and not any((one.candidate, who) in conflicts for one in exams for who in one.examiners)
    )


if __name__ == "__main__":
    json.dump(measure(), sys.stdout)
