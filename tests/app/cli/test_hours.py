"""The command `throughline hours`."""

import json

from app.cli import run

SET = """title: Observing
fields: {mode: [live, recorded]}
categories:
  - id: observation
    accepts: {activity: observation}
    at_least: 100 h
    limits:
      - {id: recorded, accepts: {mode: recorded}, at_most: 25 %}
"""
HEADING = "trainee,id,date,minutes,activity,state,mode\n"
LOG = (
    HEADING
    + "ada,1,2026-01-05,3600,observation,signed_off,live\nada,2,2026-01-06,2400,observation,signed_off,recorded\n"
)


def asked(folder, *words: str, requirements: str = SET, log: str = LOG) -> int:
    (folder / "set.yaml").write_text(requirements)
    (folder / "log.csv").write_text(log)
    files = [
        "--requirements",
        str(folder / "set.yaml"),
        "--log",
        str(folder / "log.csv"),
    ]
    return run(["hours", "assess", *files, "--as-of", "2026-11-25", *words])


def test_one_json_line_for_each_trainee_and_nothing_else(tmp_path, capfd):
    # 60 live + 40 recorded of 100 h with 25 % recorded: 85 credited, 15 short (common practice).
    assert asked(tmp_path, "--json") == 0
    (line,) = capfd.readouterr().out.splitlines()
    found = json.loads(line)
    assert (found["further_minutes"], found["credited_minutes"]) == (900, 5100)
    assert found["set_aside"][0]["reason"] == "share_cap"


def test_every_fault_of_a_log_has_its_line_and_column(tmp_path, capfd):
    log = HEADING + "ada,1,2026-02-30,x,observation,signed,\nada,1,2026-01-06,60,observation,signed_off,live\n"
    assert asked(tmp_path, "--json", log=log) == 2
    shown = capfd.readouterr()
    assert shown.out == ""
    assert [line.split(": ")[0].rsplit(":", 1)[1] for line in shown.err.splitlines()] == ["2", "2", "2", "2", "3"]


def test_a_bare_number_is_no_duration(tmp_path, capfd):
    assert asked(tmp_path, requirements=SET.replace("100 h", "100")) == 2
    assert "set.yaml:6: categories[0].at_least: “100” is a bare number" in capfd.readouterr().err


def test_a_table_for_people_says_what_is_left(tmp_path, capfd):
    assert asked(tmp_path) == 0
    assert "at least 15 h still to do" in capfd.readouterr().out


def test_a_set_nobody_could_meet_is_refused_on_its_line_with_the_rules_that_clash(tmp_path, capfd):
    text = SET + "    of_which:\n      - {id: filmed, accepts: {mode: recorded}, at_least: 30 h}\n"
    assert asked(tmp_path, "--json", requirements=text) == 2
    assert run(["hours", "check", str(tmp_path / "set.yaml")]) == 2
    shown = capfd.readouterr()
    assert shown.out == ""
    assert "set.yaml:10: filmed: nobody could meet these rules together: filmed, recorded" in shown.err


def test_a_set_that_can_be_met_is_checked_alone(tmp_path, capfd):
    (tmp_path / "set.yaml").write_text(SET)
    assert run(["hours", "check", str(tmp_path / "set.yaml")]) == 0
    assert capfd.readouterr().err == ""


def test_facts_faults_stop_the_answer(tmp_path, capfd):
    (tmp_path / "facts.yaml").write_text("ada: {leave: [{from: 2026-02-30}]}\n")
    assert asked(tmp_path, "--json", "--facts", str(tmp_path / "facts.yaml")) == 2
    assert capfd.readouterr().out == ""


def test_a_missing_column_does_not_hide_the_faults_of_the_rows(tmp_path, capfd):
    log = "trainee,id,date,minutes,activity,state\nada,1,2026-13-01,x,observation,signed\n"
    (tmp_path / "set.yaml").write_text(SET)
    (tmp_path / "log.csv").write_text(log)
    words = ["--requirements", str(tmp_path / "set.yaml"), "--log", str(tmp_path / "log.csv"), "--as-of", "2026-11-25"]
    assert run(["hours", "assess", *words]) == 2
    shown = capfd.readouterr().err
    for place in ("log.csv:1: mode", "log.csv:2: date", "log.csv:2: minutes", "log.csv:2: state"):
        assert place in shown
