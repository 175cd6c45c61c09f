"""The whole picture of a season, with what rests on too little held back."""

import numpy as np

from assessments.measurement.limits import DEFAULT_LIMITS, Limits
from assessments.practicals.specification import Practical
from assessments.season.agreement import grade_agreement, with_partners
from assessments.season.gathered import Gathered
from assessments.season.pass_mark import season_pass_marks
from assessments.season.spread import band, season_spread
from assessments.season.strictness import season_strictness

SEED = 20260119


def season_picture(
    practical: Practical, gathered: Gathered, limits: Limits = DEFAULT_LIMITS, seed: int = SEED
) -> dict[str, object]:
    """Everything the pages of a season show, by key; the seed of every resampling stands with it.

    `counted` says what it rests on, `agreement` how alike grades are, `spread` how sure a mark is and what plans buy,
    `strictness` the model's measures in marks,
    `pass_marks` what the global grades speak for, `band` half the band that the season's error gives, or None.
    """
    agreement = grade_agreement(gathered, len(practical.grades), _chance(seed, 1), limits)
    spread = season_spread(practical, gathered, _chance(seed, 2), limits)
    strictness = season_strictness(practical, gathered, _chance(seed, 3), limits)
    error = spread["as_it_is"]["error"].estimate
    return {
        "seed": seed,
        "counted": {
            "exams": len(gathered.exams),
            "sheets": gathered.sheets,
            "examiners": list(gathered.examiners),
            "blocks": len(gathered.blocks),
            "ratings": len(gathered.rating),
            "left_out": gathered.left_out,
            "first_day": gathered.first_day,
        },
        "agreement": {
            "same": agreement.same,
            "near": agreement.near,
            "alpha": agreement.alpha,
            "blocks": agreement.blocks,
        },
        "spread": spread,
        "strictness": strictness,
        "pass_marks": season_pass_marks(practical, gathered, _chance(seed, 4), limits),
        "band": None if error is None else band(practical, error),
        "partners": [
            {"id": examiner, "pairs": pairs, "same": same, "near": near, **_shared(gathered, place)}
            for place, examiner in enumerate(gathered.examiners)
            for pairs, same, near in (with_partners(gathered, place),)
        ],
    }


def _shared(gathered: Gathered, place: int) -> dict[str, int]:
    exams = np.unique(gathered.mark[gathered.mark[:, 1] == place, 0])
    return {"exams": len(exams), "partners": len(gathered.partners(place))}


def _chance(seed: int, part: int) -> np.random.Generator:
    return np.random.default_rng([seed, part])
