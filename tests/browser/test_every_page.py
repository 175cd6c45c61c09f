"""Every page, in every role that may see it: accessible, named, within its width, and quiet."""

import pytest
from playwright.sync_api import Error, Page

from tests.browser.checks import Console, axe_faults, axe_faults_everywhere, frame_faults, room_faults
from tests.browser.doors import DOWNLOADS, FOR_SCRIPT, HERE, VISITOR, Door, every_door, unknown_places

ALL = every_door()
DOORS = [door for door in ALL if door.path not in DOWNLOADS + FOR_SCRIPT]
FIRST_ROLES = list({(door.path, door.chosen): door for door in reversed(DOORS)}.values())
NO_PAGE = "{door} is no page: name {door.path} in DOWNLOADS or FOR_SCRIPT, " + HERE
ASTRAY = [("/h/halden-row.ended", 410), ("/no-such-page", 404)]


def opened(page_of, site, door: Door) -> tuple[Page, Console]:  # noqa: ANN001
    page, console = page_of(door.role)
    try:
        answer = page.goto(door.address(site))
    except Error as error:
        if "Download is starting" in str(error):
            pytest.fail(NO_PAGE.format(door=door))
        raise
    assert answer.status == 200, f"{door} answers {answer.status}; the values of its places stand in {HERE}"
    assert "text/html" in answer.headers["content-type"], NO_PAGE.format(door=door)
    return page, console


def test_every_place_in_an_address_has_a_value() -> None:
    assert unknown_places(ALL) == []
    assert len(DOORS) > 40
    assert {*DOWNLOADS, *FOR_SCRIPT} <= {door.path for door in ALL}


@pytest.mark.parametrize("door", DOORS, ids=str)
def test_a_page_is_good_for_everybody(page_of, site, door: Door) -> None:  # noqa: ANN001
    """Looked at by axe in the first role that may see it; what else a role has around it, its own pages show."""
    page, console = opened(page_of, site, door)
    axe = axe_faults_everywhere(page) if door in FIRST_ROLES else []
    found = [*frame_faults(page), *axe, *room_faults(page), *console.taken()]
    assert found == [], "\n".join(found)


@pytest.mark.parametrize(("path", "status"), ASTRAY)
def test_who_goes_astray_finds_a_page_as_good(page_of, site, path: str, status: int) -> None:  # noqa: ANN001
    page, console = page_of(VISITOR)
    assert page.goto(site.address + path).status == status
    found = [*axe_faults(page), *frame_faults(page), *room_faults(page), *console.taken()]
    assert found == [], "\n".join(found)


@pytest.mark.parametrize("path", DOWNLOADS + FOR_SCRIPT)
def test_what_is_no_page_is_fetched(page_of, site, path: str) -> None:  # noqa: ANN001
    """In every role that may have it; a PDF is one, all else is text, and what is taken away has a name."""
    for door in (door for door in ALL if door.path == path):
        answer = page_of(door.role)[0].request.get(door.address(site))
        assert answer.status == 200, f"{door} answers {answer.status}"
        assert "text/html" not in answer.headers["content-type"], str(door)
        assert ("filename=" in answer.headers.get("content-disposition", "")) == (path in DOWNLOADS), str(door)
        if path.endswith(".pdf"):
            assert answer.body()[:5] == b"%PDF-", str(door)
        else:
            assert answer.body().decode().strip(), str(door)
