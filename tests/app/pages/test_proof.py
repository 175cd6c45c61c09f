"""A host signs and keeps the receipt; anybody checks it; once a byte of the past is changed, it says so."""

import json
import re

import pytest
from sqlalchemy import text

from app.files.receipts import write_continuation
from app.queries.proof import audit, continuation
from tests.app.pages.conftest import NOW, Town
from tests.app.pages.test_hours import SESSION, link, log


@pytest.fixture
def signed(town: Town, form_token) -> tuple[str, str]:  # noqa: ANN001
    """The host's page, and the page shown after signing."""
    log(town.as_role("trainee"), form_token)
    address, host = link(town), town.visitor()
    data = {"form_token": form_token(host, address), "session": f"{SESSION['id']}:1"}
    return address, host.post(address, data=data).text


def checked(client, given: str, name: str = "receipt"):  # noqa: ANN001, ANN201
    if name == "file":
        return client.post("/proof", files={"file": ("receipt.json", given)})
    return client.post("/proof", data={"receipt": given})


def test_the_hosts_receipt_and_the_trainees_hold_until_a_byte_is_changed(town: Town, signed) -> None:  # noqa: ANN001
    address, page = signed
    host, trainee = town.visitor(), town.as_role("trainee")
    receipt = host.get(re.search(r'href="(/h/[^"]+\.json)"', page).group(1)).text
    own = trainee.get(f"/hours/sessions/{SESSION['id']}/receipt.json").text
    assert f"/hours/sessions/{SESSION['id']}/receipt.json" in trainee.get(f"/hours/sessions/{SESSION['id']}").text
    for given, name in ((receipt, "receipt"), (receipt, "file"), (own, "file")):
        answer = checked(town.visitor(), given, name).text
        assert "It holds" in answer
        assert "signed off" in answer
    number = json.loads(receipt)["entries"][0]["number"] - 1
    with town.store.engine.begin() as connection:
        if connection.dialect.name == "sqlite":
            connection.execute(text("drop trigger event_keeps_update"))
        else:
            connection.execute(text("alter table event disable trigger user"))
        values = {"number": number, "school": "halden-row"}
        connection.execute(text("update event set actor = 'x' where number = :number and school_id = :school"), values)
    answer = checked(town.visitor(), receipt)
    assert "It does not hold" in answer.text
    assert "no longer what they were then" in answer.text
    changed = receipt.replace('"size": ', '"size": 1')
    assert "changed after it was written" in checked(town.visitor(), changed).text


def test_a_director_reads_the_root_and_its_line_holds(town: Town) -> None:
    director = town.as_role("director")
    root = re.search(r"halden-row \d+ [0-9a-f]{64}", director.get("/proof").text).group(0)
    assert "It holds" in checked(town.visitor(), f"The root:\n{root}\nKeep it").text
    size = int(root.split()[1])
    page = checked(town.visitor(), root).text
    proof = town.visitor().get(re.search(r'href="(/proof/[^"]+)"', page).group(1)).text
    assert "It holds" in checked(town.visitor(), proof).text
    with town.store.reading("halden-row") as work:
        kept = write_continuation(continuation(work, size - 3))
    assert "It holds" in checked(town.visitor(), kept).text
    assert (
        "changed after it was written" in checked(town.visitor(), kept.replace(f'"size": {size - 3}', '"size": 2')).text
    )
    for path in (f"/proof/halden-row/{size + 1}.json", "/proof/nowhere/1.json", "/proof/halden-row/x.json"):
        assert town.visitor().get(path).status_code == 404
    assert not re.search(r"[0-9a-f]{64}", town.visitor().get("/proof").text)
    assert "No school here" in checked(town.visitor(), root.replace("halden-row", "nowhere")).text


@pytest.mark.parametrize("given", ["", "<b>", "{", "é\x00" * 9])
def test_what_is_no_receipt_is_said_and_stays_as_typed(town: Town, given: str) -> None:
    answer = checked(town.visitor(), given)
    assert answer.status_code == 422
    assert "neither a receipt nor a root" in answer.text


def test_only_the_host_who_signed_has_the_receipt(town: Town, signed) -> None:  # noqa: ANN001
    address, page = signed
    number = re.search(r"receipts/(\w+)\.json", page).group(1)
    assert town.visitor().get(f"/h/halden-row.guess/receipts/{number}.json").status_code == 410
    assert town.visitor().get(f"{address}/receipts/none.json").status_code == 404
    assert town.as_role("trainee").get("/hours/sessions/enrolment-2-s1/receipt.json").status_code == 404


def test_a_director_erases_a_trainees_words_and_the_receipt_still_holds(town: Town, form_token, signed) -> None:  # noqa: ANN001
    director, trainee = town.as_role("director"), town.as_role("trainee")
    with town.store.writing("halden-row") as work:
        hash = work.record.keep_words("said", "trainee-1", "My shoulder hurt.", b"salt")
        work.record.append("session-noted", SESSION["id"], "trainee-1", NOW, {"words": hash})
        work.commit()
    receipt = trainee.get(f"/hours/sessions/{SESSION['id']}/receipt.json").text
    page = "/trainees/enrolment-1/record"
    data = {"form_token": form_token(director, page)}
    answer = director.post(f"{page}/words", data=data)
    assert (answer.status_code, answer.headers["location"]) == (303, page)
    assert "Own words erased on request" in director.get(page).text
    with town.store.reading("halden-row") as work:
        assert work.record.words("said") is None
        assert audit(work).faults == ()
    assert "It holds" in checked(town.visitor(), receipt).text
    assert director.post("/trainees/nobody/record/words", data=data).status_code == 404
