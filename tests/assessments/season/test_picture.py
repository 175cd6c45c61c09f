"""A season's picture against known panels, a reference library, and its own limits."""

from dataclasses import replace

import krippendorff
import numpy as np
import pytest

from assessments.measurement.limits import DEFAULT_LIMITS
from assessments.season.agreement import grade_agreement, grade_counts
from assessments.season.drift_chart import drift_charts
from assessments.season.gathered import block_weights, gather
from assessments.season.picture import season_picture
from tests.assessments.season.cast import BASIC, SEVERITIES, season


@pytest.fixture(scope="module")
def large():
    return season_picture(BASIC, gather(BASIC, season(200, drift={"dee": 0.8})))


@pytest.fixture(scope="module")
def small():
    return season_picture(BASIC, gather(BASIC, season(6)))


def test_agreement_is_the_reference_librarys():
    """Castro S (2017) krippendorff, the same alpha from the same table of grades."""
    found = gather(BASIC, season(40))
    counts, _ = grade_counts(found, len(BASIC.grades))
    agreement = grade_agreement(found, len(BASIC.grades), np.random.default_rng(1), DEFAULT_LIMITS)
    wanted = krippendorff.alpha(value_counts=counts, value_domain=list(range(5)), level_of_measurement="ordinal")
    assert agreement.alpha.estimate == pytest.approx(wanted)
    grades = found.grade[np.lexsort((found.grade[:, 1], found.grade[:, 2], found.grade[:, 0])), 3].reshape(-1, 2)
    assert agreement.same.estimate == pytest.approx(np.mean(grades[:, 0] == grades[:, 1]))
    assert agreement.near.estimate == pytest.approx(np.mean(np.abs(grades[:, 0] - grades[:, 1]) <= 1))


def test_exams_are_drawn_whole_so_that_the_interval_is_wider_than_blocks_alone_would_make_it():
    """Every grade copied onto a second set of blocks tells nothing new: the interval must stay as it is."""
    found = gather(BASIC, season(40))
    again = found.grade + np.array([0, 0, 5, 0])
    twice = replace(found, blocks=found.blocks * 2, grade=np.vstack([found.grade, again]))
    once, both = (grade_agreement(one, 5, np.random.default_rng(1), DEFAULT_LIMITS).same for one in (found, twice))
    assert (both.low, both.high) == pytest.approx((once.low, once.high))


def test_known_severities_come_back_in_the_right_order_and_within_their_intervals():
    found = season_picture(BASIC, gather(BASIC, season(200)))["strictness"]["examiners"]
    wanted = np.array([SEVERITIES[one["id"]] for one in found])
    values = np.array([one["severity"].estimate for one in found])
    assert np.corrcoef(-wanted, values)[0, 1] > 0.98
    level = -np.polyfit(wanted, values, 1)[0]
    covered = [
        one["severity"].low - 1 <= -level * (severity - wanted.mean()) <= one["severity"].high + 1
        for one, severity in zip(found, wanted, strict=True)
    ]
    assert all(covered)


def test_an_examiner_who_turns_harsher_leaves_the_lines_and_others_do_not(large):
    outside = {one["id"]: one["chart"]["outside"] for one in large["strictness"]["examiners"]}
    assert outside.pop("dee") > 0
    assert max(outside.values()) <= 3


def test_the_lines_of_the_control_chart_are_crossed_as_seldom_as_a_normal_value_leaves_three_sigma():
    """A steady process: 0.27 % of points lie outside three standard deviations (table of the normal distribution)."""
    chance = np.random.default_rng(3)
    exams, ratings = 40_000, 4
    residual = chance.standard_normal(exams * ratings)
    exam = np.repeat(np.arange(exams), ratings)
    chart = drift_charts(exam, exam % 20, 20, residual, np.ones_like(residual))
    points = sum(len(one.values) for one in chart)
    assert points == exams
    assert sum(one.outside for one in chart) / points == pytest.approx(0.0027, abs=0.0015)


def test_scores_freed_from_severity_are_closer_to_the_truth_than_raw_ones():
    """The same candidates by a panel of one strictness: that is the truth here."""
    uneven = season(200, {"ada": -1.2, "bo": 1.2, "cy": 0.0})
    truth = gather(BASIC, season(200, {"ada": 0.0, "bo": 0.0, "cy": 0.0})).totals
    rows = season_picture(BASIC, gather(BASIC, uneven))["strictness"]["candidates"]
    raw, even = (np.array([row[key] for row in rows]) for key in ("raw", "even"))
    assert np.corrcoef(even, truth)[0, 1] > np.corrcoef(raw, truth)[0, 1]
    assert np.sqrt(np.mean((even - truth) ** 2)) < np.sqrt(np.mean((raw - truth) ** 2))


def test_with_six_candidates_nearly_everything_is_withheld_with_its_reason(small):
    held = [*(small["agreement"][key] for key in ("same", "near", "alpha"))]
    held += [small["spread"]["as_it_is"][key] for key in ("phi", "g", "error")]
    held += [one["severity"] for one in small["strictness"]["examiners"]]
    held += small["strictness"]["consistency"].values()
    held.append(small["strictness"]["map"])
    assert all(one.estimate is None and one.withheld for one in held)
    assert all(row["even"] is None for row in small["strictness"]["candidates"])
    assert small["band"] is None


def test_with_two_hundred_candidates_everything_is_shown_with_its_interval(large):
    shown = [*(large["agreement"][key] for key in ("same", "near", "alpha"))]
    shown += [large["spread"]["as_it_is"][key] for key in ("phi", "g", "error")]
    shown += [one["severity"] for one in large["strictness"]["examiners"]]
    shown += large["strictness"]["consistency"].values()
    assert all(one.low <= one.estimate <= one.high for one in shown)
    assert len(large["spread"]["plans"]) == 48
    assert large["band"] > large["spread"]["as_it_is"]["error"].estimate


def test_examiners_whom_nothing_links_are_not_compared():
    one = season(20, {"ada": 0.0, "bo": 0.0})
    other = [
        replace(
            exam, id=f"{exam.id}-b", first=frozenset({"cy", "dee"}),
            sheets=tuple(replace(s, examiner=name) for s, name in zip(exam.sheets, ("cy", "dee"), strict=True)),
        )
        for exam in season(20, {"ada": 0.0, "bo": 0.0}, seed=8)
    ]  # fmt: skip
    found = season_picture(BASIC, gather(BASIC, [*one, *other]))["strictness"]
    assert found["withheld"].code == "not-connected"
    assert sorted(map(sorted, found["islands"])) == [["ada", "bo"], ["cy", "dee"]]


def test_two_examiners_alone_hold_back_what_rests_on_the_panel():
    found = season_picture(BASIC, gather(BASIC, season(40, {"ada": 0.0, "bo": 0.5})))
    assert found["spread"]["withheld"].values["thing"] == "examiners"


@pytest.mark.parametrize("candidates", [0, 1, 2])
def test_hardly_any_exam_is_no_error(candidates):
    found = season_picture(BASIC, gather(BASIC, season(candidates)))
    assert found["agreement"]["alpha"].estimate is None


def test_the_same_sheets_give_the_same_picture():
    assert repr(season_picture(BASIC, gather(BASIC, season(20)))) == repr(
        season_picture(BASIC, gather(BASIC, season(20)))
    )


def test_the_regression_on_grades_is_the_published_formula_by_least_squares():
    """Wood et al. (2006): each block's least-squares line (numpy's polyfit) read at borderline, added up by weight."""
    found = gather(BASIC, season(80))
    cut = season_picture(BASIC, found)["pass_marks"]["regression"]
    weights = block_weights(BASIC)
    wanted = 0.0
    for at, block in enumerate(found.blocks):
        marks = found.marks[found.mark[:, 2] == at].reshape(-1, 2).mean(axis=1)
        grades = found.grade[found.grade[:, 2] == at, 3].reshape(-1, 2).mean(axis=1)
        slope, start = np.polyfit(grades, marks, 1)
        wanted += weights[block] / 100 * (start + slope * BASIC.grades.index("borderline"))
    assert cut.estimate == pytest.approx(wanted)
    assert cut.low < cut.estimate < cut.high


def test_pass_marks_are_withheld_with_six_exams_and_flagged_with_twenty(small):
    assert small["pass_marks"]["regression"].withheld.values["found"] == "6"
    assert small["pass_marks"]["group"].withheld.values["thing"] == "borderline candidates"
    few = season_picture(BASIC, gather(BASIC, season(20)))["pass_marks"]["regression"]
    assert "few" in {flag.code for flag in few.flags}


def test_a_practical_without_a_borderline_grade_says_so():
    other = replace(BASIC, grades=("fail", "pass", "very good", "outstanding", "rare"))
    found = season_picture(other, gather(other, season(20)))["pass_marks"]["regression"]
    assert found.withheld.code == "no-borderline"


def test_exams_clearly_above_borderline_are_held_against_those_clearly_below(large):
    """Livingston & Zieky (1982): what is borderline belongs to neither group; the cut lies between their means."""
    found = gather(BASIC, season(200, drift={"dee": 0.8}))
    place = BASIC.grades.index("borderline")
    means = np.array([found.grade[found.grade[:, 0] == exam, 3].mean() for exam in range(len(found.exams))])
    weights = block_weights(BASIC)
    totals = sum(
        weights[block] / 100 * found.marks[found.mark[:, 2] == at].reshape(-1, 2).mean(axis=1)
        for at, block in enumerate(found.blocks)
    )
    below, above = totals[means <= place - 0.5], totals[means >= place + 0.5]
    cut = large["pass_marks"]["contrast"]
    assert cut.n == len(below) + len(above) < len(totals)
    assert below.mean() < cut.estimate < above.mean()
    assert large["pass_marks"]["totals"].tolist() == pytest.approx(sorted(totals))


def test_a_planted_leaning_on_one_criterion_is_found_and_none_where_none_is_planted(large):
    """In marks of that criterion alone: by the model's own expectation with and without the planted 1.5 logits."""
    planted = season_picture(BASIC, gather(BASIC, season(120, leanings={("bo", "F"): 1.5})))["strictness"]["leanings"]
    assert [(one["examiner"], one["kind"], one["id"]) for one in planted] == [("bo", "criterion", "F")]
    assert planted[0]["marks"].low < planted[0]["marks"].estimate < planted[0]["marks"].high < 0
    assert large["strictness"]["leanings"] == []
