import json

from app.cli import run


def test_a_study_answers_in_json_with_its_seed(capsys):
    assert run(["simulate", "--study", "cut-scores", "--runs", "5", "--seed", "3", "--json"]) == 0
    out, err = capsys.readouterr()
    answer = json.loads(out)
    assert answer["seed"] == 3
    (study,) = answer["studies"]
    assert (study["study"], study["runs"]) == ("cut-scores", 5)
    first = study["findings"][0]
    assert first["expected"] == [0.93, 0.97]
    assert 0 <= first["value"] <= 1
    assert first["observations"] == 5
    assert err.splitlines()[-1] == "cut-scores: 5 of 5 runs"


def test_the_same_seed_gives_the_same_answer(capsys):
    words = ["simulate", "--study", "consistency", "--runs", "4", "--json"]
    answers = []
    for seed in ("1", "1", "2"):
        assert run([*words, "--seed", seed]) == 0
        answers.append(json.loads(capsys.readouterr().out)["studies"])
    assert answers[0] == answers[1] != answers[2]


def test_the_end_names_what_falls_short(capsys):
    assert run(["simulate", "--study", "consistency", "--runs", "200"]) == 0
    out = capsys.readouterr().out
    assert "normal approximation (Peng & Subkoviak): error of consistency on average" in out
    assert "fall short of what is expected:" in out.splitlines()[-2]


def test_tables_are_given_in_markdown(capsys):
    assert run(["simulate", "--study", "links", "--runs", "3", "--markdown"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].startswith("### ")
    assert lines[3] == "|---|---|---|---|---|"


def test_everything_wrong_with_a_request_is_said_at_once(capsys):
    assert run(["simulate", "--study", "tides", "--runs", "1", "--seed", "-1"]) == 2
    said = capsys.readouterr().err
    assert "no study is called tides" in said
    assert "must be 2 at least" in said
    assert "can't be below 0" in said
