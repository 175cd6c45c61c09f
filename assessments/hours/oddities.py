"""What in a cohort's log looks odd enough to ask about. A question, never a finding: each has an innocent answer.

All thresholds are common practice at best and a school's own to set. Nothing here changes what a session earns.
"""

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import combinations, groupby
from typing import Literal

from assessments.hours.session import KEPT_BY_THE_SCHOOL, Session

Kind = Literal["two-places", "travel", "full-day", "host-elsewhere", "copied-notes", "long-after", "in-one-go"]
KINDS: tuple[Kind, ...] = Kind.__args__
OF_HOSTS: tuple[Kind, ...] = ("full-day", "host-elsewhere")


@dataclass(frozen=True, slots=True)
class Thresholds:
    """From where on it is worth a question; minutes, days and numbers."""

    host_day_minutes: int = 600
    travel_minutes: int = 15
    copied_letters: int = 40
    copied_times: int = 3
    late_days: int = 28
    go_minutes: int = 30
    go_sessions: int = 8
    go_days: int = 6
    expires_days: int = 60


@dataclass(frozen=True, slots=True)
class Logged:
    """A session with whose it is, when it was logged first (in the school's time), and the note to it."""

    session: Session
    trainee: str
    at: datetime
    note: str = ""


@dataclass(frozen=True, slots=True)
class Question:
    """`who` is asked (a trainee, or a host for `OF_HOSTS`) about these sessions; not after `expires`."""

    kind: Kind
    who: str
    sessions: tuple[str, ...]
    expires: date


def questions(log: Iterable[Logged], today: date, limits: Thresholds = Thresholds()) -> tuple[Question, ...]:  # noqa: B008
    """Everything worth asking today, by kind and person. Not looked at is what was withdrawn, and what the school itself keeps."""
    looked_at = [one for one in log if one.session.state != "withdrawn" and one.session.proof not in KEPT_BY_THE_SCHOOL]
    by_trainee, by_host = defaultdict(list), defaultdict(list)
    for one in sorted(looked_at, key=lambda one: (one.session.day, one.session.start, one.session.id)):
        by_trainee[one.trainee].append(one)
        if one.session.host and one.session.proof == "signature":
            by_host[one.session.host].append(one)
    found = []
    for kind, rule in RULES.items():
        people = by_host if kind in OF_HOSTS else by_trainee
        for who in sorted(people):
            for group in rule(people[who], limits):
                expires = max(one.at for one in group).date() + timedelta(days=limits.expires_days)
                found.append(Question(kind, who, tuple(one.session.id for one in group), expires))
    return tuple(one for one in found if today <= one.expires)


def _two_places(log: Sequence[Logged], limits: Thresholds) -> Iterator[tuple[Logged, ...]]:
    """One trainee in two sessions at the same time."""
    return (pair for pair in _pairs_of_a_day(log) if _overlap(*pair))


def _travel(log: Sequence[Logged], limits: Thresholds) -> Iterator[tuple[Logged, ...]]:
    """From one site to another in less time than the way takes."""
    for first, then in _pairs_of_a_day(log):
        gap = then.session.start - first.session.end
        if 0 <= gap < limits.travel_minutes and _elsewhere(first, then):
            yield first, then


def _full_day(log: Sequence[Logged], limits: Thresholds) -> Iterator[tuple[Logged, ...]]:
    """One host's sessions of a day cover more than a day holds; what several attend together counts once."""
    for _, some in groupby(log, key=lambda one: one.session.day):
        group = tuple(some)
        if _covered(group) > limits.host_day_minutes:
            yield group


def _host_elsewhere(log: Sequence[Logged], limits: Thresholds) -> Iterator[tuple[Logged, ...]]:
    """One host at two sites at once."""
    return (pair for pair in _pairs_of_a_day(log) if _overlap(*pair) and _elsewhere(*pair))


def _copied_notes(log: Sequence[Logged], limits: Thresholds) -> Iterator[tuple[Logged, ...]]:
    """The same long note to sessions of several days."""
    alike = defaultdict(list)
    for one in log:
        alike[" ".join(one.note.casefold().split())].append(one)
    for words, group in alike.items():
        if len(words) >= limits.copied_letters and len({one.session.day for one in group}) >= limits.copied_times:
            yield tuple(group)


def _long_after(log: Sequence[Logged], limits: Thresholds) -> Iterator[tuple[Logged, ...]]:
    """Logged long after the fact; what was logged on one day is one question."""
    late = [one for one in log if (one.at.date() - one.session.day).days > limits.late_days]
    for _, some in groupby(sorted(late, key=lambda one: one.at), key=lambda one: one.at.date()):
        yield tuple(some)


def _in_one_go(log: Sequence[Logged], limits: Thresholds) -> Iterator[tuple[Logged, ...]]:
    """Many sessions of many days, logged within minutes."""
    group: list[Logged] = []
    for one in [*sorted(log, key=lambda one: one.at), None]:
        if group and (one is None or one.at - group[0].at > timedelta(minutes=limits.go_minutes)):
            days = {each.session.day for each in group}
            if len(group) >= limits.go_sessions and len(days) >= limits.go_days:
                yield tuple(group)
            group = []
        if one is not None:
            group.append(one)


def _pairs_of_a_day(log: Sequence[Logged]) -> Iterator[tuple[Logged, Logged]]:
    for _, some in groupby(log, key=lambda one: one.session.day):
        yield from combinations(tuple(some), 2)


def _overlap(first: Logged, then: Logged) -> bool:
    return then.session.start < first.session.end and first.session.start < then.session.end


def _elsewhere(first: Logged, then: Logged) -> bool:
    """At two named sites, both in the room: what is done at a distance needs no way."""
    sites = [one.session.site.casefold().strip() for one in (first, then)]
    there = all(part.mode == "live" for one in (first, then) for part in one.session.parts)
    return all(sites) and sites[0] != sites[1] and there


def _covered(group: Sequence[Logged]) -> int:
    """Minutes of the day covered by any of them."""
    covered = reached = 0
    for one in sorted(group, key=lambda one: one.session.start):
        covered += max(0, one.session.end - max(one.session.start, reached))
        reached = max(reached, one.session.end)
    return covered


RULES: dict[Kind, Callable[[Sequence[Logged], Thresholds], Iterator[tuple[Logged, ...]]]] = {
    "two-places": _two_places,
    "travel": _travel,
    "full-day": _full_day,
    "host-elsewhere": _host_elsewhere,
    "copied-notes": _copied_notes,
    "long-after": _long_after,
    "in-one-go": _in_one_go,
}
