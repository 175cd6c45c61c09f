"""What an edition marks for the school to confirm is walked in a draft, exercise by exercise; comments stay."""

import pytest

from app.files.confirming import Unconfirmed, unconfirmed, with_confirmed
from app.use_cases.demo import SCHOOL
from tests.app.pages.conftest import Town


@pytest.fixture
def director(town: Town, form_token):  # noqa: ANN001, ANN201
    client = town.as_role("director")
    token = form_token(client, "/editions/repertoire-2026-1")
    client.fill = lambda path, **typed: client.post(
        path, data={"form_token": token} | typed, headers={"accept": "text/html"}
    )
    client.draft = client.fill("/editions/repertoire-2026-1/drafts").headers["location"]
    return client


def left(town: Town, address: str) -> tuple[Unconfirmed, ...]:
    with town.store.reading(SCHOOL.id) as work:
        return unconfirmed(work.editions.draft(address.removeprefix("/drafts/")).documents)


def test_a_confirmed_field_leaves_the_list_and_the_walk_goes_on(town: Town, director) -> None:  # noqa: ANN001
    before = left(town, director.draft)
    first, second = before[:2]
    page = director.get(f"{director.draft}/unconfirmed").text
    assert f"To confirm: 1 of {len(before)}" in page
    typed = {"version": "1", "exercise": first.exercise, "following": second.exercise}
    refused = director.fill(f"{director.draft}/unconfirmed", **typed)
    assert refused.status_code == 422
    gone = director.fill(f"{director.draft}/unconfirmed", **typed, fields=list(first.fields))
    assert gone.headers["location"].endswith(f"?exercise={second.exercise}")
    assert [one.exercise for one in left(town, director.draft)] == [one.exercise for one in before[1:]]
    assert "confirm" in director.get(director.draft).text


def test_one_of_several_fields_may_be_confirmed_alone(town: Town, director) -> None:  # noqa: ANN001
    one = next(found for found in left(town, director.draft) if len(found.fields) > 1)
    typed = {"version": "1", "exercise": one.exercise, "fields": one.fields[0]}
    assert director.fill(f"{director.draft}/unconfirmed", **typed).status_code == 303
    now = next(found for found in left(town, director.draft) if found.exercise == one.exercise)
    assert now.fields == one.fields[1:]


def test_a_stale_tab_confirms_nothing(town: Town, director) -> None:  # noqa: ANN001
    one = left(town, director.draft)[0]
    typed = {"version": "7", "exercise": one.exercise, "fields": list(one.fields)}
    assert director.fill(f"{director.draft}/unconfirmed", **typed).status_code == 409


@pytest.mark.parametrize(
    ("line", "fields", "kept"),
    [
        ("    confirm: [springs, body]  # ask Berit", {"springs"}, "    confirm: [body]  # ask Berit"),
        ("  - confirm: [springs]", {"springs"}, None),
    ],
)
def test_comments_and_everything_else_stay(line: str, fields: set[str], kept: str | None) -> None:
    names = tuple(line.split("[")[1].split("]")[0].split(", "))
    one = Unconfirmed("x.yaml", 2, "x", names)
    wanted = "\n".join(["# before", *([kept] if kept else []), "after: 1"])
    assert with_confirmed(f"# before\n{line}\nafter: 1", one, frozenset(fields)) == wanted


def test_a_list_over_several_lines_is_left_to_its_writer() -> None:
    with pytest.raises(ValueError, match="confirm"):
        with_confirmed("confirm:\n- springs", Unconfirmed("x.yaml", 1, "x", ("springs",)), frozenset({"springs"}))
