"""How many of the questions asked of a labelled log are about something odd, and how much that is odd is asked about."""

from datetime import date

import numpy as np

from assessments.hours.oddities import KINDS, Thresholds, questions
from assessments.hours.simulated_logs import SimulatedLog, simulated_log
from assessments.measurement.simulation.study import Drawn, Measure, Study
from curriculum.faults import N_

NEVER = Thresholds(expires_days=100_000)
WORDS = {
    "two-places": N_("two places at once"),
    "travel": N_("no time for the way"),
    "full-day": N_("a host's day fuller than a day"),
    "host-elsewhere": N_("a host in two places"),
    "copied-notes": N_("copied notes"),
    "long-after": N_("long after the fact"),
    "in-one-go": N_("all in one go"),
}


def once(chance: np.random.Generator) -> Drawn:
    return found_and_right(simulated_log(chance))


def found_and_right(made: SimulatedLog) -> dict[str, np.ndarray]:
    """By kind: of each question whether it shares a session with something planted of its kind, and the other way round."""
    asked = [(one.kind, frozenset(one.sessions)) for one in questions(made.log, date(2027, 1, 1), NEVER)]
    found = {}
    for kind in KINDS:
        mine = [some for of, some in asked if of == kind]
        odd = [some for of, some in made.odd if of == kind]
        found[f"{kind}/precision"] = np.array([any(some & each for each in odd) for some in mine], float)
        found[f"{kind}/recall"] = np.array([any(some & each for each in mine) for some in odd], float)
    return found


STUDY = Study(
    "oddities",
    N_("Questions about a log, simulated half-years with what is odd labelled"),
    once,
    tuple(
        measure
        for kind, words in WORDS.items()
        for measure in (
            Measure(f"{kind}/precision", "share", N_("{kind}: questions that are about something odd"), 0.5, 1.0, {"kind": words}),
            Measure(f"{kind}/recall", "share", N_("{kind}: of what is odd, asked about"), 0.5, 1.0, {"kind": words}),
        )
    ),
    100,
)  # fmt: skip
