"""`throughline hours verify`: what it says of a record, a receipt and a root, and its exit status."""

import pytest
from sqlalchemy import text

from app.cli import run
from app.files.receipts import write_receipt, write_root
from app.queries.proof import current_root, receipt_of
from app.storage.hosts import HostDecision
from assessments.hours.recorded import version_body
from assessments.hours.session import Session
from tests.app.storage.cast import enrol


@pytest.fixture
def files(store, now, tmp_path, monkeypatch):
    """A record with a signature, its receipt and its root in files."""
    monkeypatch.setenv("THROUGHLINE_DATABASE", store.engine.url.render_as_string(hide_password=False))
    with store.writing("halden") as work:
        enrol(work, now)
        day = Session("one", now.date(), 540, 600, (), 0, "host", proof="signature", state="waiting")
        work.ledger.add_version(day, "enrolment", None, "", "ada", now)
        work.record.append("session-logged", "one", "ada", now, version_body(day, "enrolment"))
        work.hosts.add_decision(HostDecision("one", 1, "host", "signed_off", None, "R1", now))
        work.ledger.set_state("one", "signed_off", now)
        body = {"session": "one", "version": 1, "host": "host", "receipt": "R1", "reason": ""}
        work.record.append("session-signed", "one", "host:host", now, body)
        receipt, root = receipt_of(work, "one", 1), current_root(work)
        work.commit()
    (tmp_path / "receipt.json").write_text(write_receipt(receipt))
    (tmp_path / "root.txt").write_text(f"The root of the day:\n{write_root(root)}\n")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_what_holds_is_said_with_the_root(files, capsys):
    assert run(["hours", "verify", "receipt.json", "root.txt"]) == 0
    said = capsys.readouterr().out
    assert "Halden Row: holds, 2 events." in said
    assert (files / "root.txt").read_text().splitlines()[1] in said
    assert said.count("holds against the record") == 2


def test_a_changed_record_is_said_with_the_event_and_ends_with_1(files, store, capsys):
    with store.engine.begin() as connection:
        if connection.dialect.name == "sqlite":
            connection.execute(text("drop trigger event_keeps_update"))
        else:
            connection.execute(text("alter table event disable trigger user"))
        connection.execute(text("update event set actor = 'q' where number = 2"))
    assert run(["hours", "verify", "receipt.json", "root.txt"]) == 1
    said = capsys.readouterr().out
    assert "first at event 2" in said
    assert said.count("does not hold") == 3


def test_a_receipt_alone_needs_no_database(files, capsys, monkeypatch):
    monkeypatch.setenv("THROUGHLINE_DATABASE", "sqlite:////nowhere/at/all.db")
    assert run(["hours", "verify", "--alone", "receipt.json"]) == 0
    changed = (files / "receipt.json").read_text().replace("session-signed", "session-signee")
    (files / "receipt.json").write_text(changed)
    assert run(["hours", "verify", "--alone", "receipt.json"]) == 1
    assert "changed after it was written" in capsys.readouterr().out


def test_files_that_are_no_receipts_are_named_all_at_once(files, capsys):
    (files / "empty.txt").write_text("")
    (files / "bytes.txt").write_bytes(b"\xff\xfe")
    assert run(["hours", "verify", "empty.txt", "bytes.txt", "none.txt"]) == 2
    said = capsys.readouterr().err
    assert all(name in said for name in ("empty.txt", "bytes.txt", "none.txt"))
