"""A register credits whoever was there from when they came; days that are missed stand against completing the module."""

from app.queries.proof import audit
from tests.app.pages.conftest import Town

ROOM = {
    "id": "the-room", "module": "safety-workshop", "activity": "workshop", "day": "2026-11-24", "start": "06:00",
    "end": "08:00", "mark-enrolment-1": "late", "late-enrolment-1": "20", "mark-enrolment-2": "missing",
}  # fmt: skip


def test_a_room_is_registered_once_and_a_missed_day_is_made_up_before_the_module_is_completed(
    town: Town, form_token
) -> None:  # noqa: ANN001
    director = town.as_role("director")
    token = {"form_token": form_token(director, "/registers")}
    with town.store.reading("halden-row") as work:
        before = {key: work.ledger.of_enrolment(key) for key in ("enrolment-1", "enrolment-2")}
    refused = director.post("/registers", data=ROOM | token | {"module": "", "late-enrolment-1": "200"})
    assert refused.status_code == 422
    assert "choose the module" in refused.text
    assert "less than the room lasted" in refused.text
    assert [director.post("/registers", data=ROOM | token).status_code for _ in range(2)] == [303, 303]
    with town.store.reading("halden-row") as work:
        (new,) = [one for one in work.ledger.of_enrolment("enrolment-1") if one not in before["enrolment-1"]]
        assert work.ledger.of_enrolment("enrolment-2") == before["enrolment-2"]
        assert audit(work).faults == ()
    assert (new.start, new.minutes, new.state, new.parts[0].more["late"]) == (380, 100, "registered", "yes")
    assert "Came late: Ida Marlowe (20 min)" in director.get("/registers").text
    module = {"module": "safety-workshop", "done": "2026-11-24"}
    record = "/trainees/enrolment-2/record"
    answer = director.post(f"{record}/modules", data=module | {"form_token": form_token(director, record)})
    assert answer.status_code == 422
    assert "days missed and not made up yet: 1" in answer.text
    made_up = {"id": "another", "start": "09:00", "end": "10:00", "mark-enrolment-1": "", "late-enrolment-1": ""}
    assert (
        director.post("/registers", data=ROOM | token | made_up | {"mark-enrolment-2": "makes_up"}).status_code == 303
    )
    assert director.post(f"{record}/modules", data=module | token).status_code == 303
