"""`throughline certificates check`: what it says of files, and with which exit status."""

import json

import pytest

from app.cli import run
from assessments.certificates.base58 import multikey
from tests.assessments.certificates.certificate import ADDRESSES, ISSUER, METHOD, PLACE, signed_certificate, signed_list

CONTROLLER = {
    "id": ADDRESSES.issuer,
    "verificationMethod": [
        {"id": METHOD, "type": "Multikey", "controller": ADDRESSES.issuer, "publicKeyMultibase": multikey(ISSUER.keys[METHOD])}
    ],
    "assertionMethod": [METHOD],
}  # fmt: skip


@pytest.mark.parametrize(
    ("made", "listed", "status", "sentence"),
    [
        (signed_certificate(), signed_list(), 0, "certificate.json: good."),
        (signed_certificate(), signed_list(PLACE), 2, "certificate.json: the school has revoked it"),
        (signed_certificate() | {"name": "Another"}, signed_list(), 2, "the signature does not fit"),
        ("not a certificate", signed_list(), 2, "not written as our certificates are"),
    ],
)
def test_a_file_is_checked(tmp_path, monkeypatch, capsys, made, listed, status, sentence):
    monkeypatch.chdir(tmp_path)
    for name, content in (("certificate", made), ("issuer", CONTROLLER), ("list", listed)):
        (tmp_path / f"{name}.json").write_text(json.dumps(content), "utf-8")
    asked = ["--issuer", "issuer.json", "--list", "list.json", "--at", "2026-11-26T08:00:00Z"]
    assert run(["certificates", "check", "certificate.json", *asked]) == status
    spoken = capsys.readouterr()
    assert sentence in spoken.out + spoken.err


def test_what_can_not_be_read_is_named(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "deep.json").write_text("[" * 100_000, "utf-8")
    assert run(["certificates", "check", "deep.json", "--issuer", "none.json", "--list", "none.json"]) == 2
    assert "deep.json: can't be read" in capsys.readouterr().err
