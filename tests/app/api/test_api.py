"""What programs may ask: who gets in, what is taken, and a document that says so (OpenAPI 3.1, RFC 9457, RFC 6750)."""

import re
from datetime import timedelta

import pytest

from app.api import every_noun
from app.api.door import scope_of
from app.api.pace import Pace
from app.permissions import ACTS, ROLES
from app.web.door import act_of
from tests.app.pages.conftest import NOW

SESSION = {
    "id": "by-program-1",
    "day": "2026-11-24",
    "start": "09:30",
    "end": "10:30",
    "parts": [{"minutes": 60, "activity": "self_practice"}],
}
ROUTES = [
    (method, re.sub(r"{\w+}", "enrolment-1", route.path), act_of(route), scope_of(route))
    for noun in every_noun()
    for route in noun.router.routes
    if scope_of(route)
    for method in route.methods
]


def logged(trainee, id: str, **changes):
    return trainee.post("/api/v1/sessions", json=SESSION | {"id": id} | changes)


def test_without_a_token_every_route_says_how_to_send_one(town):
    for method, path, _, _ in ROUTES:
        answer = town.as_role("director").request(method, path)
        assert (answer.status_code, answer.headers["www-authenticate"]) == (401, "Bearer"), path
        assert answer.headers["content-type"] == "application/problem+json"


@pytest.mark.parametrize("role", ROLES)
def test_a_token_opens_what_both_its_person_and_its_scopes_open(program, role):
    """The other scopes of the person do not open a route, nor does a scope without the role."""
    full = program(role)
    for method, path, act, scope in ROUTES:
        answer = full.request(method, path, json={})
        if role not in ACTS[act]:
            assert answer.status_code == 404, (role, path)
            continue
        assert answer.status_code in (200, 404, 422), (role, method, path, answer.text)
        other = program(role, "person:read" if scope != "person:read" else _other(role)) if _other(role) else None
        if other:
            assert other.request(method, path, json={}).status_code == 403, (role, path)


def _other(role: str) -> str:
    return {"trainee": "hours:read", "director": "cohort:read", "examiner": ""}[role]


def test_a_session_is_logged_once_corrected_by_its_version_and_withdrawn(program):
    trainee = program("trainee")
    first, again = logged(trainee, "by-program-1"), logged(trainee, "by-program-1")
    assert (first.status_code, again.status_code, first.json()["state"]) == (201, 200, "attested")
    path, changed = (
        "/api/v1/sessions/by-program-1",
        {key: SESSION[key] for key in SESSION if key != "id"} | {"start": "09:15"},
    )
    assert trainee.put(path, json=changed).status_code == 428
    stale = {"if-match": '"7-attested"'}
    assert trainee.put(path, json=changed, headers=stale).status_code == 412
    corrected = trainee.put(path, json=changed, headers={"if-match": first.headers["etag"]})
    assert (corrected.status_code, corrected.json()["version"], corrected.json()["start"]) == (200, 2, "09:15")
    gone = trainee.post(f"{path}/withdrawal", headers={"if-match": corrected.headers["etag"]})
    assert (gone.status_code, gone.json()["state"]) == (200, "withdrawn")


def test_what_can_t_be_taken_comes_back_with_every_reason_at_its_place(program):
    trainee = program("trainee")
    refused = logged(trainee, "by-program-2", start="nine", end="late")
    assert refused.headers["content-type"] == "application/problem+json"
    assert [one["pointer"] for one in refused.json()["errors"]] == ["#/start", "#/end"]
    refused = logged(trainee, "by-program-2", day="2026-11-29", parts=[{"minutes": 90, "activity": ""}])
    assert {one["pointer"] for one in refused.json()["errors"]} == {"#/day", "#/parts", "#/parts/0/activity", "#/host"}
    misspelt = logged(trainee, "by-program-2", startt="09:30")
    assert (misspelt.status_code, misspelt.json()["errors"][0]["pointer"]) == (422, "#/startt")
    assert trainee.get("/api/v1/sessions/by-program-2").status_code == 404


def test_figures_are_those_of_the_pages_and_lists_go_on_where_they_stopped(program):
    trainee, director = program("trainee"), program("director")
    own, seen = trainee.get("/api/v1/standing").json(), director.get("/api/v1/trainees/enrolment-1/standing").json()
    (line,) = [one for one in _all(director, "/api/v1/trainees") if one["enrolment"] == "enrolment-1"]
    assert own == seen
    assert (line["further_minutes"], line["credited_minutes"]) == (own["further_minutes"], own["credited_minutes"])
    sessions = _all(trainee, "/api/v1/sessions")
    assert [one["id"] for one in sessions] == [
        one["id"] for one in _all(director, "/api/v1/trainees/enrolment-1/sessions")
    ]
    assert len({one["id"] for one in sessions}) == len(sessions) > 7
    assert trainee.get("/api/v1/sessions?cursor=%C3%A4").status_code == 422


def _all(program, path: str) -> list[dict]:
    items, cursor = [], ""
    while cursor is not None:
        found = program.get(path, params={"limit": 7, "cursor": cursor}).json()
        items, cursor = items + found["items"], found["next"]
    return items


def test_a_token_ends_on_the_page_and_shows_its_secret_once(town, form_token):
    trainee = town.as_role("trainee")
    sent = {"form_token": form_token(trainee, "/tokens"), "id": "f" * 32, "label": "Calendar", "days": "30"}
    assert "choose at least one" in trainee.post("/tokens", data=sent).text
    page = trainee.post("/tokens", data=sent | {"scopes": ["person:read"]})
    secret = re.search(r'class="secret">([^<]+)<', page.text).group(1)
    assert (page.status_code, page.headers["cache-control"]) == (200, "no-store")
    assert trainee.post("/tokens", data=sent | {"scopes": ["person:read"]}).status_code == 409
    assert "Calendar" in (listed := trainee.get("/tokens").text)
    assert secret not in listed
    bearer = {"authorization": f"Bearer {secret}"}
    assert town.visitor().get("/api/v1/me", headers=bearer).json()["scopes"] == ["person:read"]
    assert town.as_role("director").post(f"/tokens/{'f' * 32}/end").status_code == 403
    assert trainee.post(f"/tokens/{'f' * 32}/end", data=sent).status_code == 303
    assert town.visitor().get("/api/v1/me", headers=bearer).status_code == 401


def test_who_asks_too_often_is_told_when_to_come_again(town, program, monkeypatch):
    monkeypatch.setattr(town.app.state, "pace", Pace(2))
    trainee = program("trainee", "person:read")
    answers = [trainee.get("/api/v1/me") for _ in range(3)]
    assert [one.status_code for one in answers] == [200, 200, 429]
    assert answers[2].headers["retry-after"] == str(60 - NOW.second)
    assert program("trainee", "person:read").get("/api/v1/me").status_code == 200
    assert Pace(1).wait("t", NOW) == 0
    assert town.app.state.pace.wait("t", NOW + timedelta(minutes=1)) == 0


def test_the_document_names_every_route_with_its_scope_and_every_reference_leads_somewhere(town):
    document = town.visitor().get("/api/v1/openapi.json").json()
    said = {(method.upper(), path): act for path, acts in document["paths"].items() for method, act in acts.items()}
    routes = [(method, route.path, scope_of(route)) for noun in every_noun() for route in noun.router.routes
              if scope_of(route) for method in route.methods]  # fmt: skip
    assert set(said) == {(method, path) for method, path, _ in routes}
    for method, path, scope in routes:
        assert said[method, path]["security"] == [{"token": [scope]}]
        assert said[method, path]["summary"]
    assert document["openapi"].startswith("3.1")
    names = re.findall(r'"\$ref": ?"#/components/schemas/([^"]+)"', town.visitor().get("/api/v1/openapi.json").text)
    assert names
    assert set(names) <= set(document["components"]["schemas"])
