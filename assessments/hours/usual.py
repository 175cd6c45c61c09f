"""How long sessions of a kind usually take, so that the length need not be typed."""

from collections import Counter
from collections.abc import Iterable, Mapping

from assessments.hours.session import Session

LOOKED_AT = 20
MOST = 3


def usual_lengths(sessions: Iterable[Session]) -> Mapping[str, tuple[int, ...]]:
    """By activity of the first part the lengths in minutes of its last sessions, the most common first.

    Of two as common the one that was used last comes first; at most three of them.
    """
    newest_first = sorted(sessions, key=lambda one: (one.day, one.start), reverse=True)
    of_activity: dict[str, list[int]] = {}
    for one in newest_first:
        if one.state != "withdrawn" and one.timed and one.minutes > 0 and one.parts:
            of_activity.setdefault(one.parts[0].activity, []).append(one.minutes)
    return {
        activity: tuple(length for length, _ in Counter(lengths[:LOOKED_AT]).most_common(MOST))
        for activity, lengths in of_activity.items()
    }
