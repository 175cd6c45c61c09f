import pytest

from app.cli import run
from tests.assessments.measurement.published_designs import LSAT6, PERSONS_ITEMS, PERSONS_RATERS_IN_TASKS


def long(names, scores, *columns):
    rows = [",".join((*names, "score"))]
    for person, row in enumerate(scores, start=1):
        rows += [
            ",".join(map(str, (person, *labels, f"{score:g}")))
            for labels, score in zip(zip(*columns, strict=True), row, strict=True)
        ]
    return "\n".join(rows)


ITEMS = long(("candidate", "examiner"), PERSONS_ITEMS, range(1, 13))
TASKS = long(("candidate", "task", "examiner"), PERSONS_RATERS_IN_TASKS, [1] * 4 + [2] * 4 + [3] * 4, [1, 2, 3, 4] * 3)


def islands():
    rows = ["candidate,examiner,criterion,rating"]
    for person in range(8):
        for place in range(4):
            rows.append(f"{person},{'AABB'[place] if person < 4 else 'CCDD'[place]},{place % 2},{(person + place) % 3}")
    return "\n".join(rows)


def lsat6():
    words = LSAT6.split()
    rows = [
        ",".join(pattern) for pattern, count in zip(words[::2], words[1::2], strict=True) for _ in range(int(count))
    ]
    return "\n".join(["a,b,c,d,e", *rows])


def test_variance_is_withheld_below_twenty_candidates(file, measured):
    found = measured("variance", file(ITEMS))
    assert set(found["components"]) == {"candidate", "examiner", "candidate x examiner"}
    assert set(found["components"].values()) == {None}
    assert "20" in found["phi"]["withheld"]


def test_variance_answers_anyway_with_the_printed_figures(file, measured):
    """Brennan RL (2001) Generalizability Theory, table 2.2."""
    found = measured("variance", file(ITEMS), "--anyway", "--plan", "examiner=20", "--cut", "0.7")
    assert found["components"]["candidate"] == pytest.approx(0.0574, abs=6e-5)
    assert found["phi"]["estimate"] == pytest.approx(0.773, abs=6e-4)
    assert found["phi"]["low"] < found["phi"]["estimate"] < found["phi"]["high"]
    assert found["plans"][0]["plan"] == {"examiner": 20}
    assert found["plans"][0]["g_coefficient"]["estimate"] == pytest.approx(0.901, abs=6e-4)
    assert found["phi_cut"]["estimate"] > found["phi"]["estimate"]


def test_a_nested_facet_is_named_within_its_own(file, measured):
    """Brennan (2001), table 3.2."""
    words = ["--facets", "task,examiner", "--nested", "examiner=task", "--anyway", "--method", "reml"]
    found = measured("variance", file(TASKS), *words)
    assert found["components"]["examiner(task)"] == pytest.approx(0.6475, abs=6e-5)
    assert found["components"]["candidate x examiner(task)"] == pytest.approx(2.3802, abs=6e-5)


def test_unequal_loads_count_as_fewer_examiners(file, measured):
    found = measured("variance", file(ITEMS), "--anyway", "--plan", "examiner=4/2", "--plan", "examiner=1.8")
    first, second = found["plans"]
    assert first["phi"]["estimate"] == pytest.approx(second["phi"]["estimate"])


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (["--facets", "nobody"], "no such column"),
        (["--plan", "examiner=none"], "examiner=2"),
        (["--nested", "examiner"], "examiner=task"),
        (["--fixed", "task"], "not one of the facets"),
    ],
)
def test_a_wrong_option_of_variance_is_named(file, capsys, words, message):
    assert run(["measure", "variance", file(ITEMS), *words]) == 2
    assert message in capsys.readouterr().err


def test_variance_in_words_says_what_a_mark_is_worth(file, capsys):
    assert run(["measure", "variance", file(ITEMS), "--anyway"]) == 0
    out = capsys.readouterr().out
    assert "22 % reflects real differences" in out
    assert "dependability 0.77" in out


def test_rasch_reads_a_wide_table_and_gives_the_printed_log_likelihood(file, measured):
    """Rizopoulos (2006) J Stat Softw 17(5): -2466.938 and a slope of 0.755."""
    found = measured("rasch", file(lsat6()), "--wide", "--draws", "0")
    assert found["log_likelihood"] == pytest.approx(-2466.938, abs=6e-4)
    assert found["sigma"] == pytest.approx(0.755, abs=6e-4)
    assert found["candidates"][0]["estimate"] is None
    assert "8 are needed" in found["candidates"][0]["withheld"]


def test_joint_estimates_have_the_corrected_ones_beside_them(file, measured):
    found = measured("rasch", file(lsat6()), "--wide", "--draws", "0", "--estimator", "joint")
    for row in found["facets"]["item"]:
        assert row["corrected"] == pytest.approx(0.8 * row["estimate"])


def test_islands_are_named_and_nothing_is_compared(file, measured, capsys):
    found = measured("rasch", file(islands()))
    assert found["connected"] is False
    assert found["extra_dimensions"] == 1
    assert found["islands"]["examiner"] == [["A", "B"], ["C", "D"]]
    assert found["candidates"] is None
    assert run(["measure", "rasch", file(islands())]) == 0
    assert "examiner: A, B; C, D" in capsys.readouterr().out


def test_a_candidate_in_two_groups_is_refused_with_its_line(file, capsys):
    text = "candidate,examiner,rating,centre\n1,A,0,x\n1,B,1,y\n2,A,1,x\n2,B,0,x\n"
    assert run(["measure", "rasch", file(text), "--groups", "centre"]) == 2
    assert "second group" in capsys.readouterr().err


def test_a_rating_that_is_no_number_is_refused_with_its_line(file, capsys):
    assert run(["measure", "rasch", file("candidate,examiner,rating\n1,A,good\n")]) == 2
    assert "scores.csv:2: rating" in capsys.readouterr().err


def test_few_ratings_bring_a_weak_prior_and_say_so(file, measured):
    rows = [
        f"{person},{'ABC'[(person + turn) % 3]},{(person * 7 + turn * 3) % 4}" for person in range(9) for turn in (0, 1)
    ]
    found = measured("rasch", file("\n".join(["candidate,examiner,rating", *rows])), "--anyway")
    assert any("prior" in flag for flag in found["flags"])
    assert all(abs(row["estimate"]) < 3 for row in found["facets"]["examiner"])


def test_an_examiner_who_gave_top_ratings_alone_has_no_conditional_estimate(file, capsys):
    text = "candidate,examiner,rating\n1,A,1\n1,B,0\n2,A,1\n2,B,1\n3,A,1\n3,B,0\n"
    assert run(["measure", "rasch", file(text), "--estimator", "conditional"]) == 2
    assert "do not determine" in capsys.readouterr().err


def few_ratings():
    """Forty candidates before A and B, the last three before C as well; ratings 0 to 3."""
    rows = ["candidate,examiner,criterion,rating"]
    for person in range(40):
        for place, who in enumerate("ABC" if person > 36 else "AB"):
            rows += [f"{person},{who},{part},{(person + part + place * (person % 2)) % 4}" for part in range(4)]
    return "\n".join(rows)


def test_an_examiner_of_few_ratings_is_said_to_be_held_by_the_prior(file, measured):
    found = measured("rasch", file(few_ratings()), "--facets", "examiner,criterion", "--draws", "0", "--anyway")
    held = {row["id"]: row["held_by_prior"] for row in found["facets"]["examiner"]}
    assert held == {"A": False, "B": False, "C": True}
    last = next(row for row in found["facets"]["examiner"] if row["id"] == "C")
    assert any("weak prior" in flag for flag in last["flags"])


def test_rasch_advises_one_set_of_steps_or_steps_for_each(file, measured):
    words = ("rasch", file(few_ratings()), "--facets", "examiner,criterion", "--draws", "0")
    one, other = measured(*words)["model_advice"], measured(*words, "--model", "partial-credit")["model_advice"]
    assert one["advised"] == other["advised"]
    assert one["bic_rating_scale"] == pytest.approx(other["bic_rating_scale"], abs=0.01)
    assert measured(*words, "--estimator", "joint")["model_advice"] is None
