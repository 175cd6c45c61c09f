"""From a gap to a certificate that anyone can check, and to its end; decided by two, refused to whoever should not."""

import json
import shutil
import subprocess
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from app.cli import run
from app.files.contexts import known_contexts
from app.files.signing_keys import new_key, opened_key, passphrase_of
from app.settings import Settings
from app.storage.enrolments import ShownDocument
from app.use_cases.certifying import signing_of
from app.use_cases.demo import PASSWORD, SCHOOL
from app.use_cases.demo_certificates import GRADUATE, add_demo_certificate
from assessments.certificates.checking import check, issuer_of
from curriculum.faults import RefusedError
from tests.app.pages.conftest import NOW, OTHER, Town

ADDRESS = "https://school.example"
OUTSIDE = Path(__file__).parents[2] / "outside"
BASE = f"/verify/{SCHOOL.slug}"


@pytest.fixture
def graduated(town: Town) -> Town:
    """Everything is signed under an address of its own; the demo's graduate has a certificate."""
    town.app.state.settings = replace(town.app.state.settings, public_address=ADDRESS, key_passphrase="a passphrase")
    add_demo_certificate(town.store, SCHOOL, signing_of(town.app.state.settings), NOW)
    return town


def as_person(town: Town, email: str):  # noqa: ANN201
    client = town.visitor()
    client.post(f"/sign-in/{SCHOOL.slug}", data={"email": f"{email}@halden-row.example", "password": PASSWORD})
    return client


def written(town: Town, number: str = "2026-0001") -> str:
    with town.store.reading(SCHOOL.id) as work:
        code = work.certificates.by_id(number).code
    return f"{number}-{code[:4]}-{code[4:]}"


def public_files(town: Town, number: str = "2026-0001") -> list[dict]:
    """Credential, controller document, list: what anybody can read."""
    client, files = town.visitor(), (f"{BASE}/{written(town, number)}/credential.json", f"/issuers/{SCHOOL.slug}")
    return [client.get(path).json() for path in (*files, f"/issuers/{SCHOOL.slug}/revoked")]


def said(town: Town, number: str = "2026-0001") -> str:
    made, issuer, listed = public_files(town, number)
    try:
        check(made, issuer_of(issuer), listed, NOW, known_contexts())
    except RefusedError as refusal:
        return refusal.faults[0].code
    return "good"


def step(client, form_token, name: str, **more: str):  # noqa: ANN001, ANN201
    page = "/certificates/2026-0001"
    known = client.get(page).text.partition('name="known" value="')[2].partition('"')[0]
    form = {"form_token": form_token(client, page), "step": name, "words": "A reason.", "known": known} | more
    return client.post(page, data=form)


def test_two_people_certify_once_nothing_is_lacking(graduated: Town, form_token) -> None:  # noqa: ANN001
    """A trainee with a gap is refused; the last paper comes in; one decides, and again, and then somebody else."""
    with graduated.store.writing(SCHOOL.id) as work:
        late = replace(work.people.by_id(GRADUATE), id="late", email="late@halden-row.example")
        work.people.add(late, frozenset({"trainee"}), NOW)
        work.enrolments.add(replace(work.enrolments.by_id(GRADUATE), id="late", person_id="late"))
        for kind in ("agreement", "paper-log"):
            work.enrolments.add_document("late", ShownDocument(f"l-{kind}", kind, NOW.date(), None, "director", NOW))
        for module in ("anatomy", "safety-workshop"):
            work.enrolments.add_module("late", module, NOW.date(), "director")
        work.commit()
    first, second, page = as_person(graduated, "director"), as_person(graduated, "deputy"), "/trainees/late/certificate"
    yes = {"decision": "certify", "words": "All is there.", "form_token": form_token(first, page)}
    refused = first.post(page, data=yes | {"words": " "})
    assert refused.status_code == 422
    assert "something is still lacking" in refused.text
    assert "say why" in refused.text
    with graduated.store.writing(SCHOOL.id) as work:
        final = ShownDocument("l-final", "paper-final", NOW.date(), None, "director", NOW)
        work.enrolments.add_document("late", final)
        work.commit()
    assert first.post(page, data=yes).headers["location"] == page
    assert "somebody else confirms it" in first.post(page, data=yes).text
    issued = second.post(page, data=yes | {"form_token": form_token(second, "/certificates")})
    assert issued.headers["location"] == "/certificates/2026-0002"
    assert said(graduated, "2026-0002") == "good"
    assert "there is a certificate already" in first.post(page, data=yes).text
    with graduated.store.reading(SCHOOL.id) as work:
        assert "Your certificate 2026-0002" in [one.subject for one in work.mail.newest(20)]


def test_it_ends_only_after_notice_and_the_time_to_appeal(graduated: Town, form_token) -> None:  # noqa: ANN001
    director = as_person(graduated, "director")
    visitor, page = graduated.visitor(), f"{BASE}/{written(graduated)}"
    assert "Tilda Rowan" in visitor.get(page).text
    assert step(director, form_token, "suspended").status_code == 303
    assert "Suspended" in visitor.get(page).text
    assert step(director, form_token, "resumed").status_code == 303
    assert "can&#39;t be done" in step(director, form_token, "revoked").text
    assert "choose a day after" in step(director, form_token, "extended", until="2026-12-01").text
    assert step(director, form_token, "extended", until="2030-01-31").status_code == 303
    assert public_files(graduated)[0]["validUntil"] == "2030-01-31T23:59:59Z"
    assert step(director, form_token, "notice").status_code == 303
    assert "may appeal until 2026-12-09" in step(director, form_token, "revoked").text
    assert "Open the page again" in step(director, form_token, "notice-lifted", known="1").text
    assert said(graduated) == "good"
    graduated.app.state.now = lambda: NOW + timedelta(days=15)
    assert step(as_person(graduated, "director"), form_token, "revoked").status_code == 303
    graduated.app.state.now = lambda: NOW
    assert said(graduated) == "revoked"
    assert "Revoked by the school" in visitor.get(page).text


def test_its_holder_shows_results_and_gives_it_up(graduated: Town, form_token) -> None:  # noqa: ANN001
    holder, visitor, page = as_person(graduated, "graduate"), graduated.visitor(), "/my-certificates/2026-0001"
    token = {"form_token": form_token(holder, page)}
    detailed = f"{BASE}/{written(graduated)}/credential-with-results.json"
    assert visitor.get(detailed).status_code == 404
    assert holder.post(page, data=token | {"step": "shows-results"}).status_code == 303
    assert visitor.get(detailed).json()["id"].endswith("with-results.json")
    assert holder.post(page, data=token | {"step": "given-up"}).status_code == 422
    assert said(graduated) == "good"
    assert holder.post(page, data=token | {"step": "given-up", "sure": "yes"}).status_code == 303
    assert said(graduated) == "revoked"
    assert "Given up by its holder" in visitor.get(f"{BASE}/{written(graduated)}").text
    other = as_person(graduated, "trainee")
    assert other.get(page).status_code == other.get(f"{page}/certificate.pdf").status_code == 404


def test_a_file_is_compared_with_what_was_signed(graduated: Town) -> None:
    visitor = graduated.visitor()
    made = public_files(graduated)[0]

    def sent(content: bytes):  # noqa: ANN202
        return visitor.post(BASE, data={"number": ""}, files={"file": ("c.json", content, "application/json")})

    assert "is what the school signed" in sent(json.dumps(made).encode()).text
    made["credentialSubject"]["identifier"][0]["identityHash"] = "Somebody Else"
    altered = sent(json.dumps(made).encode())
    assert "is not what the school signed" in altered.text
    assert "Somebody Else" not in altered.text
    for content in (b"{}", b"[" * 50_000, b"\xff", b'{"id": 3}', b"x" * 300_000):
        assert sent(content).status_code == 422


def test_a_number_alone_or_a_wrong_code_opens_nothing(graduated: Town) -> None:
    visitor, right = graduated.visitor(), written(graduated)
    wrong = right[:-1] + ("A" if right[-1] != "A" else "B")
    answers = [
        visitor.post(BASE, data={"number": text}) for text in ("2026-0001", wrong, "2026-0009-AAAA-AAAA", "\x00é" * 900)
    ]
    assert {one.status_code for one in answers} == {404}
    assert visitor.get(f"/verify/{OTHER.slug}/{right}").status_code == 404
    assert visitor.post(BASE, data={"number": right.lower().replace("-", " ")}).status_code == 200


def test_an_old_key_stays_public_and_the_new_one_signs(graduated: Town, form_token) -> None:  # noqa: ANN001
    director = as_person(graduated, "director")
    assert (
        director.post("/certificates/keys", data={"form_token": form_token(director, "/certificates")}).status_code
        == 303
    )
    made, issuer, listed = public_files(graduated)
    assert len(issuer["assertionMethod"]) == 2
    assert made["proof"][0]["verificationMethod"].endswith("#key-1")
    assert listed["proof"][0]["verificationMethod"].endswith("#key-2")
    assert said(graduated) == "good"


def test_a_key_is_locked_and_its_passphrase_is_kept_beside_the_database(tmp_path) -> None:  # noqa: ANN001
    settings = Settings(f"sqlite:///{tmp_path / 'school.db'}")
    passphrase = passphrase_of(settings)
    assert passphrase == passphrase_of(settings)
    assert (tmp_path / "key-passphrase").stat().st_mode & 0o777 == 0o600
    _, locked = new_key(passphrase)
    assert "ENCRYPTED PRIVATE KEY" in locked
    assert opened_key(locked, passphrase)
    with pytest.raises(RefusedError, match="another passphrase"):
        opened_key(locked, "another")


def test_the_command_writes_what_an_outside_check_needs(graduated: Town, tmp_path, monkeypatch, capsys) -> None:  # noqa: ANN001
    monkeypatch.setenv("THROUGHLINE_DATABASE", graduated.app.state.settings.database)
    monkeypatch.setenv("THROUGHLINE_ADDRESS", ADDRESS)
    monkeypatch.setenv("THROUGHLINE_KEY_PASSPHRASE", "a passphrase")
    assert run(["certificates", "export", "2026-0009", "--to", str(tmp_path)]) == 2
    assert "2026-0009: no certificate here has this number" in capsys.readouterr().err
    assert run(["certificates", "export", "2026-0001", "--to", str(tmp_path / "new")]) == 0
    names = [str(tmp_path / "new" / name) for name in ("credential.json", "issuer.json", "revoked.json")]
    assert run(["certificates", "check", names[0], "--issuer", names[1], "--list", names[2]]) == 0


if shutil.which("node") and (OUTSIDE / "node_modules").is_dir():

    def test_software_that_is_not_ours_says_the_same(graduated: Town, form_token, tmp_path) -> None:  # noqa: ANN001
        """`@digitalbazaar/vc` with its status list (tests/outside/package.json)."""

        def outside(*changes: str) -> dict:
            files = public_files(graduated)
            files[0] |= dict.fromkeys(changes, "changed")
            paths = [tmp_path / f"{place}.json" for place in range(3)]
            for path, content in zip(paths, files, strict=True):
                path.write_text(json.dumps(content), encoding="utf-8")
            moment = NOW.strftime("%Y-%m-%dT%H:%M:%SZ")
            asked = ["node", str(OUTSIDE / "verify.mjs"), *map(str, paths), moment]
            return json.loads(subprocess.run(asked, capture_output=True, check=True, text=True).stdout)

        assert outside() == {"verified": True, "revoked": False, "why": []}
        assert outside("name")["verified"] is False
        holder, page = as_person(graduated, "graduate"), "/my-certificates/2026-0001"
        holder.post(page, data={"form_token": form_token(holder, page), "step": "given-up", "sure": "yes"})
        assert outside()["revoked"] is True
