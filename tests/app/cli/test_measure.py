import pytest

from app.cli import run

SIX_KEYS = {"estimate", "low", "high", "n", "withheld", "flags"}


def long_ratings(units=40, examiners="AB", score=lambda unit, place: unit % 3 + (place if unit % 7 == 0 else 0)):
    rows = (f"{unit},{who},{score(unit, place)}" for unit in range(units) for place, who in enumerate(examiners))
    return "unit,examiner,score\n" + "\n".join(rows) + "\n"


def wide_ratings(long):
    cells = {}
    for row in long.splitlines()[1:]:
        unit, _, score = row.split(",")
        cells.setdefault(unit, []).append(score)
    return "unit,A,B\n" + "\n".join(",".join([unit, *scores]) for unit, scores in cells.items()) + "\n"


def test_agreement_gives_every_key_of_the_table(file, measured):
    found = measured("agreement", file(long_ratings()))
    keys = (
        "percent adjacent kappa kappa_linear kappa_quadratic fleiss_kappa alpha_nominal alpha_ordinal alpha_interval "
        "ac1 ac2_linear ac2_quadratic icc_1_1 icc_a_1 icc_c_1 icc_1_k icc_a_k icc_c_k bias"
    )
    for key in keys.split():
        assert set(found[key]) == SIX_KEYS, key
        assert found[key]["estimate"] is not None, key
    assert set(found["limits"]) == {"low", "high"}
    assert found["kappa_se"] > 0
    assert found["seed"] == 1


def test_long_and_wide_files_give_the_same(file, measured):
    long = long_ratings()
    one, other = (
        measured("agreement", file(long)),
        measured("agreement", file(wide_ratings(long), "wide.csv"), "--wide"),
    )
    assert {k: v for k, v in one.items() if k != "file"} == {k: v for k, v in other.items() if k != "file"}


def test_any_file_works_as_it_is_when_its_roles_are_named(file, measured):
    path = file(long_ratings().replace("unit,examiner,score", "lesson,who,grade"))
    found = measured("agreement", path, "--unit", "lesson", "--examiner", "who", "--score", "grade")
    assert found["units"] == 40


def test_too_few_units_are_withheld_with_the_reason_unless_asked_for_anyway(file, measured):
    path = file(long_ratings(8))
    held, shown = measured("agreement", path), measured("agreement", path, "--anyway")
    assert held["kappa"]["estimate"] is None
    assert held["kappa_se"] is None
    assert held["kappa"]["withheld"] == "rests on 8 common units; at least 10 are needed"
    assert shown["kappa"]["estimate"] is not None
    assert shown["kappa"]["withheld"] is None
    assert "at least 10" in shown["kappa"]["flags"][0]


def test_three_examiners_get_a_table_of_pairs(file, measured):
    found = measured("agreement", file(long_ratings(examiners="ABC")))
    assert [pair["examiners"] for pair in found["pairs"]] == [["A", "B"], ["A", "C"], ["B", "C"]]
    assert found["kappa"]["withheld"] == "is for two examiners: see the pairs"
    assert found["fleiss_kappa"]["estimate"] is not None


def test_all_ratings_alike_are_undefined_even_anyway(file, measured):
    found = measured("agreement", file(long_ratings(score=lambda *_: 2)), "--anyway", "--categories", "0,1,2,3")
    for key in ("kappa", "fleiss_kappa", "alpha_ordinal", "icc_a_1"):
        assert found[key]["estimate"] is None, key
    assert found["ac1"]["estimate"] == 1


def test_the_same_seed_gives_the_same_interval_and_is_told(file, measured):
    path = file(long_ratings())
    one, again, other = (measured("agreement", path, "--seed", seed)["alpha_ordinal"] for seed in ("4", "4", "5"))
    assert one == again != other


def test_names_for_categories_need_an_order_for_weights(file, measured):
    path = file(long_ratings(score=lambda unit, place: "pass" if (unit + place) % 5 else "fail"))
    assert measured("agreement", path)["kappa_quadratic"]["withheld"].startswith("needs categories in order")
    assert measured("agreement", path, "--categories", "fail,pass")["kappa_quadratic"]["estimate"] is not None


@pytest.mark.parametrize(
    ("text", "words", "fault"),
    [
        ("unit,examiner,score\n1,A,2\n1,A,3\n", "agreement", ":3: unit: this row gives again what an earlier row gave"),
        ("unit,examiner,score\n1,A,9\n", "agreement --categories 0,1", ":2: score: 9 is not one of 0, 1"),
        ("unit,examiner,score\n1,,2\n", "agreement", ":2: examiner: is empty; a value is needed here"),
        ("a,b\n1,2\n", "agreement", ":1: unit: no column is named so; say which with --unit; the file has a, b"),
        ("unit,examiner\n1\n", "agreement", ":2: has 1 cells; the header has 2"),
        ("", "agreement", ":1: is empty; the first line must name the columns"),
        ("score\nx\n", "consistency --cut 1 --max 2", ":2: score: x is not a number"),
        ("score\n3\n1\n", "consistency --cut 1 --max 2", ":2: score: 3 is not between 0 and 2"),
        ("score\n1\n", "consistency --cut 1 --max 2", ":2: score: needs two candidates at least"),
        (
            "hits,signal_trials,false_alarms,noise_trials\n5,4,1,9\n",
            "detection",
            ":2: hits: must lie between 0 and the signal_trials",
        ),
        ("signal,response\n1,perhaps\n", "detection", ":2: response: must be 1 or 0 (or yes or no)"),
    ],
)
def test_bad_input_is_refused_with_file_line_and_column(text, words, fault, file, capsys):
    path = file(text)
    what, *options = words.split()
    assert run(["measure", what, path, *options]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err == f"{path}{fault}\n"


def test_a_file_that_is_not_there_is_refused(capsys):
    assert run(["measure", "agreement", "nowhere.csv"]) == 2
    assert capsys.readouterr().err == "nowhere.csv: can't be read: No such file or directory\n"


def test_reliability_takes_wide_and_long_files(file, measured):
    marks = [[unit % 7 + place, unit % 5, unit % 7] for place in (0,) for unit in range(40)]
    wide = "candidate,x,y,z\n" + "".join(f"{i},{','.join(map(str, row))}\n" for i, row in enumerate(marks))
    long = "candidate,item,score\n" + "".join(
        f"{i},{j},{m}\n" for i, row in enumerate(marks) for j, m in enumerate(row)
    )
    one, other = measured("reliability", file(wide), "--wide"), measured("reliability", file(long, "long.csv"))
    assert set(one["alpha"]) == set(one["sem"]) == SIX_KEYS
    assert one["alpha"] == other["alpha"]


def test_consistency_gives_its_five_shares(file, measured):
    path = file("score\n" + "".join(f"{(unit * 7) % 31}\n" for unit in range(90)))
    found = measured("consistency", path, "--cut", "15", "--max", "30", "--reliability", "0.8")
    shares = {key: found[key] for key in ("agreement", "kappa", "accuracy", "false_pass", "false_fail")}
    assert all(
        set(share) == SIX_KEYS and share["low"] <= share["estimate"] <= share["high"] for share in shares.values()
    )
    assert shares["accuracy"]["estimate"] + shares["false_pass"]["estimate"] + shares["false_fail"]["estimate"] == (
        pytest.approx(1)
    )


def test_consistency_takes_measures_with_their_own_errors(file, measured):
    path = file("candidate,estimate,se\n" + "".join(f"{n},{n / 20 - 1.5},0.4\n" for n in range(60)))
    found = measured("consistency", path, "--cut", "0", "--method", "rudner")
    assert 0.8 < found["agreement"]["estimate"] < found["accuracy"]["estimate"] < 1


def test_a_compromise_without_a_solution_gives_no_number_and_the_nearer_corner(file, measured):
    scores = file("score\n" + "".join(f"{mark}\n" * 10 for mark in range(11)))
    judges = file("judge,kmin,kmax,fmin,fmax\n" + "".join(f"{judge},6,7,5,10\n" for judge in range(6)), "judges.csv")
    found = measured("cut-score", scores, "--method", "hofstee", "--judges", judges, "--anyway")
    assert found["cut"]["estimate"] is None
    assert found["cut"]["withheld"].startswith("no solution")
    assert (found["fallback"], found["fail_percent"]) == (6, None)


def test_contrasting_groups_take_a_column_of_ones_and_zeros(file, measured):
    rows = "".join(f"{unit},{int(unit + (unit % 4) * 3 > 20)}\n" for unit in range(40))
    found = measured("cut-score", file("score,able\n" + rows), "--method", "contrasting-groups", "--groups", "able")
    assert found["cut"]["estimate"] == pytest.approx(16, abs=2)


def test_detection_takes_counts_or_a_row_a_trial(file, measured):
    counts = "observer,hits,signal_trials,false_alarms,noise_trials\nMs A,9,12,2,12\n"
    trials = [(1, int(n < 9)) for n in range(12)] + [(0, int(n < 2)) for n in range(12)]
    rows = "observer,signal,response\n" + "".join(f"Ms A,{signal},{response}\n" for signal, response in trials)
    one, other = measured("detection", file(counts)), measured("detection", file(rows, "trials.csv"))
    assert one["observers"] == other["observers"]
    assert one["observers"][0]["id"] == "Ms A"


def test_without_json_a_director_reads_sentences(file, capsys):
    path = file("observer,hits,signal_trials,false_alarms,noise_trials\nMs A,9,12,2,12\nMr B,2,3,0,3\n")
    assert run(["measure", "detection", path]) == 0
    second, first, _ = capsys.readouterr().out.splitlines()
    assert first == (
        "Ms A found 9 of the 12 faults and raised 2 false alarms in 12 sound clips. The eye for faults is 1.5 (0 is "
        "guessing, 3 is near perfect; likely 0.4 to 2.6). Tends neither to over- nor to under-report."
    )
    assert second.endswith("The eye for faults can't be shown: rests on 3 signal trials; at least 5 are needed.")


def test_agreement_in_sentences_names_the_examiners(file, capsys):
    assert run(["measure", "agreement", file(long_ratings())]) == 0
    out = capsys.readouterr().out
    assert out.startswith("Of 40 units rated by both, A and B gave the same rating to 34 (85 %)")
    assert "Allowing for luck" in out


def repeated_pairs():
    rows = ["unit,candidate,A,B"]
    for unit in range(24):
        who = unit // 3
        rows.append(f"{unit},{who},{20 + who + unit % 3},{20 + who + unit % 2 + (who % 4)}")
    return "\n".join(rows)


def test_pairs_of_one_candidate_widen_the_limits(file, measured):
    path = file(repeated_pairs())
    words = ("agreement", path, "--wide", "--unit", "unit")
    several = measured(*words, "--candidate", "candidate")
    assert several["examiners"] == ["A", "B"]
    assert several["variance_between_candidates"] > 0
    assert several["variance_within_candidates"] > 0
    assert several["limits"]["low"]["estimate"] is not None


def test_a_unit_of_two_candidates_is_refused(file, capsys):
    text = "unit,examiner,score,candidate\n1,A,2,x\n1,B,2,y\n2,A,1,x\n2,B,1,x\n"
    assert run(["measure", "agreement", file(text), "--candidate", "candidate"]) == 2
    assert ":3: candidate: gives a unit to a second candidate" in capsys.readouterr().err


FIRST_ROUND = "judge,a,b,c\nX,0.6,0.5,0.9\nY,0.4,0.3,0.6\nZ,0.7,0.7,0.8\nV,0.5,0.8,0.9\nW,0.3,0.4,0.5\n"
SECOND_ROUND = "judge,a,b,c\nW,0.5,0.5,0.6\nX,0.6,0.6,0.8\nY,0.5,0.5,0.7\nZ,0.6,0.7,0.7\nV,0.5,0.7,0.8\n"


def test_two_rounds_of_judges_are_matched_by_name(file, measured):
    words = ("cut-score", file(SECOND_ROUND), "--method", "angoff", "--wide", "--before")
    found = measured(*words, file(FIRST_ROUND, "before.csv"))["rounds"]
    assert found["change"]["estimate"] == pytest.approx(9.3 / 5 - 8.9 / 5)
    assert found["by_judge"]["W"] == pytest.approx(0.4)
    assert found["sd_after"] < found["sd_before"]


def test_judges_who_are_in_one_round_only_are_named(file, capsys):
    before = file(FIRST_ROUND.replace("V,", "U,"), "before.csv")
    words = ["cut-score", file(SECOND_ROUND), "--method", "angoff", "--wide", "--before", before]
    assert run(["measure", *words]) == 2
    said = capsys.readouterr().err
    assert "judge U is not in both rounds" in said
    assert "judge V is not in both rounds" in said


def test_numbers_that_name_the_rows_are_no_ratings(file, measured):
    """Counted from nought, or different whole numbers quite unlike the ratings."""
    for names in (range(12), [900 + 7 * row % 83 for row in range(12)]):
        rows = "".join(f"{name},{row % 3},{(row + row // 5) % 3}\n" for row, name in enumerate(names))
        assert measured("agreement", file("cand,A,B\n" + rows), "--wide")["examiners"] == ["A", "B"]
    rows = "".join(f"{90 - row},{row % 3}\n" for row in range(12))
    assert measured("agreement", file("A,B\n" + rows), "--wide")["examiners"] == ["A", "B"]


@pytest.mark.parametrize(
    ("text", "words", "fault"),
    [
        ("unit;A;B\n1;2;3\n", ["--wide"], "scores.csv:1: is parted by semicolons; commas are needed"),
        ("unit\n1\n", ["--wide"], "scores.csv:1: unit: is the only column"),
        ("unit,A,B\n1,2,3\n2,absent,1\n", ["--wide"], "scores.csv:3: A: absent is not a number, as others are"),
        ("unit,A,B\n1,2,nan\n2,1,1\n", ["--wide"], "scores.csv:2: B: nan is not a number, as others are"),
        ("unit,examiner,score\n1,A,2\n1,B,x\n", [], "scores.csv:3: score: x is not a number, as others are"),
        ("x,1,2\n1,100000000000,5\n2,3,12\n", ["--square"], "counts more than 20,000,000 ratings"),
    ],
)
def test_slips_of_the_pen_are_told_from_categories(text, words, fault, file, capsys):
    assert run(["measure", "agreement", file(text), *words]) == 2
    assert fault in capsys.readouterr().err


def test_words_among_numbers_are_categories_when_the_scale_says_so(file, measured):
    text = "unit,A,B\n" + "".join(f"u{row},{'x12'[row % 3]},{'x12'[row % 2]}\n" for row in range(12))
    assert measured("agreement", file(text), "--wide", "--categories", "x,1,2")["categories"] == ["x", "1", "2"]


def test_with_one_rating_a_unit_the_reason_is_that_there_is_no_pair(file, measured):
    found = measured("agreement", file("unit,A\n" + "".join(f"u{row},{row % 3}\n" for row in range(12))), "--wide")
    for key in ("percent", "kappa", "alpha_interval", "icc_a_1"):
        assert found[key]["withheld"] == "needs units with two ratings or more, and there is none"


@pytest.mark.parametrize("words", [["--seed", "-1"], ["--seed", "x"]])
def test_a_seed_is_a_whole_number(words, file, capsys):
    with pytest.raises(SystemExit) as stopped:
        run(["measure", "agreement", file("unit,A,B\n1,2,3\n"), *words])
    assert stopped.value.code == 2
    assert "is not a whole number, 0 or more" in capsys.readouterr().err
