"""An invented log of half a year in which some things are odd, each labelled; beside them what only looks alike.

Eight trainees log at four hosts' studios. Not odd, but near it: lessons back to back in one house, a class that several
trainees attend, work at a distance between two studios, notes of a few stock words or the same twice, a week logged on its
Sunday, three weeks' delay.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta

import numpy as np

from assessments.hours.oddities import Kind, Logged
from assessments.hours.session import Part, Session

FIRST, WEEKS, TRAINEES, HOSTS = date(2026, 1, 5), 26, 8, 4
FOCUS = ("breath", "feet", "shoulder blades", "cueing by touch", "springs", "order", "the neck", "tempo")


@dataclass(slots=True)
class SimulatedLog:
    """`odd` names for each planted oddity its kind and one set of sessions that it is about."""

    log: list[Logged] = field(default_factory=list)
    odd: list[tuple[Kind, frozenset[str]]] = field(default_factory=list)

    def add(self, trainee: str, day: date, start: int, minutes: int, host: int, **more: object) -> Logged:
        """A session at the host's own site unless told otherwise, logged that evening unless told otherwise."""
        at = more.get("at") or datetime.combine(day, time(20)) + timedelta(minutes=7 * (len(self.log) % 9))
        session = Session(
            f"s{len(self.log)}", day, start, start + minutes,
            (Part(minutes, "observation", mode=str(more.get("mode", "live"))),),
            host=f"host-{host}", site=str(more.get("site", f"site-{host}")), state="waiting",
        )  # fmt: skip
        self.log.append(Logged(session, trainee, at, str(more.get("note", ""))))
        return self.log[-1]

    def plant(self, kind: Kind, *some: Logged) -> None:
        self.odd.append((kind, frozenset(one.session.id for one in some)))


def simulated_log(chance: np.random.Generator) -> SimulatedLog:
    """A half-year: the ordinary weeks, what looks alike, and what is odd."""
    made = SimulatedLog()
    for number in range(TRAINEES):
        _ordinary(made, f"trainee-{number}", number % HOSTS, chance)
    sundays = iter(FIRST + timedelta(days=6 + 7 * int(week)) for week in chance.permutation(WEEKS))
    _look_alikes(made, sundays)
    _odd(made, sundays, chance)
    return made


def _ordinary(made: SimulatedLog, trainee: str, host: int, chance: np.random.Generator) -> None:
    for week in range(WEEKS):
        for weekday in sorted(chance.choice(6, 3, replace=False)):
            day = FIRST + timedelta(days=7 * week + int(weekday))
            delay = timedelta(days=min(int(chance.geometric(0.4)) - 1, 20)) if weekday % 2 else timedelta()
            focus, other = chance.choice(FOCUS, 2, replace=False)
            note = f"Saw {focus} and then {other}; asked about number {int(chance.integers(100))}."
            at = datetime.combine(day, time(20)) + delay + timedelta(minutes=int(chance.integers(60)))
            made.add(trainee, day, 540 + 60 * int(chance.integers(3)), 120, host, at=at, note=note)


def _look_alikes(made: SimulatedLog, days: Iterator[date]) -> None:
    """On Sundays, on which nothing else takes place."""
    day = next(days)
    made.add("trainee-0", day, 540, 60, 0)
    made.add("trainee-0", day, 600, 60, 0)
    day = next(days)
    for trainee in ("trainee-1", "trainee-2", "trainee-3"):
        made.add(trainee, day, 540, 300, 1)
    day = next(days)
    made.add("trainee-4", day, 600, 60, 0)
    made.add("trainee-4", day, 662, 60, 1, mode="recorded")
    for day in (next(days), next(days), next(days)):
        made.add("trainee-5", day, 600, 60, 1, note="Watched a class.")
    # A trainee who writes the name of the house in another way, and one who did stay late: these are asked about in vain.
    day = next(days)
    made.add("trainee-6", day, 600, 60, 2, site="site-2")
    made.add("trainee-6", day, 660, 60, 2, site="Studio site-2")
    for day in (next(days), next(days), next(days)):
        made.add("trainee-7", day, 600, 60, 3, note="Same group as last time, they repeat the first part of the order.")
    # A diary typed in at the week's end.
    day = next(days)
    at = datetime.combine(day, time(19))
    for number in range(6):
        made.add("trainee-7", day - timedelta(days=number), 1080, 45, 3, at=at + timedelta(minutes=number))


def _odd(made: SimulatedLog, sundays: Iterator[date], chance: np.random.Generator) -> None:
    """Each kind once or more, on evenings, when nothing else takes place; some of them slight."""
    days = [FIRST + timedelta(days=7 * int(week) + 1) for week in chance.permutation(WEEKS)]
    for trainee, gap in (("trainee-0", -30), ("trainee-1", -5)):
        day = days.pop()
        some = [made.add(trainee, day, 1020, 60, 0), made.add(trainee, day, 1080 + gap, 60, 1)]
        made.plant("two-places", *some)
    for trainee, gap in (("trainee-2", 0), ("trainee-3", 10), ("trainee-4", 20)):
        day = days.pop()
        some = [made.add(trainee, day, 1020, 60, 0), made.add(trainee, day, 1080 + gap, 60, 2)]
        made.plant("travel", *some)
    day = next(sundays)
    made.plant("full-day", *(made.add(f"trainee-{place}", day, 360 + 120 * place, 120, 3) for place in range(7)))
    day = days.pop()
    some = [made.add("trainee-5", day, 1080, 60, 2), made.add("trainee-6", day, 1110, 60, 2, site="site-9")]
    made.plant("host-elsewhere", *some)
    note = "The client found the neutral spine and kept it well through the whole series."
    slightly = [note, note.replace("well", "fine"), note + " Good."]
    made.plant("copied-notes", *(made.add("trainee-3", days.pop(), 1080, 60, 3, note=note) for _ in range(4)))
    made.plant("copied-notes", *(made.add("trainee-1", days.pop(), 1080, 60, 1, note=words) for words in slightly))
    for trainee, late in (("trainee-2", 60), ("trainee-6", 29)):
        day = days.pop()
        at = datetime.combine(day + timedelta(days=late), time(12))
        made.plant("long-after", made.add(trainee, day, 1080, 60, 2, at=at))
    for trainee, pause in (("trainee-4", 2), ("trainee-0", 3)):
        last = FIRST + timedelta(days=7 * int(chance.integers(4, WEEKS)))
        at = datetime.combine(last, time(22))
        some = [
            made.add(trainee, last - timedelta(days=place), 1260, 30, 0, at=at + timedelta(minutes=pause * place))
            for place in range(9)
        ]
        made.plant("in-one-go", *some)
