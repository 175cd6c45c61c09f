"""Examiners who mark one block or criterion otherwise than their strictness elsewhere, in marks at the pass mark."""

import numpy as np

from assessments.measurement.limits import Limits
from assessments.measurement.rasch.design import RaschDesign
from assessments.measurement.rasch.interaction_steps import Term, clear_terms
from assessments.measurement.rasch.joint import JointFit
from assessments.measurement.statistic import Statistic, measured
from assessments.season.scale import MarkScale

Z = 1.959963984540054


def season_leanings(
    design: RaschDesign, joint: JointFit, deff: float, scale: MarkScale, cut: float | None, limits: Limits
) -> list[dict[str, object]]:
    """`examiner`, `kind` (block or criterion), `id`, `marks` of each pair that stands out, the largest first.

    `marks` is what the leaning adds (below 0: takes off) for a candidate at the pass mark whom an examiner of average
    strictness marks, in per cent of that block or criterion alone. `cut` is the measure at the pass mark, `deff` the design
    effect of ratings of one block of one exam: a good or bad day is all in one block, and no examiner's leaning.
    """
    if cut is None:
        return []
    found = []
    for place, facet in enumerate(design.facets[1:], start=1):
        codes = tuple(design.elements[design.cell, at] - design.block(at).start for at in (0, place))
        shared = deff if facet.name == "block" else 1.0
        for term in clear_terms(design, joint, codes, limits.bias_term.withhold["ratings"], shared):
            id = facet.labels[term.other]
            only = (scale.block if facet.name == "block" else scale.criterion) == id
            row = {"examiner": design.facets[0].labels[term.one], "kind": facet.name, "id": id}
            found.append(
                row | {"marks": limits.bias_term.applied(_marks(scale, term, cut, only), ratings=term.ratings)}
            )
    return sorted(found, key=lambda row: -abs(row["marks"].estimate))


def _marks(scale: MarkScale, term: Term, cut: float, only: np.ndarray) -> Statistic:
    ends = (term.estimate, term.estimate + Z * term.error, term.estimate - Z * term.error)
    fair = scale.marks(cut, 0.0, only)
    return measured(*(scale.marks(cut, end, only) - fair for end in ends), term.ratings)
