"""Everything held about a person, and nothing of anybody else; every table is accounted for."""

import json

from sqlmodel import SQLModel

from app.storage.held import HELD, NOT_HANDED_OUT
from app.wording.held import GROUPS
from tests.app.pages.conftest import Town


def test_every_table_is_theirs_or_says_why_not() -> None:
    """A new table fails here until somebody has decided."""
    assert {*HELD, *NOT_HANDED_OUT} == set(SQLModel.metadata.tables)
    assert not {*HELD} & {*NOT_HANDED_OUT}
    assert sorted(name for _, names in GROUPS for name in names) == sorted({*HELD, "event", "outgoing_mail"})


def test_it_holds_ones_own_and_nobody_elses(town: Town) -> None:
    trainee = town.as_role("trainee")
    found = trainee.get("/my-file/everything.json")
    held = json.loads(found.text)["held"]
    assert [one["name"] for one in held["person"]] == ["Ida Marlowe"]
    assert {one["enrolment_id"] for one in held["session_version"]} == {"enrolment-1"}
    assert len(held["session_now"]) > 10
    for foreign in ("password_hash", "token_hash", "trainee-2", "enrolment-2", "Tomas Verrin"):
        assert foreign not in found.text
    assert "Your sessions in every version" in trainee.get("/my-file").text
    examiner = json.loads(town.as_role("examiner").get("/my-file/everything.json").text)["held"]
    assert "enrolment" not in examiner
    assert [one["id"] for one in examiner["person"]] == ["examiner-1"]
