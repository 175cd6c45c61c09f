"""Each examiner scores alone: whatever one taps, keeps or sends, nothing the other can open changes, until both have sent.

That neither sees the other's sheet before both are in is common practice.
"""

import json
import re

from app.permissions import ACTS, ANYONE, EXAMINER, LINK_HOLDER
from app.use_cases.demo import SCHOOL
from tests.app.pages.conftest import Town
from tests.app.pages.test_every_door import OWN, address, routes
from tests.app.pages.test_sheet_records import RECORDS, every_record, record, send
from tests.app.pages.test_sheets import PATH, both, examiner, whole  # noqa: F401 - fixtures

MARK = "only-the-first-saw-this"


def seen(town: Town, client) -> dict[str, tuple[int, str, str]]:  # noqa: ANN001
    """Everything that an examiner can open: status, where it leads, and text."""
    found = {}
    for method, path, act in routes(town):
        if method == "GET" and (act in (ANYONE, LINK_HOLDER) or EXAMINER in ACTS[act]):
            place = address(path, OWN)
            answer = client.get(place)
            # A form's own new id is another each time.
            text = re.sub(r"\b[0-9a-f]{8}(-?[0-9a-f]{4}){3}-?[0-9a-f]{12}\b", "new", answer.text)
            found[place] = (answer.status_code, answer.headers.get("location", ""), text)
    return found


def test_nothing_the_second_can_open_changes_by_what_the_first_does(town: Town, both) -> None:  # noqa: ANN001, F811
    first, second = both
    before = seen(town, second)
    assert {PATH, RECORDS, f"{PATH}/room", "/sheets", "/my-scoring"} <= before.keys()
    send(first, record(900, "note", text=MARK), *every_record(town)[:40])
    send(first, *every_record(town)[40:])
    tapped = seen(town, second)
    held = " ".join(one["id"] for one in every_record(town))
    assert first.fill(f"{PATH}/send", records=held).status_code == 204
    sent = seen(town, second)
    for after in (tapped, sent):
        assert [place for place in before if before[place] != after[place] and not place.startswith("/proof")] == []
        assert [place for place, (*_, text) in after.items() if MARK in text] == []
    # That it would have been found: once both have sent, it is there to read.
    assert second.fill(**whole(town)).status_code == 303
    assert MARK in second.get(PATH).text


def test_the_answer_to_what_is_sent_is_the_same_whatever_the_other_did(town: Town, both) -> None:  # noqa: ANN001, F811
    first, second = both
    asked = json.dumps([record(1), record(2, block="opening", criterion="A", choice="9")])
    alone = second.fill(RECORDS, items=asked).json()
    send(first, *every_record(town)[:40])
    again = second.fill(RECORDS, items=asked).json()
    assert [one["status"] for one in alone["items"]] == [201, 422]
    assert again["items"][1] == alone["items"][1]
    with town.store.reading(SCHOOL.id) as work:
        assert [one.id for one in work.sheet_records.of("exam", "examiner-2")] == [record(1)["id"]]
