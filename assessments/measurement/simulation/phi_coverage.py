"""Do the intervals of a generalizability study hold the true components and coefficients?

Two examiners' worth of designs: candidates x examiners, and candidates x exercises x examiners, all effects normal.
"""

import numpy as np

from assessments.measurement.limits import DEFAULT_LIMITS
from assessments.measurement.simulation.study import Drawn, Measure, Study, covers
from assessments.measurement.variance_design import VarianceDesign, variance_design
from assessments.measurement.variance_report import Question, variance_report
from curriculum.faults import N_

CROSSED = {"candidate": 0.55, "examiner": 0.16, "candidate x examiner": 0.29}
CANDIDATES, EXAMINERS, EXERCISES = 60, 8, 6
THREE = {
    "candidate": 0.40,
    "examiner": 0.10,
    "exercise": 0.08,
    "candidate x examiner": 0.06,
    "candidate x exercise": 0.20,
    "examiner x exercise": 0.03,
    "candidate x examiner x exercise": 0.25,
}


def drawn_scores(
    factors: tuple[str, ...], levels: tuple[int, ...], components: dict[str, float], chance: np.random.Generator
) -> VarianceDesign:
    """A complete crossed design with normal effects of the variances that `components` gives by name."""
    codes = [part.ravel() for part in np.indices(levels)]
    scores = np.full(len(codes[0]), 3.0)
    for name, variance in components.items():
        own = [factors.index(factor) for factor in name.split(" x ")]
        shape = tuple(levels[place] for place in own)
        scores += np.sqrt(variance) * chance.standard_normal(shape)[tuple(codes[place] for place in own)]
    return variance_design(factors, codes, scores)


def true_phi(components: dict[str, float], levels: dict[str, int]) -> tuple[float, float]:
    """G coefficient and Phi of a plan with these numbers (Brennan 2001, 4.1)."""
    own = components["candidate"]
    relative = absolute = 0.0
    for name, variance in components.items():
        facets = [factor for factor in name.split(" x ") if factor != "candidate"]
        part = variance / np.prod([levels[facet] for facet in facets]) if facets else 0.0
        absolute += part
        relative += part if name.startswith("candidate x") else 0.0
    return own / (own + relative), own / (own + absolute)


def once(chance: np.random.Generator) -> Drawn:
    found: dict[str, np.ndarray] = {}
    two = drawn_scores(("candidate", "examiner"), (CANDIDATES, EXAMINERS), CROSSED, chance)
    found |= _looked_at("two", two, CROSSED, {"examiner": EXAMINERS}, chance)
    factors = ("candidate", "examiner", "exercise")
    three = drawn_scores(factors, (CANDIDATES, EXAMINERS, EXERCISES), THREE, chance)
    return found | _looked_at("three", three, THREE, {"examiner": EXAMINERS, "exercise": EXERCISES}, chance)


def _looked_at(name: str, design: VarianceDesign, components: dict[str, float], levels, chance) -> Drawn:
    answer = variance_report(design, Question(), chance, DEFAULT_LIMITS, anyway=True)
    g, phi = true_phi(components, levels)
    found = {
        f"{name}/g": covers(answer["g_coefficient"].low, answer["g_coefficient"].high, g),
        f"{name}/phi": covers(answer["phi"].low, answer["phi"].high, phi),
        f"{name}/jackknife": covers(answer["phi_jackknife"].low, answer["phi_jackknife"].high, phi),
        f"{name}/bias": np.array([answer["phi"].estimate - phi]),
    }
    for effect in ("candidate", "examiner"):
        detail = answer["component_details"][effect]
        found[f"{name}/{effect}"] = covers(detail.low, detail.high, components[effect])
    return found


DESIGNS = {
    "two": N_("60 candidates x 8 examiners"),
    "three": N_("60 candidates x 8 examiners x 6 exercises"),
}
ROWS = (
    ("candidate", "share", N_("{design}: 95 % intervals of the candidates' variance that hold the truth"), 0.93, 0.97),
    ("examiner", "share", N_("{design}: 95 % intervals of the examiners' variance that hold the truth"), 0.93, 0.97),
    ("g", "share", N_("{design}: 95 % intervals of the G coefficient that hold the truth"), 0.93, 0.97),
    ("phi", "share", N_("{design}: 95 % intervals of Phi, by drawing, that hold the truth"), 0.93, 0.97),
    ("jackknife", "share", N_("{design}: 95 % intervals of Phi, by leaving one out, that hold the truth"), 0.93, 0.97),
    ("bias", "mean", N_("{design}: error of Phi on average"), -0.01, 0.01),
)
STUDY = Study(
    "generalizability",
    N_("Intervals of a generalizability study, normal effects"),
    once,
    tuple(
        Measure(f"{name}/{key}", kind, text, low, high, {"design": words})
        for name, words in DESIGNS.items()
        for key, kind, text, low, high in ROWS
    ),
    200,
)
