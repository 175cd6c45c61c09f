"""Files as a stranger brings them: what is refused, at which place, and what is answered all the same.

Figures by hand, or from numpy beside the check.
"""

import numpy as np
import pytest

from app.cli import run

CUT = ["cut-score", "scores.csv", "--method"]
GRADES = "score,grade\n" + "".join(f"{10 + 5 * (row % 4) + row % 3},{row % 4}\n" for row in range(40))
SCORES = "score\n" + "".join(f"{20 + row % 21}\n" for row in range(60))
HOFSTEE = "judge,kmin,kmax,fmin,fmax\n"
BEUK = "judge,min_pass_mark,expected_pass_rate\n"


def _status(words):
    """Of an option that can't be read the parser itself makes an end."""
    try:
        return run(words)
    except SystemExit as stopped:
        return stopped.code


@pytest.fixture
def refused(file, tmp_path, monkeypatch, capsys):
    """What a command says when it refuses."""
    monkeypatch.chdir(tmp_path)

    def refuse(words, **files):
        for name, text in files.items():
            file(text, f"{name}.csv")
        assert _status(["measure", *words]) == 2
        return capsys.readouterr().err

    return refuse


@pytest.mark.parametrize(
    ("words", "files", "said"),
    [
        ([*CUT, "angoff", "--wide"], {"scores": "judge,a,b\nJ,-0.1,0.5\nK,0.1,0.5\n"}, "can't be below nothing: -0.1"),
        ([*CUT, "borderline-group", "--borderline", "x"], {"scores": GRADES}, "nobody has the grade x; the grades are"),
        ([*CUT, "borderline-group", "--borderline", "2", "--max", "20"], {"scores": GRADES}, "is not between 0 and 20"),
        ([*CUT, "borderline-group", "--borderline", "2", "--max", "0"], {"scores": GRADES}, "'0' is not above 0"),
        (
            [*CUT, "hofstee", "--judges", "judges.csv"],
            {"scores": SCORES, "judges": "judge,kmin\nJ,20\n"},
            "judges.csv:1: kmax or highest_cut: no column is named so; the judges' file has judge, kmin",
        ),
        (
            [*CUT, "hofstee", "--judges", "judges.csv", "--max", "50"],
            {"scores": SCORES, "judges": HOFSTEE + "J,20,30,5,300\n"},
            "judges.csv:2: fmax: 300 is no share in per cent",
        ),
        (
            [*CUT, "hofstee", "--judges", "judges.csv", "--max", "50"],
            {"scores": SCORES, "judges": HOFSTEE + "J,20,60,5,30\n"},
            "judges.csv:2: kmax: 60 is not between 0 and 50",
        ),
        (
            [*CUT, "beuk", "--judges", "judges.csv"],
            {"scores": SCORES, "judges": BEUK + "J,28,0.7\n"},
            "judges.csv:2: expected_pass_rate: 0.7 is no share in per cent",
        ),
        (
            ["consistency", "scores.csv", "--method", "rudner", "--cut", "0"],
            {"scores": "estimate,se\n0.1,0.3\n0.2,0\n"},
            "scores.csv:3: se: 0 is not above 0",
        ),
        (
            ["reliability", "scores.csv"],
            {"scores": "candidate\np1\np2\n"},
            "scores.csv:1: candidate: is the only column",
        ),
        (
            ["variance", "scores.csv", "--wide"],
            {"scores": "id,a\n1,2\n2,3\n"},
            "scores.csv:1: id: needs two columns or more",
        ),
        (["rasch", "scores.csv", "--draws", "-1"], {"scores": SCORES}, "'-1' is not a whole number, 0 or more"),
        (
            ["rasch", "scores.csv", "--wide"],
            {"scores": "id,a,b\np,1,0\nq,0,1\np,1,1\n"},
            "scores.csv:4: id: this row gives again what an earlier row gave",
        ),
        (
            ["rasch", "scores.csv", "--wide", "--groups", "centre"],
            {"scores": "id,centre,a,b\np,x,1,0\nq,,0,1\nr,x,1,1\n"},
            "scores.csv:3: centre: is empty",
        ),
        (
            ["rasch", "scores.csv", "--wide"],
            {"scores": "id,a,b\np,1,1\nq,0,0\nr,1,1\n"},
            "too few candidates lie between bottom and top",
        ),
        (
            ["rasch", "scores.csv", "--facets", "item"],
            {"scores": "candidate,item,score\n" + "".join(f"{row // 3},{row % 3},{row / 7}\n" for row in range(150))},
            "takes 150 different ratings; a scale of steps has 101 at most",
        ),
        (
            ["detection", "scores.csv"],
            {"scores": "observer,hits,signal_trials\nA,1,2\n"},
            "say which with --false-alarms",
        ),
        (
            ["variance", "scores.csv", "--fixed", "examiner"],
            {"scores": "candidate,examiner,score\n1,a,2\n1,b,3\n2,a,1\n2,b,1\n"},
            "--fixed: holds every facet",
        ),
        (["variance", "scores.csv", "--cut", "x"], {"scores": GRADES}, "'x' is not a number"),
    ],
)
def test_what_can_not_be_is_refused_with_its_place(words, files, said, refused):
    assert said in refused(words, **files)


def test_a_wide_table_has_its_rows_named_by_the_first_column_in_every_word(file, measured):
    chance = np.random.default_rng(2)
    marks = chance.integers(0, 3, (30, 1)) + chance.integers(0, 3, (30, 4))
    text = "who,a,b,c,d\n" + "".join(f"{2000 + row}," + ",".join(map(str, own)) + "\n" for row, own in enumerate(marks))
    assert measured("variance", file(text), "--wide")["levels"] == {"who": 30, "item": 4}
    assert [row["id"] for row in measured("rasch", file(text), "--wide", "--draws", "0")["facets"]["item"]] == [*"abcd"]
    alpha = 4 / 3 * (1 - marks.var(axis=0, ddof=1).sum() / marks.sum(axis=1).var(ddof=1))
    assert measured("reliability", file(text))["alpha"]["estimate"] == pytest.approx(alpha)


def test_what_the_data_do_not_define_says_why(file, measured):
    same = file("candidate,examiner,score\n" + "".join(f"{row},{who},5\n" for row in range(25) for who in "abcd"))
    assert "do not differ" in measured("variance", same)["phi"]["withheld"]
    assert measured("reliability", file("id,a\n1,2\n2,3\n"))["alpha"]["withheld"] == "needs two parts or more"
    few = file("score\n" + "".join(f"{19 + row % 3}\n" for row in range(60)))
    found = measured("consistency", few, "--cut", "20", "--max", "40")
    assert "KR-21 comes to -14.1" in found["agreement"]["withheld"]
    one = file("score\n" + "0\n1\n" * 30)
    assert "not defined for one task" in measured("consistency", one, "--cut", "1", "--max", "1")["kappa"]["withheld"]
    same = file("score\n" + "20\n" * 60)
    assert "do not differ" in measured("consistency", same, "--cut", "20", "--max", "40")["kappa"]["withheld"]


def test_the_line_at_a_grade_nobody_got_is_flagged(file, measured):
    found = measured(*CUT[:1], file(GRADES), "--method", "borderline-regression", "--borderline", "5")
    score, grade = np.loadtxt(GRADES.splitlines()[1:], delimiter=",").T
    slope, start = np.polyfit(grade, score, 1)
    assert found["cut"]["estimate"] == pytest.approx(start + 5 * slope)
    assert any("beyond the grades given" in flag for flag in found["cut"]["flags"])


def test_ratings_given_twice_are_counted_and_flagged(file, measured):
    chance = np.random.default_rng(5)
    rows = [
        f"c{who},{judge},{task},{min(3, who % 3 + chance.integers(2))}\n"
        for who in range(24)
        for judge in "ab"
        for task in "xy"
    ]
    head = "candidate,examiner,exercise,score\n"
    for word in (["variance", "--facets", "examiner,exercise"], ["rasch", "--draws", "0"]):
        once, twice = (measured(word[0], file(head + "".join(text)), *word[1:]) for text in (rows, [*rows, rows[0]]))
        assert (twice["n"], once["n"]) == (97, 96)
        assert [any("share" in flag and "every facet" in flag for flag in one["flags"]) for one in (once, twice)] == [
            False,
            True,
        ]


def test_trials_may_be_written_as_decimals(file, measured):
    text = "observer,signal,response\n" + "".join(f"A,{row % 2}.0,{row // 2 % 2}.0\n" for row in range(40))
    assert measured("detection", file(text))["observers"][0]["hits"] == 10


def test_roles_are_found_in_capitals_too_and_exact_letters_come_first(file, measured):
    rows = [
        f"c{c},E{(c + j) % 3},K{k},{(c + j + k + c // 3) % 3}\n" for c in range(30) for j in range(2) for k in range(2)
    ]
    text = file("Candidate,Examiner,Criterion,Rating\n" + "".join(rows))
    assert list(measured("rasch", text, "--draws", "0")["facets"]) == ["Examiner", "Criterion"]
    both = file(
        "Unit,unit,examiner,score\n" + "".join(f"x,u{row},{who},{row % 3}\n" for row in range(12) for who in "AB")
    )
    assert measured("agreement", both)["units"] == 12


def test_the_column_of_candidates_is_neither_unit_nor_examiner(file, measured):
    rows = "".join(f"c{row // 3},u{row},{row % 4},{(row + row // 5) % 4}\n" for row in range(60))
    found = measured("agreement", file("candidate,lesson,A,B\n" + rows), "--wide", "--candidate", "candidate")
    assert found["examiners"] == ["A", "B"]


def test_a_comma_at_the_end_of_every_line_makes_no_examiner(file, measured):
    text = "lesson,A,B,\n" + "".join(f"u{row},{row % 3},{row % 2},\n" for row in range(20))
    assert measured("agreement", file(text), "--wide")["examiners"] == ["A", "B"]


def test_examiners_who_share_no_unit_are_said_to(file, measured):
    rows = "".join(f"u{row},{who},{row % 3}\n" for row in range(30) for who in ("AB" if row % 2 else "CD"))
    pairs = measured("agreement", file("unit,examiner,score\n" + rows))["pairs"]
    held = {tuple(pair["examiners"]): pair["kappa"]["withheld"] for pair in pairs}
    assert (held["A", "B"], held["A", "C"]) == (None, "no unit is rated by both")
