"""Does the nightly audit of severities ring where one examiner met abler candidates, and seldom where nobody did?

Under the assumption of the marginal likelihood an alert at two errors of the difference comes by chance in one of 22
examiners (Hausman 1978, Econometrica 46: 1251-1271; the normal distribution beyond two standard deviations).
"""

import numpy as np

from assessments.measurement.rasch.analysis import start_from
from assessments.measurement.rasch.conditional_audit import ConditionalAudit, conditional_audit
from assessments.measurement.rasch.joint import joint_fit
from assessments.measurement.rasch.marginal import marginal_fit
from assessments.measurement.simulation.drawn_ratings import (
    category_chances,
    draw_ratings,
    even_truth,
    paired_plan,
    rated,
)
from assessments.measurement.simulation.study import Drawn, Measure, Study
from curriculum.faults import N_

CANDIDATES, EXAMINERS, EXERCISES, CRITERIA = 150, 6, 2, 3
STEPS = [[-1.2, 0.1, 1.1]]
ABLER = (0.5, 1.0, 2.0)
PLAN = paired_plan(CANDIDATES, EXAMINERS, EXERCISES, CRITERIA)
OWN = PLAN.examiner.reshape(CANDIDATES, -1).min(axis=1) == 0


def once(chance: np.random.Generator) -> Drawn:
    """The same candidates spread by chance, and with those of the first examiner made abler."""
    ability = chance.normal(0, 1.2, CANDIDATES)
    even = _audited(ability, chance)
    found = {
        "even": even.apart,
        "any": np.array([even.apart.any()]),
        "ratio": even.difference / np.sqrt(np.mean(even.error**2)),
    }
    for more in ABLER:
        found[f"abler/{more:g}"] = _audited(ability + more * OWN, chance).apart[:1]
    return found


def _audited(ability: np.ndarray, chance: np.random.Generator) -> ConditionalAudit:
    truth = even_truth(EXAMINERS, EXERCISES, CRITERIA, STEPS)
    design = rated(PLAN, draw_ratings(category_chances(PLAN, ability, truth), chance))
    everyone, joint = np.zeros(CANDIDATES, np.int64), joint_fit(design)
    return conditional_audit(design, marginal_fit(design, everyone, start_from(design, everyone, joint)), 0)


RINGS = N_("the candidates of one examiner are abler by {logits} logits: the audit rings for that examiner")
STUDY = Study(
    "audit",
    N_("The nightly audit of severities, 6 examiners, 150 candidates, 12 ratings each"),
    once,
    (
        Measure("even", "share", N_("candidates spread by chance: examiners for whom it rings"), 0.0, 0.06),
        Measure("any", "share", N_("candidates spread by chance: sets in which it rings for anyone"), 0.0, 0.25),
        Measure("ratio", "size", N_("candidates spread by chance: differences in units of their error"), 0.9, 1.1),
        *(Measure(f"abler/{more:g}", "share", RINGS, 0.8, 1.0, {"logits": more}) for more in ABLER),
    ),
    200,
)  # fmt: skip
