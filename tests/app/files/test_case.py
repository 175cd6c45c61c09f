"""CASE packages: valid by the official 1.0 schema and the 1.1 schema where references are given; read back whole.

Rules held here by hand are those of 1EdTech CASE 1.1 (data model): identifiers are UUIDs of versions 1 to 5 in small
letters, a CFPackage has a CFDocument with five members, ten kinds of association.
"""

import json
import os
from copy import deepcopy
from pathlib import Path

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.cli import run
from app.files.case import case_package, edition_from_case, outline_of_case, write_case
from app.files.case_checks import IDENTIFIER
from app.files.repertoire import edition_from_folder
from curriculum.faults import RefusedError
from tests.curriculum.repertoire.cast import edition, exercise

FOLDER = Path(__file__).parents[3] / "seed_data" / "repertoire" / "classical-2026.1"
WHOLE = edition_from_folder(FOLDER)
PACKAGE = case_package(WHOLE, "Halden Row", "2026-01-12T00:00:00Z")
KINDS = {"isChildOf", "precedes", "isRelatedTo"}
SMALL = case_package(edition(exercise("a"), exercise("b")), "Halden Row", "2026-01-12T00:00:00Z")


def test_an_edition_comes_back_as_it_went():
    assert edition_from_case(write_case(PACKAGE)) == WHOLE


def test_every_identifier_is_a_uuid_and_stands_once():
    every = [PACKAGE["CFDocument"], *PACKAGE["CFItems"], *PACKAGE["CFAssociations"]]
    ids = [one["identifier"] for one in every]
    assert all(IDENTIFIER.fullmatch(id) for id in ids)
    assert len(set(ids)) == len(ids)
    assert {one["associationType"] for one in PACKAGE["CFAssociations"]} == KINDS


def test_every_exercise_has_its_five_competencies_under_it():
    kinds = [kind for _, kind, _ in outline_of_case(write_case(PACKAGE))]
    assert kinds.count("Exercise") == len(WHOLE.exercises)
    assert kinds.count("Competency") == 5 * len(WHOLE.exercises)


def test_the_order_of_the_outline_is_the_order_of_the_edition():
    names = [words for _, kind, words in outline_of_case(write_case(PACKAGE)) if kind == "Exercise"]
    assert names == [one.name for one in WHOLE.exercises]


if os.environ.get("THROUGHLINE_REFERENCES"):
    SCHEMAS = Path(os.environ["THROUGHLINE_REFERENCES"]) / "standards" / "case"

    @pytest.mark.parametrize(
        "name", ["case_v1p1_cfpackage.strict.schema.json", "case_v1p1_cfpackage.retyped.schema.json"]
    )
    def test_the_package_keeps_the_1_1_schema(name):
        jsonschema.Draft7Validator(json.loads((SCHEMAS / name).read_text())).validate(PACKAGE)

    def test_the_package_for_older_readers_keeps_the_official_1_0_schema():
        older = case_package(WHOLE, "Halden Row", "2026-01-12T00:00:00Z", version="1.0")
        jsonschema.Draft7Validator(json.loads((SCHEMAS / "case_v1p0_cfpackage.json").read_text())).validate(older)


def refused(package) -> set[str]:
    with pytest.raises(RefusedError) as refusal:
        edition_from_case(package if isinstance(package, str) else json.dumps(package))
    return {fault.code for fault in refusal.value.faults}


def broken(change) -> dict:
    package = deepcopy(SMALL)
    change(package)
    return package


@pytest.mark.parametrize(
    ("change", "code"),
    [
        (lambda p: p.pop("CFDocument"), "no-package"),
        (lambda p: p["CFDocument"].pop("title"), "missing"),
        (lambda p: p["CFDocument"].update(title=3), "no-text"),
        (lambda p: p["CFDocument"].pop("extensions"), "not-ours"),
        (lambda p: p["CFItems"][0].update(identifier=p["CFItems"][0]["identifier"].upper()), "not-an-identifier"),
        (lambda p: p["CFItems"][1].update(identifier=p["CFItems"][0]["identifier"]), "twice"),
        (lambda p: p.update(CFItems={}), "not-a-list"),
        (lambda p: p["CFItems"].insert(0, 7), "no-object"),
        (lambda p: p["CFItems"].pop(0), "no-such-item"),
        (lambda p: p["CFAssociations"][0].update(originNodeURI="x"), "no-link"),
        (lambda p: p["CFAssociations"][0].update(destinationNodeURI=p["CFAssociations"][0]["originNodeURI"]), "cycle"),
    ],
)
def test_a_faulty_package_is_refused_by_name(change, code):
    assert code in refused(broken(change))


@pytest.mark.parametrize("text", ["", "[]", "null", "{", '{"CFDocument": []}', "[" * 100_000, "\ufffd"])
def test_what_is_no_package_is_refused(text):
    assert refused(text)


@given(st.recursive(st.none() | st.booleans() | st.integers() | st.text(), lambda inner: st.lists(inner, max_size=3)
       | st.dictionaries(st.sampled_from(["CFDocument", "CFItems", "CFAssociations", "extensions", "identifier", "x"]), inner, max_size=4)))  # fmt: skip
@settings(max_examples=100, deadline=None)
def test_any_json_is_refused_with_words_never_with_an_accident(data):
    assert refused(data)


def test_the_command_writes_and_reads_a_package(tmp_path, capsys):
    file, folder = tmp_path / "edition.json", tmp_path / "edition"
    assert run(["repertoire", "case", str(FOLDER), "--to", str(file)]) == 0
    assert run(["repertoire", "from-case", str(file), "--to", str(folder)]) == 0
    assert edition_from_folder(folder) == WHOLE
    capsys.readouterr()
    assert run(["repertoire", "from-case", str(file)]) == 0
    assert "Exercise: Footwork" in capsys.readouterr().out
