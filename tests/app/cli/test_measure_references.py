"""Every command against results of other software and printed ones (lme4, TAM, eRm, ltm, VGAM, irrCAC and more).

The whole list is compared where THROUGHLINE_REFERENCES names the folder of references, with the data and
`expected_open.json` in its `psychometrics`, where each value's software is written beside it.
"""

import json
import os
from pathlib import Path

import pytest

from app.cli import run
from app.cli.measure_references import reference_values
from app.wording.references import reference_sentences, reference_table
from assessments.measurement.reference_value import NOT_COMPUTED, ReferenceValue, why_not

REFERENCES = os.environ.get("THROUGHLINE_REFERENCES")
FOLDER = Path(REFERENCES) / "psychometrics" if REFERENCES else None
LIST = {
    "entries": [
        {
            "id": "stanislaw_todorov_1999",
            "values": {
                "c_loglinear": {
                    "expected": -1.3910970290565368,
                    "published": None,
                    "recomputed": [{"by": "own", "value": -1.391}],
                    "suggested_tolerance": 1e-6,
                },
            },
        }
    ]
}


def value(expected, computed, tolerance=0.01, key="kappa"):
    return ReferenceValue("cohen", key, expected, computed, tolerance, 0.49, "a library", why_not("cohen", key))


def test_a_folder_without_the_list_is_refused(tmp_path, capsys):
    assert run(["measure", "references", str(tmp_path)]) == 2
    assert "expected_open.json" in capsys.readouterr().err


def test_a_folder_without_the_tables_is_refused(tmp_path, capsys):
    (tmp_path / "expected_open.json").write_text(json.dumps(LIST), encoding="utf-8")
    assert run(["measure", "references", str(tmp_path)]) == 2
    assert "open_cohen1968_3x3.csv" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("expected", "computed", "agrees"),
    [
        (0.49, 0.495, True),
        (0.49, 0.51, False),
        (0.49, None, False),
        ([0.1, 0.2], [0.1, 0.205], True),
        ([0.1, 0.2], [0.1], False),
        ([[1, 2], [3]], [[1, 2], [3]], True),
        ([[1, 2], [3]], [[1, 3], [2]], False),
        ("(None, 'curve above box')", "no solution", True),
        ("(None, 'curve above box')", 6.5, False),
        (0.49, NOT_COMPUTED, None),
    ],
)
def test_values_agree_within_their_tolerance(expected, computed, agrees):
    assert value(expected, computed).agrees is agrees


def test_the_table_names_what_differs_and_what_is_not_computed():
    values = [value(0.49, 0.49), value(0.49, 0.6), value(1.0, NOT_COMPUTED, key="seconds_jml")]
    said = list(reference_sentences(values))
    assert said[0] == "Of 3 values 1 agree within their tolerance, 1 differ, 1 are not computed here."
    assert said[1] == "  cohen, kappa: 0.6 here, 0.49 by a library (tolerance 0.01)"
    assert (
        said[2]
        == "  cohen, seconds_jml: not computed: a time measured on another machine, with which nothing here has to agree"
    )
    assert len(list(reference_table(values))) == 4 + len(values)


if FOLDER:

    def test_every_open_value_agrees_or_says_why_it_is_not_computed():
        values = list(reference_values(FOLDER))
        assert [(one.entry, one.key, one.computed, one.expected) for one in values if one.differs] == []
        assert [one.key for one in values if one.computed is NOT_COMPUTED and one.why_not is None] == []
        assert sum(bool(one.agrees) for one in values) >= 523

    @pytest.mark.parametrize("name", ["open_mfrm_small_rsm", "open_mfrm_small_pcm", "open_mfrm_dichotomous"])
    def test_generating_values_are_recovered_within_sampling_error(name, capsys):
        truth = json.loads((FOLDER / "mfrm_truth_open.json").read_text(encoding="utf-8"))[name]
        words = ["--model", "partial-credit", "--steps", "criterion"] if name.endswith("pcm") else []
        assert run(["measure", "rasch", str(FOLDER / f"{name}.csv"), *words, "--draws", "0", "--json"]) == 0
        answer = json.loads(capsys.readouterr().out)
        for facet in ("examiner", "exercise", "criterion"):
            for row, true in zip(answer["facets"][facet], truth[facet], strict=True):
                assert abs(row["estimate"] - true) < 3.5 * row["se"], (facet, row["id"])
        away = [
            abs(row["estimate"] - true) < 1.96 * row["se"]
            for row, true in zip(answer["candidates"], truth["theta"], strict=True)
        ]
        assert sum(away) / len(away) > 0.88
