"""A plan is put together without script, looked through, proposed, taken back, rehearsed, and taken away as a file.

Footwork's 228 s moving (three positions of 10 × (3 out + 3 in), tendon stretch in three rhythms) is common practice.
"""

import re

import pytest
import yaml

from tests.app.pages.conftest import OTHER, Town

ROW = ["reformer-footwork", "reformer-hundred"]


@pytest.fixture
def trainee(town: Town, form_token):  # noqa: ANN001, ANN201
    """The trainee's client; `client.fill(path, **fields)` posts a form."""
    client = town.as_role("trainee")
    token = form_token(client, "/plans")
    client.fill = lambda path, **typed: client.post(
        path, data={"form_token": token} | typed, headers={"accept": "text/html"}
    )
    return client


@pytest.fixture
def plan(trainee) -> str:  # noqa: ANN001
    """The address of a plan with footwork and the hundred."""
    address = trainee.fill("/plans", title="First lesson", minutes="55", do="keep").headers["location"]
    for version, id in enumerate(ROW, start=1):
        fields = {"exercises": ROW[: version - 1], "add": id, "do": "add", "version": str(version), "minutes": "55"}
        assert trainee.fill(address, **fields).status_code == 303
    return address


def row_of(page: str) -> list[str]:
    return re.findall(r'name="exercises" value="([\w-]+)"', page)


def test_exercises_are_put_in_a_row_and_their_time_is_shown(trainee, plan: str) -> None:  # noqa: ANN001
    page = trainee.get(plan).text
    assert row_of(page) == ROW
    assert "3 min 48 s" in page
    assert "In the order of the edition" in page


@pytest.mark.parametrize(
    ("do", "row"), [("up-1", ROW[::-1]), ("down-0", ROW[::-1]), ("up-0", ROW), ("down-1", ROW), ("out-0", ROW[1:])]
)
def test_buttons_move_exercises(trainee, plan: str, do: str, row: list[str]) -> None:  # noqa: ANN001
    trainee.fill(plan, exercises=ROW, do=do, version="3")
    assert row_of(trainee.get(plan).text) == row


def test_the_last_change_is_taken_back_and_brought_again(trainee, plan: str) -> None:  # noqa: ANN001
    trainee.fill(plan, exercises=ROW, do="out-0", version="3", minutes="55")
    trainee.fill(plan, do="back", version="4")
    assert row_of(trainee.get(plan).text) == ROW
    trainee.fill(plan, do="back", version="5")
    assert row_of(trainee.get(plan).text) == ROW[1:]


def test_out_of_order_and_too_long_are_said(trainee, plan: str) -> None:  # noqa: ANN001
    trainee.fill(plan, exercises=ROW[::-1], do="keep", version="3", minutes="3", level="basic")
    page = trainee.get(plan).text
    assert "out of order" in page
    assert "1 of 2" in page
    assert "To look at" in page


def test_the_best_plan_is_proposed_for_the_time_and_level(trainee) -> None:  # noqa: ANN001
    answer = trainee.fill("/plans", minutes="20", level="basic", do="propose")
    page = trainee.get(answer.headers["location"]).text
    assert len(row_of(page)) > 3
    clock = re.search(r"By the clock</dt><dd>(\d+):(\d\d)", page)
    assert int(clock.group(1)) * 60 + int(clock.group(2)) <= 1200


def test_a_proposal_needs_time_and_level_and_keeps_what_was_typed(trainee) -> None:  # noqa: ANN001
    answer = trainee.fill("/plans", title="Mine", minutes="ninety", factor="99", do="propose")
    assert answer.status_code == 422
    assert 'value="ninety"' in answer.text
    assert "a whole number from 1 to 600" in answer.text
    assert "a number from 1 to 10" in answer.text


def test_a_stale_tab_changes_nothing(trainee, plan: str) -> None:  # noqa: ANN001
    assert trainee.fill(plan, exercises=ROW, do="out-0", version="1").status_code == 409
    assert row_of(trainee.get(plan).text) == ROW


def test_a_plan_is_its_makers_alone(town: Town, trainee, plan: str) -> None:  # noqa: ANN001
    for client in (town.as_role("director"), town.as_role("trainee", OTHER)):
        assert client.get(plan, headers={"accept": "text/html"}).status_code == 404


def test_a_rehearsal_holds_the_beat_and_the_way_on(trainee, plan: str) -> None:  # noqa: ANN001
    page = trainee.get(f"{plan}/rehearsal").text
    assert re.search("On to (The h|H)undred", page)
    assert "data-bouts=" in page
    assert "stop" in page.lower()


def test_the_file_taken_away_is_what_the_command_line_reads(trainee, plan: str) -> None:  # noqa: ANN001
    taken = trainee.get(f"{plan}/plan.yaml")
    assert yaml.safe_load(taken.text) == {"minutes": 55, "exercises": ROW}


def test_what_the_edition_lacks_is_refused_or_left_out(trainee, plan: str) -> None:  # noqa: ANN001
    assert trainee.fill(plan, exercises=ROW, add="no-such", do="add", version="3").status_code == 422
    trainee.fill(plan, exercises=[*ROW, "no-such", "<b>"], do="keep", version="3", minutes="55")
    assert row_of(trainee.get(plan).text) == ROW


def test_a_plan_is_thrown_away(trainee, plan: str) -> None:  # noqa: ANN001
    assert trainee.fill(plan, do="remove", version="3").headers["location"] == "/plans"
    assert trainee.get(plan, headers={"accept": "text/html"}).status_code == 404


def test_a_proposal_stays_on_the_apparatus_that_are_ticked(trainee) -> None:  # noqa: ANN001
    answer = trainee.fill("/plans", minutes="20", level="basic", apparatus="mat", do="propose")
    page = trainee.get(answer.headers["location"]).text
    assert {id.partition("-")[0] for id in row_of(page)} == {"mat"}
    assert 'name="apparatus" value="mat" checked' in page
