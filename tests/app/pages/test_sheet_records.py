"""Records of a score sheet as a device sends them: each taken once, form and device on one sheet, and nobody else's to see.

Held against RFC 9110 (9.2.2: what is sent again changes nothing more) and RFC 9457 (a problem says status and places).
"""

import json
import re
from pathlib import Path

import pytest

from app.files.practicals import practical_from_file
from app.files.sheets import read_sheet, write_sheet
from app.queries.exam_facts import practical_of
from app.use_cases.demo import SCHOOL
from assessments.practicals.sheets import Mark, Noticed, Sheet
from tests.app.pages.conftest import NOW, Town
from tests.app.pages.test_sheets import PATH, both, examiner, sheets, whole  # noqa: F401 - fixtures

RECORDS = f"{PATH}/records"
DEVICE = "00000000-0000-4000-8000-00000000d001"


def record(number: int, kind: str = "mark", **value: str) -> dict[str, str]:
    """A record of the device; a mark of the first criterion unless something else is asked for."""
    value = value or {"block": "opening", "criterion": "A", "choice": "4"}
    own = {"id": f"00000000-0000-4000-8000-{number:012}", "device": DEVICE, "count": str(number), "at": "60"}
    return own | {"kind": kind} | value


def send(client, *records: object) -> list[dict]:  # noqa: ANN001
    answer = client.fill(RECORDS, items=json.dumps(records))
    assert answer.status_code == 200, answer.text
    return answer.json()["items"]


def statuses(client, *records: object) -> list[int]:  # noqa: ANN001
    return [one["status"] for one in send(client, *records)]


def draft(town: Town):  # noqa: ANN201
    with town.store.reading(SCHOOL.id) as work:
        return read_sheet(work.exams.draft("exam", "examiner-1"))


TAP = {
    "item": "i",
    "exercise": "reformer-hundred",
    "noticed": "prompted",
    "at_block": "opening",
    "instead": "",
    "gone": "",
}


def test_form_and_device_write_one_sheet_and_each_record_counts_once(town: Town, examiner) -> None:  # noqa: ANN001, F811
    client = examiner()
    assert statuses(client, record(1), record(2, "tap", **TAP), record(1)) == [201, 201, 200]
    assert statuses(client, record(1), record(2, "tap", **TAP)) == [200, 200]
    assert draft(town).mark("opening", "A") == Mark("opening", "A", 4)
    assert [(one.noticed, one.at) for one in draft(town).taps] == [(Noticed.PROMPTED, 60)]
    page = client.get(PATH).text
    assert re.search(r'name="marks.opening.A" value="4"[^>]* checked', page)
    form = {"marks.opening.A": "2", "noticed.reformer-hundred": "prompted", "note": "calm"}
    assert client.fill(act="keep", **form).status_code == 303
    held = client.get(RECORDS).json()["items"]
    assert [(one["id"], one["count"], one.get("choice")) for one in held if one["kind"] == "mark"] == [
        (record(1)["id"], "1", "4"), ("form-3", "3", "2"),
    ]  # fmt: skip
    undo = record(5, "undo", of="form-3")
    assert statuses(client, undo) == [201]
    assert (draft(town).mark("opening", "A").level, draft(town).note) == (4, "calm")


def test_a_draft_from_before_there_were_records_is_told_in_records(town: Town, examiner) -> None:  # noqa: ANN001, F811
    with town.store.writing(SCHOOL.id) as work:
        practical = practical_of(work, work.exams.by_id("exam"))
        older = Sheet("exam", "examiner-1", practical.id, practical.edition, note="long ago")
        work.exams.put_draft("exam", "examiner-1", write_sheet(older), NOW)
        work.commit()
    client = examiner()
    assert [one["text"] for one in client.get(RECORDS).json()["items"]] == ["long ago"]
    assert statuses(client, record(2)) == [201]
    assert (draft(town).note, draft(town).mark("opening", "A").level) == ("long ago", 4)


def test_what_can_not_be_taken_says_why_at_its_place_and_the_rest_is_taken(examiner) -> None:  # noqa: ANN001, F811
    bad = record(2, block="opening", criterion="A", choice="9")
    items = send(examiner(), record(1), bad, record(3) | {"id": "form-1"}, record(1) | {"choice": "2"})
    assert [one["status"] for one in items] == [201, 422, 422, 409]
    assert [[one["pointer"] for one in item.get("errors", [])] for item in items] == [
        [],
        ["#/1/choice"],
        ["#/2/id"],
        [],
    ]
    assert items[3]["detail"] == "The school has something else under the same number."


@pytest.mark.parametrize("items", ["{", '{"a": 1}', "[1]", json.dumps([{}] * 51)])
def test_what_is_no_list_is_refused_whole(examiner, items: str) -> None:  # noqa: ANN001, F811
    assert examiner().fill(RECORDS, items=items).status_code == 422


def test_after_sending_only_what_is_known_is_answered(town: Town, examiner) -> None:  # noqa: ANN001, F811
    client = examiner()
    send(client, record(1))
    assert client.fill(**whole(town)).status_code == 303
    items = send(client, record(1), record(2))
    assert [one["status"] for one in items] == [200, 409]
    assert items[1]["detail"] == "This sheet is sent and does not change; this came after it."
    assert client.get(RECORDS).json()["sent"] is True
    with town.store.reading(SCHOOL.id) as work:
        assert all(one.id != record(2)["id"] for one in work.sheet_records.of("exam", "examiner-1"))


def test_nobody_sees_or_touches_another_s_records_whatever_was_sent(town: Town, both) -> None:  # noqa: ANN001, F811
    one, other = both
    send(one, record(1))
    assert other.get(RECORDS).json() == {"items": [], "sent": False}
    # The same id is the other's own; the answer tells nothing of the first.
    assert statuses(other, record(1, block="opening", criterion="A", choice="2")) == [201]
    assert draft(town).mark("opening", "A").level == 4
    one.fill(**whole(town))
    assert [item["choice"] for item in other.get(RECORDS).json()["items"]] == ["2"]
    for role in ("director", "trainee"):
        assert town.as_role(role).get(RECORDS).status_code == 404
    assert other.get("/sheets/exam-passed/records").status_code == 404
    assert sheets(town) == [("examiner-1", 1)]


def every_record(town: Town) -> list[dict[str, str]]:
    """Every criterion at level 3, every block with a grade."""
    with town.store.reading(SCHOOL.id) as work:
        cells = practical_of(work, work.exams.by_id("exam")).cells()
    values = [("mark", {"block": one.block, "criterion": one.criterion, "choice": "3"}) for one in cells]
    values += [("grade", {"block": block, "grade": "2"}) for block in dict.fromkeys(one.block for one in cells)]
    return [record(number, kind, **value) for number, (kind, value) in enumerate(values, 1)]


def test_what_was_tapped_is_sent_whole_once_or_not_at_all(town: Town, both) -> None:  # noqa: ANN001, F811
    client, other = both
    tapped = every_record(town)
    held = " ".join(one["id"] for one in tapped)

    def sent(**more: str):  # noqa: ANN202
        answer = client.fill(f"{PATH}/send", records=held, **more)
        return answer.status_code, (answer.json()["reasons"] if answer.content else [])

    send(client, *tapped[:50])
    assert sent() == (422, [f"{len(tapped) - 50} of the taps on this device have not come to the school; "
                            "see what it says of them."])  # fmt: skip
    send(client, *tapped[50:])
    send(client, record(900, "stepped", item="s", why="", went_on="yes", gone=""))
    assert sent() == (422, ["needs what was seen"])
    send(client, record(901, "undo", of=record(900)["id"]))
    assert client.get(f"{PATH}/room").status_code == 200
    assert (sent(), sent()) == ((204, []), (204, []))
    assert sheets(town) == [("examiner-1", 1)]
    assert client.get(f"{PATH}/room").headers["location"] == PATH
    page = other.get(f"{PATH}/room").text
    assert 'data-held="[]"' in page, "nothing of the other's, sent or not"
    assert other.get(f"{PATH}/records").json() == {"items": [], "sent": False}


def test_a_device_that_comes_back_after_a_day_loses_nothing_and_undoes_nothing_newer(town: Town, examiner) -> None:  # noqa: ANN001, F811
    """Two devices of one examiner: the second was out of reception with the first mark, and comes last."""
    client, late = examiner(), {"device": "00000000-0000-4000-8000-00000000d002"}
    old = record(11) | late | {"count": "1"}
    tap = record(12, "tap", **TAP) | late | {"count": "2"}
    send(
        client,
        record(1, block="opening", criterion="A", choice="2"),
        record(2),
        record(3, "tap", **TAP | {"item": "j"}),
    )
    assert statuses(client, old | {"choice": "1"}, tap) == [201, 201]
    assert draft(town).mark("opening", "A").level == 4, "the first device knew of more when it was tapped"
    assert len(draft(town).taps) == 2
    assert len(client.get(RECORDS).json()["items"]) == 5


@pytest.mark.parametrize("name", ["basic", "final"])
def test_marking_a_block_leaves_most_taps_for_what_is_noticed(name: str) -> None:
    """At most six taps a minute (the sheet's own budget): one a criterion, one for the grade, one to turn to the block."""
    folder = Path(__file__).parents[3] / "seed_data" / "practicals"
    practical = practical_from_file(folder / f"{name}.yaml")
    for part in practical.parts:
        assert all(len(part.criteria) + 2 <= 2 * block.minutes for block in part.blocks), part.id
