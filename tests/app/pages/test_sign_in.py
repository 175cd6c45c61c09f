"""Signing in and out."""

import pytest

from app.use_cases.demo import PASSWORD
from tests.app.conftest import PRODUCTS_HASHER
from tests.app.pages.conftest import EMAILS, NOW, Town

PATH = "/sign-in/halden-row"


def test_the_first_page_is_the_roles_own(town: Town) -> None:
    firsts = {role: town.as_role(role).get("/").headers["location"] for role in EMAILS}
    examiners = "/sheets" if "/sheets" in town.app.state.paths else "/repertoire"
    assert firsts == {"director": "/cohort", "trainee": "/today", "examiner": examiners}


@pytest.mark.parametrize("email", [EMAILS["trainee"], "nobody@halden-row.example"])
def test_wrong_words_are_answered_alike_for_known_and_unknown_people(town: Town, email: str) -> None:
    answer = town.visitor().post(PATH, data={"email": email, "password": "wrong"})
    assert answer.status_code == 422
    assert "Email and password don&#39;t belong together" in answer.text
    assert f'value="{email}"' in answer.text


def test_too_many_attempts_are_slowed_down_even_with_the_right_password(town: Town) -> None:
    client = town.visitor()
    for _ in range(8):
        client.post(PATH, data={"email": EMAILS["trainee"], "password": "wrong"})
    answer = client.post(PATH, data={"email": EMAILS["trainee"], "password": PASSWORD})
    assert answer.status_code == 422
    assert "Too many attempts" in answer.text


def test_signing_out_everywhere_ends_every_device(town: Town, form_token) -> None:  # noqa: ANN001
    phone, desk = town.as_role("trainee"), town.as_role("trainee")
    token = form_token(desk, "/today")
    assert desk.post("/sign-out-everywhere", data={"form_token": token}).status_code == 303
    assert phone.get("/today", headers={"accept": "text/html"}).headers["location"] == "/sign-in"


def test_a_form_from_another_site_is_refused(town: Town, form_token) -> None:  # noqa: ANN001
    client = town.as_role("trainee")
    data = {"form_token": form_token(client, "/today")}
    for headers in ({"origin": "https://elsewhere.example"}, {"sec-fetch-site": "cross-site"}):
        assert client.post("/sign-out", data=data, headers=headers).status_code == 403


def test_secrets_are_stored_as_hashes_only(town: Town) -> None:
    client = town.as_role("trainee")
    with town.store.reading("halden-row") as work:
        person = work.people.by_email(EMAILS["trainee"])
        assert person.password_hash.startswith("$argon2id$")
        assert work.sign_ins.by_token_hash(client.cookies["throughline"].partition(".")[2], NOW) is None


def test_errors_for_programs_are_problem_documents(town: Town) -> None:
    """RFC 9457, section 3: application/problem+json with type, title, status, detail."""
    answer = town.visitor().get("/cohort", headers={"accept": "application/json"})
    assert answer.status_code == 401
    assert answer.headers["content-type"] == "application/problem+json"
    assert {"type", "title", "status", "detail"} <= answer.json().keys()


def test_every_answer_carries_the_strict_headers(town: Town) -> None:
    headers = town.visitor().get(PATH).headers
    assert "'unsafe-inline'" not in headers["content-security-policy"]
    assert "default-src 'none'" in headers["content-security-policy"]
    assert headers["cache-control"] == "no-store"


def test_a_password_is_hashed_as_dearly_as_owasp_asks() -> None:
    """OWASP Password Storage Cheat Sheet: argon2id with at least 19 MiB, 2 passes and 1 lane."""
    made = PRODUCTS_HASHER.hash("x")
    assert made.startswith("$argon2id$")
    assert (PRODUCTS_HASHER.memory_cost, PRODUCTS_HASHER.time_cost) >= (19 * 1024, 2)
    assert PRODUCTS_HASHER.time_cost >= 2
