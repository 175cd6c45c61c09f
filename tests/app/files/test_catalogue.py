"""The text catalogue holds what the sources say, and a language's file can be read and kept."""

import shutil
from copy import deepcopy
from pathlib import Path

import pytest
from babel.messages.pofile import read_po

from app import cli
from app.files import catalogue


@pytest.fixture
def locales(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of the catalogues that a test may spoil, and the sources as they are now."""
    found = catalogue.extracted()
    monkeypatch.setattr(catalogue, "extracted", lambda: deepcopy(found))
    folder = tmp_path / "app" / "wording" / "locales"
    shutil.copytree(catalogue.LOCALES, folder)
    monkeypatch.setattr(catalogue, "LOCALES", folder)
    monkeypatch.setattr(catalogue, "TEMPLATE", folder / catalogue.TEMPLATE.name)
    return folder


def german(locales: Path) -> Path:
    path = locales / "de" / "LC_MESSAGES" / "throughline.po"
    path.parent.mkdir(parents=True)
    path.write_text('msgid ""\nmsgstr ""\n"Content-Type: text/plain; charset=utf-8\\n"\n', encoding="utf-8")
    return path


def test_the_catalogue_is_what_the_sources_say() -> None:
    stale = [str(path) for path in catalogue.outdated()]
    assert stale == [], "run: throughline wording extract"


def test_texts_of_templates_python_and_the_pure_packages_are_in_it() -> None:
    found = {message.id for message in catalogue.extracted()}
    assert {"Log a session", "On course", "choose the host teacher who will sign"} <= found
    assert ("{number} spring", "{number} springs") in found
    assert ("%(count)s exercise", "%(count)s exercises") in found


def test_refreshing_takes_in_what_is_new_and_keeps_translations(locales: Path) -> None:
    path = german(locales)
    assert path in catalogue.refresh()
    path.write_text(
        path.read_text("utf-8").replace('msgid "Cohort"\nmsgstr ""', 'msgid "Cohort"\nmsgstr "Jahrgang"'), "utf-8"
    )
    template = catalogue.TEMPLATE
    template.write_text(template.read_text("utf-8").replace("Cohort", "Cohorts"), "utf-8")
    assert list(catalogue.outdated()) == [template]
    assert catalogue.refresh() == [template]
    with path.open("rb") as file:
        assert read_po(file).get("Cohort").string == "Jahrgang"
    assert catalogue.outdated() == {}


def test_a_translation_with_a_place_that_its_text_lacks_is_a_fault(locales: Path) -> None:
    path = german(locales)
    catalogue.refresh()
    said = path.read_text("utf-8").replace(
        'msgid "{minutes} min"\nmsgstr ""', 'msgid "{minutes} min"\nmsgstr "{minuten} min"'
    )
    path.write_text(said, "utf-8")
    (fault,) = _faults_beside(path)
    assert "{minuten} min" in fault.text()
    assert fault.line


def _faults_beside(path: Path) -> list:
    root, catalogue.ROOT = catalogue.ROOT, path.parents[5]
    try:
        return catalogue.translation_faults()
    finally:
        catalogue.ROOT = root


def test_the_command_says_that_all_is_well(capsys: pytest.CaptureFixture) -> None:
    assert cli.run(["wording", "check"]) == 0
    assert "holds what the sources say" in capsys.readouterr().out
