import numpy as np
import pytest
from scipy import stats

from app.cli import run


@pytest.fixture
def said(capsys):
    """What the command prints; its complaint where it refuses."""

    def say(*words, status=0):
        assert run(["measure", "cut-score", *words]) == status
        out, err = capsys.readouterr()
        return err if status else out

    return say


@pytest.fixture(scope="module")
def exam():
    """Forty invented candidates: their grades and marks in two exercises."""
    own = np.random.default_rng(8)
    grades = own.integers(1, 6, (40, 2)).astype(float)
    return grades, np.round(4 + 5 * grades + own.normal(0, 3, (40, 1)) + own.normal(0, 2, (40, 2)), 1)


def rows(exam):
    grades, marks = exam
    lines = ["candidate,exercise,global_grade,score"]
    for person in range(len(marks)):
        for at, name in enumerate(("hundred", "roll-up")):
            lines.append(f"c{person},{name},{grades[person, at]:.0f},{marks[person, at]}")
    return lines


REGRESSION = ("--method", "borderline-regression", "--borderline", "2")


def test_an_exams_cut_adds_each_exercises_line_at_borderline(exam, file, measured):
    # Each line by scipy's linregress; the sum as the OSCE literature makes it (Wood et al. 2006).
    found = measured("cut-score", file("\n".join(rows(exam))), *REGRESSION, "--exercise", "exercise")
    lines = [stats.linregress(*columns) for columns in zip(*(part.T for part in exam), strict=True)]
    cuts = [line.intercept + 2 * line.slope for line in lines]
    assert [one["cut"]["estimate"] for one in found["exercises"]] == pytest.approx(cuts)
    assert found["cut"]["estimate"] == pytest.approx(sum(cuts))
    # The same candidates' habits enter both exercises: more than if the errors were independent.
    assert found["se"] > np.hypot(*(one["se"] for one in found["exercises"]))


def test_a_candidate_who_missed_an_exercise_is_left_out_and_counted(exam, file, measured, said):
    words = (file("\n".join(rows(exam)[:-1])), *REGRESSION, "--exercise", "exercise")
    found = measured("cut-score", *words)
    assert (found["candidates"], found["left_out"]) == (39, 1)
    assert "left out because a mark or a grade is missing: 1" in said(*words)


def test_a_candidate_twice_in_one_exercise_is_refused_with_the_line(exam, file, said):
    lines = rows(exam)
    refused = said(file("\n".join([*lines, lines[1]])), *REGRESSION, "--exercise", "exercise", status=2)
    assert "scores.csv:82: candidate: " in refused


def test_unequal_costs_move_the_mark_to_where_they_balance(file, measured):
    # A wrong pass three times as bad: the chance of being competent at the mark is 3 / (3 + 1)
    # (least expected cost, Duda & Hart 1973, ch. 2: act where cost times chance balance).
    text = "score,able\n" + "".join(f"{unit},{int(unit + (unit % 4) * 3 > 20)}\n" for unit in range(40))
    words = ("cut-score", file(text), "--method", "contrasting-groups", "--groups", "able")
    equal, strict = measured(*words), measured(*words, "--false-pass-cost", "3")
    assert strict["share"] == 0.75
    chance = 1 / (1 + np.exp(-(strict["intercept"] + strict["slope"] * strict["cut"]["estimate"])))
    assert chance == pytest.approx(0.75)
    assert strict["cut"]["estimate"] > equal["cut"]["estimate"]


def test_a_cost_is_more_than_nothing(file, capsys):
    words = ["measure", "cut-score", file("score,able\n1,0\n"), "--method", "contrasting-groups"]
    with pytest.raises(SystemExit, match="2"):
        run([*words, "--false-fail-cost", "0"])
    assert "--false-fail-cost" in capsys.readouterr().err
