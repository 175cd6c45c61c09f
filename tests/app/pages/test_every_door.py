"""Every route × every role × own school and another's: who gets in, and who sees nothing."""

import re

import pytest

from app.api.door import PREFIX
from app.permissions import ACTS, ANYONE, LINK_HOLDER, ROLES
from app.use_cases.demo import SCHOOL
from app.web.door import Pages, UnguardedRouteError, act_of, every_route, refuse_unguarded
from tests.app.pages.conftest import OTHER, Town

OWN = {
    "session_id": "enrolment-1-s1",
    "enrolment_id": "enrolment-1",
    "slug": SCHOOL.slug,
    "link": "none.such",
    "invitation": "none.such",
    "day": "2026-11-25",
    "batch_id": "batch",
    "log_file": "log.csv",
    "size": "1",
    "receipt_number": "none",
    "host_id": "host-1",
    "request_id": "request",
    "certificate_id": "certificate",
    "written": "none",
    "mail_id": "mail",
    "worry_id": "worry",
    "year": "2026",
    "edition_id": "requirements-2026-1",
    "draft_id": "draft",
    "notice_id": "notice",
    "place_id": "place",
    "practical_id": "practical-basic",
    "exam_id": "exam",
    "code": "none",
    "room_id": "none",
    "appeal_id": "appeal",
    "incident_id": "incident",
    "drawing_id": "drawing",
    "judging_id": "judging",
    "drawn_file": "bank.csv",
    "plan_id": "plan",
    "level_id": "basic",
    "lesson_id": "first-mat",
    "practical": "basic",
    "performance_id": "quiet-mat",
    "attempt_id": "attempt",
    "token_id": "token",
    "file_name": "comprehensive.yaml",
}
NOBODYS = dict.fromkeys(OWN, "no-such-thing")


def address(path: str, ids: dict[str, str]) -> str:
    return re.sub(r"{(\w+)(?::\w+)?}", lambda found: ids.get(found.group(1), "no-such-thing"), path)


def ask(town: Town, client, method: str, path: str):  # noqa: ANN001, ANN201
    return client.request(method, path, headers={"accept": "text/html"})


def routes(town: Town) -> list[tuple[str, str, str]]:
    """Every route that people use; those for programs have a door of their own (tests/app/api)."""
    own = [route for route in every_route(town.app) if not route.path.startswith(PREFIX)]
    return [(method, route.path, act_of(route)) for route in own for method in route.methods]


def test_there_are_routes_to_try(town: Town) -> None:
    assert len(routes(town)) > 15


@pytest.mark.parametrize("database_urls", ["sqlite"], indirect=True, scope="session")
@pytest.mark.parametrize("role", ROLES)
def test_a_role_reaches_what_the_table_gives_it_and_nothing_else(town: Town, role: str) -> None:
    client = town.as_role(role)
    for method, path, act in routes(town):
        if act in (ANYONE, LINK_HOLDER) or path.startswith("/sign-out"):
            continue
        answer = ask(town, client, method, address(path, OWN))
        if role not in ACTS[act]:
            assert answer.status_code == 404, (role, method, path, answer.status_code)
        elif method == "GET":
            assert answer.status_code in (200, 303, 404), (role, method, path, answer.status_code)
        else:
            assert answer.status_code == 403, "a form without its token is refused"


def test_nobody_signed_in_is_shown_the_way_in(town: Town) -> None:
    for method, path, act in routes(town):
        if act not in (ANYONE, LINK_HOLDER):
            answer = ask(town, town.visitor(), method, address(path, OWN))
            assert (answer.status_code, answer.headers["location"]) == (303, "/sign-in"), path


@pytest.mark.parametrize("role", ROLES)
def test_ids_of_another_school_are_not_there(town: Town, role: str) -> None:
    """The other school's own ids are made different first, so that a leak would show."""
    with town.store.reading(OTHER.id) as work:
        assert work.enrolments.by_id("enrolment-1") is not None
    client = town.as_role(role)
    for method, path, act in routes(town):
        if "{" in path and act not in (ANYONE, LINK_HOLDER) and method == "GET":
            assert ask(town, client, method, address(path, NOBODYS)).status_code == 404, path


def test_the_same_id_in_two_schools_is_two_things(town: Town) -> None:
    names = set()
    for school in (SCHOOL, OTHER):
        page = town.as_role("director", school).get("/trainees/enrolment-1").text
        names.add(school.name in page)
        assert (OTHER if school is SCHOOL else SCHOOL).name not in page
    assert names == {True}


def test_a_sign_in_of_one_school_opens_no_other(town: Town) -> None:
    client = town.as_role("director")
    _, _, token = client.cookies["throughline"].partition(".")
    client.cookies.clear()
    client.cookies.set("throughline", f"{OTHER.id}.{token}")
    assert client.get("/cohort", headers={"accept": "text/html"}).status_code == 303


def test_a_route_without_a_permission_does_not_start(town: Town) -> None:
    loose = Pages()
    loose.get("/loose", may="do as one likes")(lambda: None)
    town.app.include_router(loose.router)
    with pytest.raises(UnguardedRouteError, match="/loose"):
        refuse_unguarded(town.app)
