"""Springs across studios, in pages. Loads follow Hooke's law, checked by hand from the demo's readings."""

import pytest

from tests.app.pages.conftest import Town

ASKED = "/springs?origin=old&springs=4&target=new&start=10&end=60"


def test_the_closest_set_is_named_with_its_worst_difference_and_curve(town: Town) -> None:
    """Four springs of the old machine: 44+43+44+45 = 176 N at 10 cm, 146+145+144+147 = 582 N at 60 cm."""
    page = town.as_role("trainee").get(ASKED).text
    assert "new: " in page
    assert "%" in page
    assert ">176<" in page
    assert ">582<" in page
    assert "<polyline" in page
    assert "replace and measure it" in page


def test_labels_may_be_named(town: Town) -> None:
    page = town.as_role("examiner").get("/springs?origin=new&springs=middle, light&target=old&start=10&end=60").text
    assert "middle + light" in page


@pytest.mark.parametrize(
    ("query", "said"),
    [
        ("origin=none&springs=4&target=new", "choose a machine"),
        ("origin=old&springs=&target=new", "how many springs"),
        ("origin=old&springs=9&target=new", "not from 1 to 4"),
        ("origin=old&springs=4&target=new&start=60&end=10", "must lie beyond where it starts"),
        ("origin=old&springs=4&target=new&start=x&end=nan", "centimetres from 0 to 500"),
        ("origin=old&springs=first,first&target=new", "each once"),
    ],
)
def test_what_can_not_be_asked_is_said(town: Town, query: str, said: str) -> None:
    answer = town.as_role("director").get(f"/springs?{query}")
    assert answer.status_code == 422
    assert said in answer.text


def test_readings_are_kept_as_an_edition(town: Town) -> None:
    page = town.as_role("director").get("/editions").text
    assert "Machines and their springs" in page
    assert "studio 2026.1" in page
