"""Where a season's differences between marks come from, how sure one mark is, and what another plan would buy.

Brennan (2001) Generalizability Theory, ch. 4 and 8; Shavelson & Webb (1991) Generalizability Theory: A Primer.
"""

import numpy as np

from assessments.measurement.limits import Limits
from assessments.measurement.statistic import Statistic, measured, reason
from assessments.measurement.variance_design import variance_design
from assessments.measurement.variance_report import Question, variance_report
from assessments.practicals.specification import Practical
from assessments.season.gathered import Gathered, effective_blocks
from assessments.season.plans import MOST_BLOCKS, MOST_EXAMINERS
from curriculum.faults import N_, RefusedError

ONE_BLOCK = reason("one-block", N_("needs a practical of two blocks or more"))
UNDETERMINED = reason("undetermined", N_("the exams are too unlike each other to tell these effects apart"))


def season_spread(
    practical: Practical, gathered: Gathered, chance: np.random.Generator, limits: Limits
) -> dict[str, object]:
    """Shares of the spread by effect, the exam as it is, and every plan of up to 4 examiners and 12 blocks.

    Each answer has `phi`, `g` and `error` (in marks, absolute); `examiners` and `blocks` say for how many.
    The blocks count as drawn from many that could have been asked; unequal weights count as fewer equal blocks.
    """
    sizes = {"candidates": len(gathered.exams), "examiners": len(gathered.examiners)}
    enough = limits.examiner_variance.applied(measured(0.0, None, None, sizes["candidates"]), **sizes)
    if enough.withheld or len(gathered.blocks) < 2:
        return _held(enough if enough.withheld else enough.held_back(ONE_BLOCK), practical)
    grid = [(e, b) for e in range(1, MOST_EXAMINERS + 1) for b in range(1, MOST_BLOCKS + 1)]
    numbers = [(practical.examiners, effective_blocks(practical)), *grid]
    question = Question(
        plans=[{1: e, 2: b} for e, b in numbers], shown_plans=[{"examiners": e, "blocks": b} for e, b in numbers]
    )
    try:
        design = variance_design(("candidate", "examiner", "block"), list(gathered.mark.T), gathered.marks)
        found = variance_report(design, question, chance, limits)
    except (RefusedError, np.linalg.LinAlgError) as refusal:
        return _held(enough.held_back(_why(refusal)), practical)
    answers = [_answer(one) for one in found["plans"]]
    return {
        "withheld": None,
        "flags": [*found["flags"]],
        "shares": found["shares"],
        "as_it_is": answers[0],
        "plans": answers[1:],
    }


def band(practical: Practical, error: float) -> float:
    """Half of the band in marks that the season's own error gives, the cut score's error in quadrature."""
    own = float(practical.cut.standard_error or 0)
    return float(practical.band.standard_errors) * (error**2 + own**2) ** 0.5


def _answer(found: dict) -> dict[str, object]:
    answer = {"phi": found["phi"], "g": found["g_coefficient"], "error": found["sem_absolute"]}
    return found["plan"] | answer


def _held(why: Statistic, practical: Practical) -> dict[str, object]:
    plan = {"examiners": practical.examiners, "blocks": effective_blocks(practical)}
    answer = plan | {"phi": why, "g": why, "error": why}
    return {"withheld": why.withheld, "flags": [], "shares": None, "as_it_is": answer, "plans": []}


def _why(refusal: Exception):  # noqa: ANN202
    return refusal.faults[0] if isinstance(refusal, RefusedError) else UNDETERMINED
