"""Judges' rounds in pages: answered alone, shown when over, talked over, answered again, decided with a reason."""

import pytest
import yaml

from app.use_cases.demo import PASSWORD, SCHOOL
from tests.app.pages.conftest import Town

BLOCKS = ("reformer-opening", "reformer-series", "mat", "trapeze-table", "chair-and-barrel")
PANEL = {"id": "panel", "practical": "practical-basic", "judges": ["examiner-1", "examiner-2"]}
HTML = {"accept": "text/html"}


@pytest.fixture
def panel(town: Town, form_token):  # noqa: ANN001, ANN201
    """The director's client and the two judges', each with `fill(path, **typed)` to send a form."""
    people = {"director": town.as_role("director"), "one": town.as_role("examiner"), "two": town.visitor()}
    typed = {"email": "examiner2@halden-row.example", "password": PASSWORD}
    assert people["two"].post(f"/sign-in/{SCHOOL.slug}", data=typed).status_code == 303
    pages = {"director": "/judging/new", "one": "/sheets", "two": "/sheets"}
    for name, client in people.items():
        token = form_token(client, pages[name])
        client.fill = lambda path, client=client, token=token, **typed: client.post(
            path, data={"form_token": token} | typed, headers=HTML
        )
    return people


def marks(value: float, **more: str) -> dict[str, str]:
    return {f"mark.{block}": f"{value}" for block in BLOCKS} | {"round": "1"} | more


def test_a_panel_is_opened_once_and_by_two_judges_at_least(panel, town: Town) -> None:  # noqa: ANN001
    few = panel["director"].fill("/judging/new", **PANEL | {"judges": ["examiner-1"]})
    assert few.status_code == 422
    assert "choose at least 2 judges" in few.text
    for _ in range(2):
        assert panel["director"].fill("/judging/new", **PANEL).headers["location"] == "/judging/panel"
    with town.store.reading(SCHOOL.id) as work:
        assert len(work.judgings.all()) == 1
    assert 'href="/judging/panel"' in panel["one"].get("/sheets").text


def test_answers_stay_the_judges_own_until_the_round_is_over(panel) -> None:  # noqa: ANN001
    panel["director"].fill("/judging/new", **PANEL)
    wrong = panel["one"].fill("/judging/panel/answers", **marks(62.5) | {"mark.mat": "many", "bound.lowest": "50"})
    assert wrong.status_code == 422
    assert 'value="many"' in wrong.text
    assert 'href="#f-mark.mat"' in wrong.text
    assert 'href="#f-bound.most"' in wrong.text
    sent = marks(62.5, **{"mark.mat": "71,5"})
    for _ in range(2):
        assert panel["one"].fill("/judging/panel/answers", **sent).status_code == 303
    assert panel["one"].fill("/judging/panel/answers", **marks(90)).status_code == 409
    for name in ("director", "two"):
        page = panel[name].get("/judging/panel").text
        assert "What the first round came to" not in page
        assert "62.5" not in page
    panel["two"].fill("/judging/panel/answers", **marks(80))
    page = panel["two"].get("/judging/panel").text
    assert "Another judge" in page
    assert "62.5" in page
    assert "Piet" not in page
    assert "Piet" in panel["director"].get("/judging/panel").text


def test_who_is_not_on_the_panel_does_not_find_it(panel) -> None:  # noqa: ANN001
    panel["director"].fill("/judging/new", **PANEL | {"judges": ["examiner-1", "examiner-3"]})
    assert panel["director"].get("/judging/panel").status_code == 404, "an unknown judge is refused"
    panel["director"].fill("/judging/new", **PANEL)
    assert panel["two"].get("/judging/panel").status_code == 200
    assert panel["two"].fill("/judging/panel/close").status_code == 404
    assert panel["director"].fill("/judging/panel/answers", **marks(70)).status_code == 404


def test_the_decision_begins_a_draft_of_the_practical_with_the_mark_and_its_reason(panel, town: Town) -> None:  # noqa: ANN001
    director = panel["director"]
    director.fill("/judging/new", **PANEL)
    assert director.fill("/judging/panel/close").status_code == 422, "nobody has answered"
    for name, value in (("one", 60), ("two", 80)):
        panel[name].fill("/judging/panel/answers", **marks(value))
    assert director.fill("/judging/panel/second", talk=" ").status_code == 422
    director.fill("/judging/panel/second", talk="Whether they may stop to think.")
    assert "Whether they may stop to think." in panel["one"].get("/judging/panel").text
    panel["one"].fill("/judging/panel/answers", **marks(66) | {"round": "2"})
    assert director.fill("/judging/panel/decision", at="70", reason="So be it.").status_code == 409
    director.fill("/judging/panel/close")
    assert director.fill("/judging/panel/decision", at="170", reason="").status_code == 422
    to = director.fill("/judging/panel/decision", at="68,5", reason="The panel’s mark, moved by nobody.").headers[
        "location"
    ]
    with town.store.reading(SCHOOL.id) as work:
        (text,) = work.editions.draft(to.removeprefix("/drafts/")).documents.values()
        assert "decided" in work.judgings.steps("panel")
    cut = yaml.safe_load(text)["cut"]
    assert (cut["at"], cut["method"], str(cut["set_on"])) == (68.5, "angoff", "2026-11-25")
    assert cut["how"].endswith("The panel’s mark, moved by nobody.")
    assert director.get(to).status_code == 200
    assert director.fill("/judging/panel/decision", at="70", reason="Again.").status_code == 409
