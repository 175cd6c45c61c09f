"""Open reference values that no table stands behind, or that the commands do not print: asked of the methods themselves."""

import json
from collections.abc import Mapping
from pathlib import Path

import numpy as np

from app.files.bank import bank_from_file
from app.files.measurement import read_table
from assessments.measurement.detection import detection
from assessments.measurement.hofstee import hofstee
from assessments.measurement.peng_subkoviak import peng_subkoviak
from assessments.measurement.rasch.design import rasch_design
from assessments.measurement.rasch.joint import joint_fit
from assessments.measurement.variance import sums_of_squares
from assessments.measurement.variance_design import variance_design
from assessments.practicals.drawing import draw, seed_of
from assessments.practicals.drawing_specification import DrawingSpecification, Inclusion

Values = dict[str, object]
FACETS = ("examiner", "exercise", "criterion")


def normal_table() -> Values:
    return {
        f"p0_z{z:g}_r{r:g}": peng_subkoviak(z, r).agreement
        for z in (0, 0.5, 1, 1.5)
        for r in (0.5, 0.7, 0.8, 0.9, 0.95)
    }


def detection_example() -> Values:
    """All 50 faults found, 17 false alarms in 25 sound clips, by both corrections."""
    found: Values = {}
    for short, correction in (("halfN", "half"), ("loglinear", "log-linear")):
        one = detection(50, 50, 17, 25, correction)
        found |= {
            f"H_{short}": one.hit_rate,
            f"F_{short}": one.false_alarm_rate,
            f"dprime_{short}": one.d_prime.estimate,
            f"c_{short}": one.criterion.estimate,
            f"ln_beta_{short}": one.ln_beta,
            f"beta_{short}": float(np.exp(one.ln_beta)),
            f"A_prime_{short}": one.a_prime,
        }
    return found | {"Az_loglinear": one.a_z, "se_dprime_loglinear": one.se}


def detection_table() -> Values:
    rates = ((0.99, 0.01), (0.9, 0.1), (0.8, 0.2), (0.7, 0.3), (0.6, 0.4), (0.9, 0.4))
    trials = 100
    return {
        f"dprime_H{h:g}_F{f:g}": detection(h * trials, trials, f * trials, trials, "none").d_prime.estimate
        for h, f in rates
    }


def no_solution() -> Values:
    """Scores 0 to 10, ten candidates each, and judges who ask for a cut of 6 to 7 with 5 to 10 per cent failing."""
    scores = np.repeat(np.arange(11.0), 10)
    cut = hofstee(scores, np.array([[6.0, 7.0, 5.0, 10.0]] * 5), np.random.default_rng(1)).cut
    return {"result": "no solution" if cut.estimate is None else cut.estimate}


def uncorrected_sums(folder: Path) -> Values:
    """T of candidates, tasks and examiners within tasks, about nought: sum of the squared totals over their numbers."""
    table = read_table(folder / "open_unbalanced_pxr_in_t.csv")
    scores = table.numbers("score")
    codes = [table.complete_codes(name)[1] for name in ("p", "t", "r")]
    known = ~np.isnan(scores)
    design = variance_design(("p", "t", "r"), [code[known] for code in codes], scores[known], {"r": ["t"]})
    about_nought = sums_of_squares(design, design.scores) + len(design.scores) * design.scores.mean() ** 2
    names = {"p": "T_p", "t": "T_t", "r(t)": "T_r:t"}
    sums = zip(design.effects, about_nought, strict=True)
    return {names[effect.name]: float(value) for effect, value in sums if effect.name in names}


def within_team(folder: Path) -> Values:
    """The error of the difference of the two examiners of one team, by the joint likelihood."""
    table = read_table(folder / "open_mfrm_weak_link.csv")
    who, *codes = (table.complete_codes(name) for name in ("candidate", *FACETS))
    columns = [(name, *code) for name, code in zip(FACETS, codes, strict=True)]
    design = rasch_design(who, columns, table.numbers("rating"))
    own = joint_fit(design).covariance[design.block(0), design.block(0)]
    return {"se_typical_within_team": float(np.sqrt(own[0, 0] + own[1, 1] - 2 * own[0, 1]))}


def recovery(folder: Path, name: str, answer: Mapping[str, object]) -> Values:
    """How near an answer of `measure rasch` comes to the values that the ratings were drawn with."""
    truth = json.loads((folder / "mfrm_truth_open.json").read_text(encoding="utf-8"))[f"open_{name}"]
    examiners = [row["estimate"] for row in answer["facets"]["examiner"]]
    measures, errors = np.array([(row["estimate"], row["se"]) for row in answer["candidates"]]).T
    away = measures - truth["theta"]
    return {
        "recovery_rmse_examiner_mml": float(np.sqrt(np.mean((np.array(examiners) - truth["examiner"]) ** 2))),
        "recovery_rmse_theta_wle": float(np.sqrt(np.mean(away**2))),
        "recovery_coverage_theta_95": float(np.mean(np.abs(away) < 1.96 * errors)),
    }


def assembly(folder: Path) -> Values:
    """The least distance from the target of two lists of four; which lists reach it is left to chance."""
    kinds = tuple(Inclusion({"category": (kind,)}, 1, None) for kind in "ABC")
    target = ((-1.0, 0.678), (0.0, 0.827), (1.0, 0.735))
    asked = DrawingSpecification(
        4, most_minutes=28, include=kinds, apart=(("1", "2"), ("5", "10")), overlap=0, target=target
    )
    drawn = draw(bank_from_file(str(folder / "open_ata_12.csv")), asked, 2, seed_of("any"))
    return {"optimal_max_deviation": drawn.deviation}
