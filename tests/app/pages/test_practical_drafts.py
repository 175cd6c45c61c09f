"""A practical written in a form: nothing is lost on the way, faults stand at their field, and its sheet is seen."""

import re
from html import unescape
from pathlib import Path

import pytest

from app.files.practical_tree import text_of, tree_of
from app.files.practicals import practical_from_text
from app.use_cases.asker import Asker
from app.use_cases.demo import SCHOOL
from app.use_cases.editions import begin_draft
from app.web.practical_form import PracticalForm, changed, placed
from curriculum.faults import Fault
from tests.app.pages.conftest import NOW, Town

SEEDS = sorted((Path(__file__).parents[3] / "seed_data" / "practicals").glob("*.yaml"))


@pytest.mark.parametrize("path", SEEDS, ids=lambda path: path.stem)
def test_through_the_form_and_back_is_the_same_practical(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    again = text_of(changed(tree_of(text, "p"), {}), text)
    assert practical_from_text(again, "p") == practical_from_text(text, "p")
    assert again.startswith(text.split("\n")[0])
    assert "weight: 25\n" in again or "weight: 20\n" in again


def test_fields_are_put_taken_out_and_added_and_nothing_else_is_touched() -> None:
    tree = {
        "scale": {"lowest": "1", "highest": "4"},
        "criteria": [{"id": "A", "own": "kept"}, {"id": "B"}],
        "odd": "kept",
    }
    found = changed(tree, {
        "at:criteria/0/levels/1.5": ["  Half\n way. "], "at:scale/lowest": [""], "at:scale/highest": [""], "at:band/marks": ["3"],
        "at:criteria/0/strands": ["cue, adapt"], "at:criteria/9/id": ["Z"], "at:../x": ["no"], "at:odd/deep": [""],
        "take-out": ["criteria/1", "criteria/7", "x"], "add": ["criteria"], "at:band/standard_errors": [""],
    })  # fmt: skip
    assert found == {
        "criteria": [{"id": "A", "own": "kept", "levels": {"1.5": "Half way."}, "strands": ["cue", "adapt"]}, {}],
        "odd": "kept", "band": {"marks": "3"},
    }  # fmt: skip
    assert tree["scale"] == {"lowest": "1", "highest": "4"}


def test_levels_follow_the_scale_and_faults_find_their_field() -> None:
    form = PracticalForm({"scale": {"lowest": "-1", "highest": "1"}, "criteria": [{"levels": {"1": "a", "9": "b"}}]})
    assert form.levels(0) == ["-1", "0", "1", "9"]
    assert PracticalForm({"scale": {"lowest": "1", "highest": "9999"}, "criteria": [{}]}).levels(0) == []
    assert placed(Fault("x", "", field="criteria[2].levels.1.5")) == "at:criteria/2/levels/1.5"
    assert placed(Fault("x", "", field="parts[0].blocks[1].weight")) == "at:parts/0/blocks/1/weight"


def test_a_director_writes_sees_the_sheet_and_publishes(town: Town, form_token) -> None:  # noqa: ANN001
    director = town.as_role("director")
    draft = begin_draft(town.store, Asker(SCHOOL, "director", "director", NOW), "practical-basic")
    page = f"/drafts/{draft.id}/practical"
    fields = every_field(director.get(page).text)
    data = {**fields, "form_token": form_token(director, page), "version": "1", "at:edition": "2027.1"}
    data |= {"at:criteria/0/levels/1": 'Looks <away> & says "yes": no.', "at:criteria/0/weight": "24"}
    assert director.post(page, data=data).status_code == 303
    shown = director.get(page).text
    assert "weights sum to 99, not to 100" in shown
    assert director.get(f"{page}/preview").status_code == 303
    assert director.post(page, data=data).status_code == 409

    right = data | {"version": "2", "at:criteria/0/weight": "25"}
    assert director.post(page, data=right).status_code == 303
    sheet = director.get(f"{page}/preview").text
    assert "Looks &lt;away&gt; &amp; says &#34;yes&#34;: no." in sheet
    assert "Global grade: Trapeze table" in sheet
    published = {"form_token": data["form_token"], "version": "3"}
    assert director.post(f"/drafts/{draft.id}/publish", data=published).status_code == 303
    assert town.as_role("examiner").get(page).status_code == 404
    assert director.get("/drafts/draft/practical").status_code == 404


def every_field(page: str) -> dict[str, str]:
    """What the form would send as it stands."""
    found = {
        name: unescape(value) for name, value in re.findall(r'name="(at:[^"]+)" type="text"\s+value="([^"]*)"', page)
    }
    texts = re.findall(r'<textarea id="[^"]+" name="(at:[^"]+)"[^>]*>\n(.*?)</textarea>', page, re.S)
    found |= {name: unescape(text) for name, text in texts}
    for name, options in re.findall(r'<select id="[^"]+" name="(at:[^"]+)"[^>]*>(.*?)</select>', page, re.S):
        chosen = re.search(r'value="([^"]*)" selected', options)
        found[name] = chosen.group(1) if chosen else ""
    return found
