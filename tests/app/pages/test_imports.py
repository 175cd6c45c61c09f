"""A director takes hours from a file: columns, preview, every fault with its row, all or nothing, and back again."""

import html
import re

import pytest

from tests.app.pages.conftest import Town

PAGE = "/trainees/enrolment-1/import"
GOOD = b"When,Hours,What,Host,Note\n2026-09-01,1.5,Observed a teacher,,x\n02/09/2026,1:30,assisting,,y\n"


@pytest.fixture
def director(town: Town):  # noqa: ANN201
    return town.as_role("director")


def send(director, form_token, content: bytes):  # noqa: ANN001, ANN201
    data = {"form_token": form_token(director, PAGE)}
    return director.post(PAGE, data=data, files={"file": ("paper log.csv", content)})


def hidden(page: str) -> dict[str, str]:
    """The fields of the second form as the page sends them."""
    found = dict(re.findall(r'type="hidden" name="(\w+)" value="([^"]*)"', page))
    return {name: html.unescape(value) for name, value in found.items()}


COLUMNS = {"column-day": "When", "column-hours": "Hours", "column-activity": "What", "order": "day"}
KEEP = COLUMNS | {"act": "keep", "evidence": "Paper log, pages 1 to 2"}


def states(town: Town, batch: str) -> list[str]:
    with town.store.reading("halden-row") as work:
        return [one.state for one in work.ledger.of_enrolment("enrolment-1") if one.id.startswith(batch)]


def test_hours_are_read_looked_at_kept_once_and_taken_back(town: Town, director, form_token) -> None:  # noqa: ANN001
    first = send(director, form_token, GOOD)
    assert "choose the column" in first.text
    carried = hidden(first.text)
    looked = director.post(f"{PAGE}/rows", data=carried | COLUMNS | {"act": "look"})
    assert looked.text.count("1 h 30 min") == 2
    assert director.post(f"{PAGE}/rows", data=carried | KEEP | {"evidence": ""}).status_code == 422
    assert states(town, carried["batch"]) == []
    for _ in range(2):
        assert director.post(f"{PAGE}/rows", data=carried | KEEP).status_code == 303
    assert states(town, carried["batch"]) == ["accepted", "accepted"]
    assert "paper log.csv" in director.get(PAGE).text
    with town.store.reading("halden-row") as work:
        assert b"paper log" not in b"".join(event.body for event in work.record.events()), "erasable, so never in it"
    again = director.post(f"{PAGE}/rows", data=carried | KEEP | {"batch": "another"})
    assert (again.status_code, "was it taken before?" in again.text) == (422, True)
    undo = f"{PAGE}/{carried['batch']}/undo"
    assert director.post(undo, data=carried).status_code == 422, "a reason is needed"
    assert director.post(undo, data=carried | {"undo-reason": "The wrong trainee"}).status_code == 303
    assert states(town, carried["batch"]) == ["withdrawn", "withdrawn"]
    assert director.post(undo, data=carried | {"undo-reason": "Again"}).status_code == 409
    assert "It holds" in director.post("/proof", data={"receipt": root_line(director)}).text


def root_line(director) -> str:  # noqa: ANN001
    return re.search(r"halden-row \d+ [0-9a-f]{64}", director.get("/proof").text).group(0)


def test_every_fault_is_said_with_its_row_and_nothing_is_kept(town: Town, director, form_token) -> None:  # noqa: ANN001
    bad = b"When,Hours,What\n2026-09-31,1,assisting\n2026-09-01,soon,assisting\n2026-09-01,1,juggling\n"
    carried = hidden(send(director, form_token, bad).text)
    answer = director.post(f"{PAGE}/rows", data=carried | KEEP)
    text = html.unescape(answer.text)
    assert answer.status_code == 422
    for words in ("Row 2, Day: “2026-09-31”", "Row 3, Length, in hours: “soon”", "Row 4, What was done: “juggling”"):
        assert words in text
    future = b"When,Hours,What,From,To\n2027-01-01,1,assisting,,\n2026-09-01,,assisting,09:00,10:00\n2026-09-01,,assisting,09:30,10:30\n"
    carried = hidden(send(director, form_token, future).text)
    answer = director.post(f"{PAGE}/rows", data=carried | KEEP | {"column-start": "From", "column-end": "To"})
    assert "Row 2, Day: the day is in the future" in answer.text
    assert "Row 4, From: it overlaps a session" in answer.text
    assert "Paper log, pages 1 to 2" in answer.text
    assert states(town, carried["batch"]) == []


@pytest.mark.parametrize("content", [b"", b"PK\x03\x04", "Å,Ø\n1,2".encode("latin-1")])
def test_a_file_that_can_not_be_read_says_why(director, form_token, content: bytes) -> None:  # noqa: ANN001
    answer = send(director, form_token, content)
    assert answer.status_code == 422
    assert "the file is" in answer.text or "the workbook" in answer.text


def test_what_travels_in_the_form_can_be_damaged_without_harm(director, form_token) -> None:  # noqa: ANN001
    carried = hidden(send(director, form_token, GOOD).text)
    for table in ("", "[]", "[[1],[[1,[1,2]]]]", "[" * 90_000, '[["a"],[["x",["1"]]]]'):
        assert director.post(f"{PAGE}/rows", data=carried | KEEP | {"table": table}).status_code == 422
