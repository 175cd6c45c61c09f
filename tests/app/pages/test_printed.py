"""The repertoire on paper, looked at with pikepdf: tagged (ISO 14289-1, PDF/UA-1), titled, with bookmarks."""

from io import BytesIO

import pikepdf
import pytest

from app.use_cases.asker import Asker
from app.use_cases.demo import SCHOOL
from app.use_cases.notices import issue_notice
from tests.app.pages.conftest import NOW, Town

PAPERS = ("/handbook.pdf", "/leaves/reformer-footwork.pdf", "/leaves/mat-hundred.pdf", "/posters/basic.pdf")


def opened(town: Town, path: str) -> pikepdf.Pdf:
    answer = town.as_role("trainee").get(path)
    assert answer.headers["content-type"] == "application/pdf"
    return pikepdf.open(BytesIO(answer.content))


@pytest.mark.parametrize("path", PAPERS)
def test_every_paper_is_tagged_titled_and_in_a_language(town: Town, path: str) -> None:
    with opened(town, path) as pdf:
        assert bool(pdf.Root.MarkInfo.Marked)
        assert str(pdf.Root.Lang).startswith("en")
        with pdf.open_metadata() as metadata:
            assert metadata["dc:title"]
            assert str(metadata["pdfuaid:part"]) == "1"


def test_the_handbook_has_a_bookmark_for_every_exercise(town: Town) -> None:
    with opened(town, "/handbook.pdf") as pdf, pdf.open_outline() as outline:
        titles = [item.title for item in every(outline.root)]
    assert "Footwork" in titles
    assert "Index" in titles
    assert titles.count("Hundred") >= 2


def every(items):  # noqa: ANN001, ANN201
    for item in items:
        yield item
        yield from every(item.children)


@pytest.mark.parametrize("path", ["/leaves/reformer-footwork.pdf", "/leaves/mat-hundred.pdf"])
def test_a_leaf_is_one_page(town: Town, path: str) -> None:
    with opened(town, path) as pdf:
        assert len(pdf.pages) == 1


def test_a_safety_notice_reaches_the_paper_at_once(town: Town) -> None:
    client = town.as_role("trainee")
    before = [client.get(path).content for path in PAPERS[:2]]
    asker = Asker(SCHOOL, "director", "Maren Tollefsby", NOW)
    issue_notice(town.store, asker, "reformer-footwork", "Lower the bar by hand until the lock is mended.")
    after = [client.get(path).content for path in PAPERS[:2]]
    assert all(one != other for one, other in zip(before, after, strict=True))
    assert client.get(PAPERS[2]).content == client.get(PAPERS[2]).content


@pytest.mark.parametrize("path", ["/leaves/no-such.pdf", "/posters/no-such.pdf"])
def test_what_the_edition_lacks_is_not_there(town: Town, path: str) -> None:
    assert town.as_role("trainee").get(path, headers={"accept": "text/html"}).status_code == 404
