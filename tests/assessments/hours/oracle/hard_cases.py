"""Sets in which many rules bind at once, each on the numbers drawn for it; logs in which nearly every entry may earn."""

from collections.abc import Callable
from datetime import date, timedelta

from hypothesis import strategies as st

from tests.assessments.hours.oracle.strategies import AS_OF, Files

Pick = Callable[..., object]
CLOSED = "title: Invented\nfields: {mode: [live, live_remote, recorded]}\n"
OPEN = "title: Invented\n"
SHARES = (10, 20, 25, 33.3, 40, 50, 60, 75)


def shares_of_what_is_credited_with_totals(pick: Pick) -> str:
    return f"""{pick(CLOSED, OPEN)}categories:
  - id: a
    accepts: {{activity: [observing, teaching]}}
    at_least: {pick(3, 5, 8)} h
    limits:
      - {{id: a-recorded, accepts: {{mode: recorded}}, at_most: {pick(*SHARES)} % of credited}}
      - {{id: a-host, per: host, at_most: {pick(*SHARES)} % of credited}}
      - {{id: a-day, per: day, at_most: {pick(*SHARES)} % of credited}}
  - id: b
    accepts: {{activity: [observing, lecture]}}
    at_least: {pick(2, 4)} h
    limits: [{{id: b-away, accepts: {{mode: [live_remote, recorded]}}, at_most: {pick(*SHARES)} % of credited}}]
totals:
  - {{id: all-hours, of: all, at_least: {pick(6, 10, 14, 20)} h}}
  - {{id: face, of: [a], accepts: {{mode: live}}, at_least: {pick(1, 3, 5)} h}}
limits: [{{id: online, accepts: {{mode: [live_remote, recorded]}}, at_most: {pick(*SHARES)} % of all-hours}}]
"""


def shares_of_other_amounts(pick: Pick) -> str:
    return f"""{pick(CLOSED, OPEN)}categories:
  - id: a
    accepts: {{activity: [observing, teaching]}}
    at_least: {pick(2, 3)} h
    limits:
      - {{id: a-ratio, at_most: {pick(80, 100, 150, 200)} % of b}}
      - {{id: a-client, per: client, at_most: {pick(*SHARES)} % of b}}
  - id: b
    accepts: {{activity: [lecture, observing]}}
    at_least: {pick(2, 4)} h
    at_most: {pick(90, 100, 130)} % of c
    limits: [{{id: b-of-total, accepts: {{mode: live}}, per: host, at_most: {pick(10, 20, 30)} % of live-hours}}]
  - id: c
    accepts: {{activity: [lecture, teaching]}}
    at_least: {pick(2, 5)} h
totals: [{{id: live-hours, of: all, accepts: {{mode: [live, live_remote]}}, at_least: {pick(4, 8, 12)} h}}]
limits:
  - {{id: weekly, per: week, at_most: {pick(50, 100, 150)} % of a}}
  - {{id: sessionly, accepts: {{mode: live}}, per: session, at_most: {pick(20, 50)} % of live-hours}}
"""


def variety_beyond_what_there_is(pick: Pick) -> str:
    return f"""{pick(CLOSED, OPEN)}categories:
  - id: a
    accepts: {{activity: [observing, teaching]}}
    at_least: {pick(3, 6)} h
    at_most: {pick(8, 9, 20)} h
    limits: [{{id: a-host, per: host, at_most: {pick(60, 90, 120)} min}}]
    variety:
      - {{id: a-hosts, of: host, at_least: {pick(2, 3, 5)}, each: {pick(1, 45, 60)} min}}
      - {{id: a-clients, of: client, accepts: {{mode: live}}, at_least: {pick(2, 4, 6)}, each: {pick(30, 50, 80)} min}}
      - {{id: a-weeks, of: week, at_least: {pick(2, 4, 9)}, each: {pick(60, 100, 250)} min}}
      - {{id: a-days, of: day, accepts: {{mode: [live, recorded]}}, at_least: {pick(2, 5)}, each: {pick(30, 61)} min}}
  - id: b
    accepts: {{activity: [observing, lecture]}}
    at_least: {pick(2, 3)} h
    variety:
      - {{id: b-modes, of: mode, at_least: {pick(2, 3, 4)}, each: {pick(20, 60, 100)} min}}
      - {{id: b-sessions, of: session, at_least: {pick(2, 5)}, each: {pick(60, 120)} min}}
choose: [{{id: some, at_least: {pick(1, 2, 3)}, among: [a-hosts, a-clients, a-weeks, b-modes]}}]
"""


def gates_after_gates(pick: Pick) -> str:
    return f"""{pick(CLOSED, OPEN)}window: {{months: {pick(3, 6)}, lapses_after_months: {pick(3, 4, 9)}}}
categories:
  - {{id: a, accepts: {{activity: [observing, lecture]}}, at_least: {pick(2, 4)} h, unit: {pick(45, 60)} min}}
  - id: b
    accepts: {{activity: [teaching, observing]}}
    at_least: {pick(2, 4)} h
    credit: {{weights: [{{accepts: {{mode: recorded}}, as: 50 %}}]}}
  - {{id: c, accepts: {{activity: [teaching, lecture]}}, counts: [signed_off, attested], at_least: {pick(2, 4)} h}}
gates:
  - {{id: g1, category: b, when: [{{category: a, at_least: {pick(1, 2, 4)} h}}]}}
  - {{id: g2, category: c, when: [{{category: b, accepts: {{mode: [live]}}, at_least: {pick(45, 90, 150)} min}}]}}
  - {{id: g3, category: c, when: [{{total: all, at_least: {pick(2, 5, 8)} h}}, {{category: c, at_least: {pick(1, 2)} h}}]}}
  - {{id: g4, category: a, when: [{{total: all, accepts: {{mode: [live, recorded]}}, at_least: {pick(30, 60)} min}}]}}
"""


def weights_after_rounding(pick: Pick) -> str:
    return f"""{pick(CLOSED, OPEN)}categories:
  - id: a
    accepts: {{activity: [observing, teaching]}}
    at_least: {pick(3, 6)} h
    unit: {pick(45, 60)} min
    credit:
      round_down_to: {pick(7, 15, 30)} min
      sessions: [{{from: 50 min, to: 60 min, as: 1 h}}, {{from: 40 min, to: 90 min, as: {pick(45, 70, 95)} min}}]
      weights:
        - {{accepts: {{mode: recorded}}, as: {pick(25, 50, 30)} %}}
        - {{accepts: {{client: [c1, c2]}}, as: {pick(50, 75, 150)} %}}
    of_which: [{{id: a-first, accepts: {{host: h1}}, at_least: {pick(10, 33.3, 50)} %}}]
    limits: [{{id: a-day, per: day, at_most: {pick(100, 130, 200)} min}}]
  - id: b
    accepts: {{activity: [observing, lecture]}}
    at_least: {pick(2, 3)} h
    credit: {{round_down_to: {pick(20, 60)} min, weights: [{{as: {pick(50, 70)} %}}]}}
totals: [{{id: t, of: all, accepts: {{mode: [live, recorded]}}, at_least: {pick(4, 9)} h}}]
"""


def entries_for_several_categories(pick: Pick) -> str:
    return f"""{pick(CLOSED, OPEN)}counts: [signed_off, accepted]
categories:
  - id: a
    accepts: {{activity: [observing, teaching, lecture]}}
    at_least: {pick(2, 4)} h
    at_most: {pick(120, 150)} %
    credit: {{weights: [{{accepts: {{mode: live}}, as: {pick(50, 150, 99.5, 100.5)} %}}]}}
  - id: b
    accepts: {{activity: [observing, teaching]}}
    at_least: {pick(2, 4)} h
    at_most: {pick(4, 5)} h
    of_which: [{{id: b-h1, accepts: {{host: [h1, h2]}}, at_least: {pick(60, 110)} min}}]
  - id: c
    accepts: {{activity: [observing, lecture]}}
    at_least: {pick(1, 3)} h
    counts: [signed_off, attested]
    credit: {{round_down_to: 30 min}}
    of_which: [{{id: c-recorded, accepts: {{mode: [recorded, live_remote]}}, at_least: {pick(20, 50)} %}}]
totals: [{{id: t, of: [a, c], at_least: {pick(3, 8, 12)} h}}, {{id: t2, of: [b, c], at_least: {pick(4, 9)} h}}]
limits: [{{id: daily, per: day, at_most: {pick(2, 3, 4)} h}}, {{id: one-host, per: host, at_most: {pick(3, 4)} h}}]
choose: [{{id: two, at_least: {pick(1, 2)}, among: [a, b, t]}}]
"""


def floors_under_ceilings(pick: Pick) -> str:
    return f"""{pick(CLOSED, OPEN)}categories:
  - id: a
    accepts: {{activity: [observing, teaching]}}
    at_least: {pick(4, 6)} h
    at_most: {pick(100, 110)} %
    of_which:
      - {{id: a-live, accepts: {{mode: live}}, at_least: {pick(30, 40)} %}}
      - {{id: a-h1, accepts: {{host: [h1, h2]}}, at_least: {pick(30, 50)} %}}
      - {{id: a-c, accepts: {{client: c1, mode: [live_remote, recorded]}}, at_least: {pick(10, 20)} %}}
    limits:
      - {{id: a-host, per: host, at_most: {pick(40, 50, 60)} %}}
      - {{id: a-mode, per: mode, at_most: {pick(50, 70)} %}}
      - {{id: a-client-live, accepts: {{mode: live}}, per: client, at_most: {pick(25, 40)} %}}
  - id: b
    accepts: {{activity: [lecture, observing], host: [h1, h3, h4]}}
    at_least: {pick(2, 3)} h
    limits: [{{id: b-session, accepts: {{client: [c1, c3]}}, per: session, at_most: {pick(10, 30)} %}}]
limits: [{{id: client, per: client, at_most: {pick(2, 4)} h}}, {{id: week, per: week, at_most: {pick(3, 5, 8)} h}}]
"""


SETS = (
    shares_of_what_is_credited_with_totals,
    shares_of_other_amounts,
    variety_beyond_what_there_is,
    gates_after_gates,
    weights_after_rounding,
    entries_for_several_categories,
    floors_under_ceilings,
)
COLUMNS = ("trainee", "id", "date", "minutes", "activity", "state", "mode", "host", "client", "session")
LATEST = date(2026, 6, 20)


@st.composite
def hard_files(draw: st.DrawFn) -> Files:
    def pick(*values):
        return draw(st.sampled_from(values))

    def row(number: int) -> str:
        day = LATEST - timedelta(days=pick(0, 0, 1, 1, 2, 5, 8, 20, 60, 120))
        minutes = pick(20, 45, 50, 55, 61, 75, 90, 120, 150, 240)
        activity = pick("observing", "observing", "teaching", "lecture", "observing|lecture")
        state = pick(*["signed_off"] * 8, "waiting", "accepted", "attested")
        mode = pick("live", "live", "live_remote", "recorded", "live|recorded")
        host, client = pick("h1", "h1", "h2", "h3", "h1|h2", ""), pick("c1", "c2", "c3", "c1|c2", "c2 | c3 | c4", "")
        session = pick("s1", "s2", "s3", f"own{number}", "")
        return f"t1,e{number:02},{day},{minutes},{activity},{state},{mode},{host},{client},{session}"

    count = pick(2, 5, 8, 11, 14, 18)
    log = [",".join(COLUMNS), *(row(number) for number in range(count))]
    enrolled = pick(None, None, date(2026, 3, 1))
    return Files(pick(*SETS)(pick), "\n".join(log) + "\n", None, enrolled, AS_OF)
