"""The picture by entry in whole minutes: nothing lost, nothing above a cap, close to the optimum."""

from datetime import date, timedelta
from random import Random

import pytest

from app.files.requirements import requirements_from_text
from assessments.hours.assessing import assess
from assessments.hours.entry import STATES, Entry

AS_OF = date(2026, 11, 25)
SET = requirements_from_text(
    """
title: Mixed
categories:
  - id: seen
    accepts: {activity: [seen, either]}
    at_least: 20 h
    at_most: 30 h
    limits:
      - {id: filmed, accepts: {mode: recorded}, at_most: 33 % of credited}
      - {id: daily, per: day, at_most: 100 min}
  - id: led
    accepts: {activity: [led, either]}
    at_least: 7 h
    limits:
      - {id: ratio, at_most: 70 % of seen}
      - {id: one-host, per: host, at_most: 50 %}
totals:
  - {id: total, of: all, at_least: 29 h}
""",
    "set.yaml",
)


def log(seed: int) -> list[Entry]:
    chance = Random(seed)
    return [
        Entry(
            f"{number:02}",
            AS_OF - timedelta(days=chance.randrange(25)),
            chance.randrange(1, 150),
            chance.choice(STATES[:3] + ("signed_off",) * 6),
            {
                "activity": (chance.choice(("seen", "led", "either", "other")),),
                "mode": (chance.choice(("live", "recorded")),),
                "host": tuple(chance.sample(("h", "i", "j"), chance.randrange(3))),
            },
        )
        for number in range(40)
    ]


@pytest.mark.parametrize("seed", range(6))
def test_every_logged_minute_is_credited_or_set_aside_with_a_reason(seed: int) -> None:
    entries = log(seed)
    found = assess(SET, entries, as_of=AS_OF)
    for entry in entries:
        parts = [one.minutes for one in (*found.given, *found.set_aside) if one.entry == entry.id]
        assert sum(parts) == entry.minutes
        assert all(part > 0 for part in parts)


@pytest.mark.parametrize("seed", range(6))
def test_the_picture_keeps_the_caps_and_stays_within_minutes_of_the_optimum(seed: int) -> None:
    entries = {one.id: one for one in log(seed)}
    found = assess(SET, entries.values(), as_of=AS_OF)
    days: dict[date, int] = {}
    hosts: dict[str, int] = {}
    for line in found.given:
        entry = entries[line.entry]
        if line.category == "seen":
            days[entry.date] = days.get(entry.date, 0) + line.minutes
        else:
            for host in entry.values("host"):
                hosts[host] = hosts.get(host, 0) + line.minutes
    assert max(days.values()) <= 100
    assert max(hosts.values(), default=0) <= 210
    given = sum(line.minutes for line in found.given)
    assert found.credited_minutes - 5 <= given <= found.credited_minutes


@pytest.mark.parametrize("seed", range(3))
def test_the_order_of_the_log_changes_nothing(seed: int) -> None:
    entries = log(seed)
    assert assess(SET, entries, as_of=AS_OF) == assess(SET, entries[::-1], as_of=AS_OF)
