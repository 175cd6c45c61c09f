"""A draft is written, checked with file and line, compared, published; trainees move with a reason."""

import re

import pytest

from app.use_cases.demo import SCHOOL
from tests.app.pages.conftest import Town

BASE = "requirements-2026-1"
FILE = "comprehensive.yaml"


@pytest.fixture
def director(town: Town, form_token):  # noqa: ANN001, ANN201
    """The director's client; `client.fill(path, **fields)` posts a form."""
    client = town.as_role("director")
    token = form_token(client, f"/editions/{BASE}")
    client.fill = lambda path, **typed: client.post(
        path, data={"form_token": token} | typed, headers={"accept": "text/html"}
    )
    return client


def begun(director, edition: str = BASE) -> str:  # noqa: ANN001
    return director.fill(f"/editions/{edition}/drafts").headers["location"]


def text_of(town: Town, edition: str = BASE, file: str = FILE) -> str:
    with town.store.reading(SCHOOL.id) as work:
        return work.editions.by_id(edition).documents[file]


def changed(town: Town, director, old: str, new: str) -> str:  # noqa: ANN001
    """A draft with one text put in place of another; its address."""
    draft, text = begun(director), text_of(town)
    assert old in text
    answer = director.fill(f"{draft}/files", name=FILE, text=text.replace(old, new), version="1")
    assert answer.status_code == 303
    return draft


def test_a_faulty_draft_is_kept_shows_file_and_line_and_is_not_published(town: Town, director) -> None:  # noqa: ANN001
    draft = changed(town, director, "at_least: 120 h", "at_least: many")
    line = text_of(town)[: text_of(town).index("at_least: 120 h")].count("\n") + 1
    page = director.get(draft).text
    assert f"{FILE}:{line}" in page
    assert "Publish edition" not in page
    refused = director.fill(f"{draft}/publish", version="2", start_on="yes")
    assert refused.status_code == 422
    with town.store.reading(SCHOOL.id) as work:
        assert [one.id for one in work.editions.of_kind("requirements")] == [BASE]


def test_a_draft_shows_what_it_changes_and_whom_it_touches(town: Town, director) -> None:  # noqa: ANN001
    draft = changed(town, director, "at_least: 120 h", "at_least: 150 h")
    page = director.get(draft).text
    assert "<del>120</del> <ins>150</ins> h" in page
    touched = director.get(f"{draft}/touches").text
    assert "2 of 2 trainees would stand differently." in touched


def test_publishing_makes_a_new_edition_and_leaves_trainees_on_theirs(town: Town, director) -> None:  # noqa: ANN001
    draft = changed(town, director, "edition: 2026.1", "edition: 2027.1")
    published = director.fill(f"{draft}/publish", version="2", start_on="yes").headers["location"]
    edition = published.removeprefix("/editions/")
    with town.store.reading(SCHOOL.id) as work:
        assert work.editions.by_id(edition).number == "2027.1"
        assert {one.requirements_id for one in work.enrolments.all()} == {BASE}
        assert {one.requirements_id for one in work.enrolments.programmes()} == {edition}
        assert [one.id for one in work.editions.drafts()] == ["draft"]


def test_a_number_is_published_once(town: Town, director) -> None:  # noqa: ANN001
    draft = changed(town, director, "at_least: 120 h", "at_least: 150 h")
    refused = director.fill(f"{draft}/publish", version="2")
    assert refused.status_code == 422
    assert "edition 2026.1 is published already" in refused.text


def test_trainees_move_with_a_reason_and_it_is_on_record(town: Town, director) -> None:  # noqa: ANN001
    draft = changed(town, director, "edition: 2026.1", "edition: 2027.1")
    published = director.fill(f"{draft}/publish", version="2").headers["location"]
    refused = director.fill(f"{published}/trainees", enrolments="enrolment-1")
    assert refused.status_code == 422
    assert 'value="enrolment-1" checked' in refused.text
    moved = director.fill(f"{published}/trainees", enrolments="enrolment-1", reason="asked for it")
    assert moved.status_code == 303
    with town.store.reading(SCHOOL.id) as work:
        editions = {one.id: one.requirements_id for one in work.enrolments.all()}
        assert editions == {"enrolment-1": published.removeprefix("/editions/"), "enrolment-2": BASE}
        assert work.record.of_subject("enrolment-1")[-1].kind == "moved-to-edition"


def test_a_move_is_taken_back_once_and_both_are_on_record(town: Town, director) -> None:  # noqa: ANN001
    draft = changed(town, director, "edition: 2026.1", "edition: 2027.1")
    published = director.fill(f"{draft}/publish", version="2").headers["location"]
    director.fill(f"{published}/trainees", enrolments="enrolment-1", reason="asked for it")
    back = re.search(rf'action="({published}/trainees/enrolment-1/back)"', director.get(published).text).group(1)
    assert director.fill(f"/editions/{BASE}/trainees/enrolment-2/back").status_code == 409
    assert director.fill(back).headers["location"] == published
    assert director.fill(back).status_code == 409
    with town.store.reading(SCHOOL.id) as work:
        assert {one.requirements_id for one in work.enrolments.all()} == {BASE}
        moves = [one.content() for one in work.record.of_subject("enrolment-1") if one.kind == "moved-to-edition"]
    new = published.removeprefix("/editions/")
    assert [(one["from"], one["to"]) for one in moves] == [(BASE, new), (new, BASE)]


def test_a_stale_tab_overwrites_nothing(town: Town, director) -> None:  # noqa: ANN001
    draft = changed(town, director, "at_least: 120 h", "at_least: 150 h")
    assert director.fill(f"{draft}/files", name=FILE, text="title: old", version="1").status_code == 409
    assert "<ins>150</ins> h" in director.get(draft).text


@pytest.mark.parametrize("name", ["../x.yaml", "x.txt", "", "a" * 200 + ".yaml", "two.yaml"])
def test_a_file_that_does_not_belong_is_refused(director, name: str) -> None:  # noqa: ANN001
    draft = begun(director)
    answer = director.fill(f"{draft}/files", name=name, text="title: x", version="1")
    assert answer.status_code == 422


def test_a_draft_of_the_repertoire_takes_and_loses_series_files(town: Town, director) -> None:  # noqa: ANN001
    draft = begun(director, "repertoire-2026-1")
    assert director.fill(f"{draft}/files", name="more.yaml", text="series: x", version="1").status_code == 303
    assert "more.yaml" in director.get(draft).text
    assert director.fill(f"{draft}/files/edition.yaml/remove", version="2").status_code == 422
    assert director.fill(f"{draft}/files/more.yaml/remove", version="2").status_code == 303
    assert "Nothing yet." in director.get(draft).text


def test_a_text_comes_back_as_it_was_typed(town: Town, director) -> None:  # noqa: ANN001
    draft = begun(director)
    odd = 'title: "</textarea><b>&amp; é 中 \u202e"\nedition: 2026.1\n'
    director.fill(f"{draft}/files", name=FILE, text=odd.replace("\n", "\r\n"), version="1")
    assert director.get(f"{draft}/download/{FILE}").text == odd
    assert "</textarea><b>" not in director.get(f"{draft}/files/{FILE}").text


def test_a_draft_is_thrown_away(town: Town, director) -> None:  # noqa: ANN001
    draft = begun(director)
    assert director.fill(f"{draft}/discard", version="1").status_code == 303
    assert director.get(draft, headers={"accept": "text/html"}).status_code == 404


def test_editions_of_every_kind_are_listed(director) -> None:  # noqa: ANN001
    page = director.get("/editions").text
    assert len(re.findall(r'href="/editions/', page)) >= 5


def test_a_draft_of_readiness_says_how_many_things_would_be_lacking(town: Town, director) -> None:  # noqa: ANN001
    draft, text = begun(director, "readiness-2026-1"), text_of(town, "readiness-2026-1")
    more = text + "  - {id: second-aid, kind: document, title: Second aid}\n"
    assert director.fill(f"{draft}/files", name=FILE, text=more, version="1").status_code == 303
    touched = director.get(f"{draft}/touches").text
    assert "things lacking" in touched
    assert "2 of 2 trainees would stand differently." in touched


def test_a_repertoire_travels_as_a_case_package(town: Town, director) -> None:  # noqa: ANN001
    taken = director.get("/editions/repertoire-2026-1/case.json")
    assert taken.json()["CFDocument"]["caseVersion"] == "1.1"
    token = re.search(r'name="form_token" value="(\w+)"', director.get("/editions").text).group(1)
    begun_from = director.post(
        "/editions/case",
        data={"form_token": token},
        files={"package": ("edition.json", taken.content, "application/json")},
        headers={"accept": "text/html"},
    )
    assert begun_from.status_code == 303
    assert "Nothing yet." in director.get(begun_from.headers["location"]).text


@pytest.mark.parametrize("sent", [b"", b"\xff\xfe\x00", b'{"CFDocument": {}}', b"x" * 1000])
def test_a_file_that_is_no_package_is_refused_with_words(director, sent: bytes) -> None:  # noqa: ANN001
    token = re.search(r'name="form_token" value="(\w+)"', director.get("/editions").text).group(1)
    answer = director.post(
        "/editions/case",
        data={"form_token": token},
        files={"package": ("x.json", sent)},
        headers={"accept": "text/html"},
    )
    assert answer.status_code == 422
    assert "to put right" in answer.text


def test_a_check_while_writing_tells_and_keeps_nothing(town: Town, director) -> None:  # noqa: ANN001
    draft, text = begun(director), text_of(town)
    wrong = text.replace("at_least: 120 h", "at_least: many")
    line = text[: text.index("at_least: 120 h")].count("\n") + 1
    checked = director.fill(f"{draft}/check", name=FILE, text=wrong, version="1")
    assert f'data-line="{line}"' in checked.text
    assert director.get(f"{draft}/download/{FILE}").text == text
    assert "data-line" not in director.fill(f"{draft}/check", name=FILE, text=text).text
    assert director.fill(f"{draft}/check", name="other.yaml", text=text).status_code == 404
