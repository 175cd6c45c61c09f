"""Measurement in the reader's own way to write numbers (Unicode CLDR by babel: German writes 0,71)."""

import re

import numpy as np
import pytest

from app.wording.languages import ENGLISH, Language
from app.wording.measurement import (
    agreement_sentences,
    consistency_sentences,
    detection_sentences,
    reliability_sentences,
)
from app.wording.measurement_cut_score import cut_score_sentences
from app.wording.measurement_rasch import rasch_sentences
from app.wording.measurement_variance import variance_sentences
from app.wording.simulations import study_sentences, study_table, summary_sentences
from assessments.measurement.agreement_report import agreement_report
from assessments.measurement.cronbach import cronbach
from assessments.measurement.detection import detection
from assessments.measurement.limits import DEFAULT_LIMITS
from assessments.measurement.rasch.report import Asked, rasch_report
from assessments.measurement.ratings import Ratings
from assessments.measurement.simulation.drawn_ratings import (
    category_chances,
    draw_ratings,
    even_truth,
    paired_plan,
    rated,
)
from assessments.measurement.simulation.phi_coverage import CROSSED, drawn_scores
from assessments.measurement.simulation.studies import STUDIES
from assessments.measurement.simulation.study import Finding
from assessments.measurement.statistic import measured
from assessments.measurement.variance_report import Question, variance_report

GERMAN = Language("de_DE")
POINT, COMMA = re.compile(r"\d\.\d"), re.compile(r"\d,\d")


def agreement(language):
    chance = np.random.default_rng(1)
    marks = np.clip(np.round(chance.normal(2, 1, (1, 40)) + chance.normal(0, 0.5, (2, 40))), 0, 4).astype(int)
    unit, examiner = np.tile(np.arange(40), 2), np.repeat([0, 1], 40)
    ratings = Ratings(unit, examiner, marks.ravel(), 40, ("A", "B"), tuple("01234"), marks.ravel().astype(float))
    return agreement_sentences(ratings, agreement_report(ratings, chance, DEFAULT_LIMITS, False), language)


def reliability(language):
    chance = np.random.default_rng(1)
    alpha, sem = cronbach(chance.normal(size=(60, 1)) + chance.normal(size=(60, 4)))
    rests_on = {"candidates": 60, "items": 4, "incomplete_left_out": 0}
    return reliability_sentences({"alpha": alpha, "sem": sem}, rests_on, language)


def consistency(language):
    found = {name: measured(0.8765, 0.85, 0.9, 60) for name in ("agreement", "kappa", "accuracy")}
    found |= {name: measured(0.0412, 0.01, 0.09, 60) for name in ("false_pass", "false_fail")}
    return consistency_sentences(found, {}, language)


def cut(language):
    rounds = {"change": measured(-0.5, -1.0, 0.1, 6), "sd_before": 2.5, "sd_after": 1.5}
    return cut_score_sentences("angoff", {"cut": measured(21.25, 19.5, 22.3, 6), "rounds": rounds}, 50.0, language)


def eye(language):
    found = detection(9, 12, 2, 12)
    counts = {"hits": 9, "signal_trials": 12, "false_alarms": 2, "noise_trials": 12}
    return detection_sentences(
        [{"id": "A", "d_prime": found.d_prime, "criterion": found.criterion, **counts}], None, language
    )


def variance(language):
    chance = np.random.default_rng(1)
    design = drawn_scores(("candidate", "examiner"), (60, 8), CROSSED, chance)
    question = Question(plans=[{1: 2}], cut=2.5, shown_plans=[{"examiner": 2}])
    found = variance_report(design, question, chance, DEFAULT_LIMITS)
    return list(variance_sentences(found, ["candidate", "examiner"], "examiner", 60, language))


def severities(language):
    chance = np.random.default_rng(1)
    plan, truth = paired_plan(120, 4, 2, 3), even_truth(4, 2, 3, [[-1.2, 0.1, 1.1]])
    mine = plan.examiner == 1
    harsher = 2.0 * mine * (plan.candidate / 119 - 0.5) + 1.2 * (mine & (plan.criterion == 0))
    day = 0.8 * chance.standard_normal((120, 2))[plan.candidate, plan.exercise]
    ratings = draw_ratings(category_chances(plan, chance.normal(0, 1.2, 120), truth, harsher - day), chance)
    other = rated(plan, ratings, "criterion")
    time = plan.candidate.astype(float)
    asked = Asked("marginal", 0, 1, np.zeros(120, np.int64), ("all",), time=time, draws=20, other=other)
    found = rasch_report(rated(plan, ratings), asked, chance, DEFAULT_LIMITS)
    return list(rasch_sentences(found, "examiner", language))


def simulations(language):
    study = STUDIES["drift"]
    found = [Finding(measure, 0.5125, 0.0125, 1200, 1200) for measure in study.measures]
    lines = [*study_sentences(study, found, 1200, language), *study_table(study, found, 1200, language)]
    return lines + list(summary_sentences([(study, finding) for finding in found], language))


@pytest.mark.parametrize(
    "say",
    [agreement, reliability, consistency, cut, eye, variance, severities, simulations],
    ids=lambda say: say.__name__,
)
def test_every_decimal_is_written_as_the_reader_writes_it(say):
    english, german = "\n".join(say(ENGLISH)), "\n".join(say(GERMAN))
    assert POINT.search(english)
    assert COMMA.search(german)
    assert [line for line in german.splitlines() if POINT.search(line.replace("1.200", ""))] == []


def test_severity_drift_interaction_and_lessons_are_told_in_words():
    said = "\n".join(severities(ENGLISH))
    assert "examiner 1 grew harsher from first to last" in said
    assert "examiner 1 is harsher on criterion 0 than elsewhere" in said
    assert "Good and bad days count" in said
    assert "drift can't be told from a change of cohort" in said


def test_two_rounds_of_judges_are_compared_in_words():
    said = "\n".join(cut(ENGLISH))
    assert "Since the round before the judges lowered the pass mark by 0.50." in said
    assert "fell from 2.50 to 1.50" in said


@pytest.mark.parametrize(
    ("number", "digits", "sign", "english", "german"),
    [
        (0.714, 2, False, "0.71", "0,71"),
        (-0.714, 1, False, "-0.7", "-0,7"),
        (1234.5, 1, False, "1,234.5", "1.234,5"),
        (2.0, 1, True, "+2.0", "+2,0"),
        (-0.001, 2, False, "0.00", "0,00"),
        (0.0, 0, False, "0", "0"),
        (float("nan"), 2, False, "–", "–"),
    ],
)
def test_a_number_keeps_the_digits_it_is_asked_for(number, digits, sign, english, german):
    assert ENGLISH.decimal(number, digits, sign) == english
    assert GERMAN.decimal(number, digits, sign) == german
