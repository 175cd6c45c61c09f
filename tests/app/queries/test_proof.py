"""Any edit of any stored byte of a past event is found, against the record itself and against what is held outside."""

from dataclasses import replace
from datetime import date

import pytest
from sqlalchemy import text

from app.files.receipts import read_held, write_receipt, write_root
from app.queries.proof import audit, current_root, receipt_of
from app.storage.hosts import HostDecision
from assessments.hours.recorded import version_body
from assessments.hours.session import Part, Session
from curriculum.faults import RefusedError
from tests.app.storage.cast import enrol

PART = Part(60, "observation", "mat", "", "live", "C1", {"note": "Sår"})
SESSION = Session("one", date(2026, 3, 1), 540, 600, (PART,), 0, "host", "Studio", "private", "signature", 1, "waiting")


# SQLite's file is what people can edit by hand, and it lets any bytes and types in; PostgreSQL refuses most of them.
ON_SQLITE = pytest.mark.parametrize("database_urls", ["sqlite"], indirect=True, scope="session")


@pytest.fixture
def school(store, now):
    """Eleven events; the fourth puts a session down, the ninth is the host's signature under it."""
    with store.writing("halden") as work:
        enrol(work, now)
        for number in range(1, 12):
            if number == 4:
                work.ledger.add_version(SESSION, "enrolment", None, "", "ada", now)
                work.record.append("session-logged", "one", "ada", now, version_body(SESSION, "enrolment"))
            elif number == 9:
                work.hosts.add_decision(HostDecision("one", 1, "host", "signed_off", None, "R1", now))
                work.ledger.set_state("one", "signed_off", now)
                body = {"session": "one", "version": 1, "host": "host", "receipt": "R1", "reason": ""}
                work.record.append("session-signed", "one", "host:host", now, body)
            else:
                work.record.append("k", "s", "p", now, {"n": number})
        work.commit()
    return store


def held(store):
    with store.reading("halden") as work:
        return receipt_of(work, "one", 1), current_root(work)


def audited(store):
    with store.reading("halden") as work:
        return audit(work)


def codes(faults):
    return {fault.code for fault in faults}


def unguard(connection, *tables):
    for table in tables or ("event", "record_node"):
        if connection.dialect.name == "sqlite":
            for word in ("update", "delete"):
                connection.execute(text(f"drop trigger {table}_keeps_{word}"))
        else:
            connection.execute(text(f"alter table {table} disable trigger user"))


def test_a_record_nobody_touched_holds_against_its_receipts_and_roots(school):
    receipt, root = held(school)
    assert audited(school).faults == ()
    for one in (receipt, root, read_held(write_receipt(receipt)), read_held(f"Root:\n\n{write_root(root)}\n")):
        assert audited(school).against(one) == ()
    assert receipt.is_whole
    assert [entry.event.number for entry in receipt.entries] == [4, 9]


def test_receipts_and_roots_hold_when_the_record_grew(school, now):
    before = held(school)
    with school.writing("halden") as work:
        work.record.append("k", "s", "p", now, {})
        work.commit()
    assert [audited(school).against(one) for one in before] == [(), ()]


def edits(connection):
    """Every bit of every byte of every column of one event, as the database stores it, one statement each."""
    columns = {"kind": "text", "subject": "text", "actor": "text", "at": "text", "body": "blob"}
    for column, kind in columns.items():
        stored = connection.scalar(text(f"select cast({column} as blob) from event where number = 4"))
        for place in range(len(stored)):
            for bit in range(8):
                changed = bytearray(stored)
                changed[place] ^= 1 << bit
                yield column, f"cast(x'{changed.hex()}' as {kind})"


@ON_SQLITE
def test_every_edit_of_every_bit_of_a_past_event_is_found_whatever_is_done_to_the_tree(school):
    receipt, root = held(school)
    tried = 0
    with school.reading("halden") as work:
        connection = work.session.connection()
        unguard(connection)
        for column, value in edits(connection):
            inside = connection.begin_nested()
            connection.execute(text(f"update event set {column} = {value} where number = 4"))
            found = audit(work)
            assert found.faults, (column, value)
            assert found.against(receipt), (column, value)
            assert found.against(root), (column, value)
            inside.rollback()
            tried += 1
        assert audit(work).faults == ()
    assert tried > 1000


@ON_SQLITE
@pytest.mark.parametrize(
    "edit",
    [
        "update event set number = 12 where number = 4",
        "update event set number = -4 where number = 4",
        "delete from event where number = 4",
        "delete from event where number = 11",
        "delete from event",
        "update event set school_id = 'other' where number = 11",
        "update event set body = cast(body as text) where number = 4",
        "update event set kind = cast(kind as blob) where number = 4",
        "update event set at = replace(at, ' ', 'T') where number = 4",
        "update event set at = substr(at, 1, 19) where number = 4",
        "update event set number = 1000 - number",
        "insert into event select school_id, 12, kind, subject, actor, at, body from event where number = 4",
    ],
)
@pytest.mark.parametrize("covered", [False, True], ids=["", "and the tree made to fit"])
def test_every_other_way_to_rewrite_the_past_is_found(school, edit, covered, now):
    receipt, root = held(school)
    with school.reading("halden") as work:
        connection = work.session.connection()
        unguard(connection)
        connection.execute(text(edit))
        found = audit(work)
        appended = edit.startswith("insert")
        assert found.faults
        assert appended or found.against(root)
        assert appended or "number = 11" in edit or found.against(receipt)
        if covered:
            cover(work, connection, found)
            again = audit(work)
            assert appended or again.against(root), "the root outside is what can't be rewritten"


def cover(work, connection, found):
    """Whoever can edit the file can also write the tree and the count anew."""
    connection.execute(text("delete from record_node"))
    for level, nodes in enumerate(found.levels):
        for place, hash in enumerate(nodes):
            values = {"level": level, "place": place, "hash": hash}
            connection.execute(text("insert into record_node values ('halden', :level, :place, :hash)"), values)
    connection.execute(text("update event_count set last_number = :size"), {"size": found.size})
    work.session.expire_all()


def test_a_tree_that_was_edited_is_found(school):
    with school.reading("halden") as work:
        connection = work.session.connection()
        unguard(connection)
        connection.execute(text("update record_node set hash = hash where level = 1"))
        assert audit(work).faults == ()
        connection.execute(text("delete from record_node where level = 1 and place = 2"))
        (fault,) = audit(work).faults
    assert (fault.code, fault.values) == ("changed", {"number": 5})


def test_a_changed_receipt_is_known_from_itself(school):
    receipt, root = held(school)
    first = receipt.entries[0]
    for changed in (
        replace(receipt, entries=(replace(first, event=replace(first.event, body=first.event.body + b" ")),)),
        replace(receipt, entries=(replace(first, path=first.path[:-1]),)),
        replace(receipt, entries=()),
        replace(receipt, root=replace(root, school="other")),
        replace(receipt, root=replace(root, size=10)),
    ):
        assert not changed.is_whole
        assert codes(audited(school).against(changed)) == {"not-whole"}


def test_a_root_of_another_school_or_of_more_than_there_is_does_not_hold(school):
    _, root = held(school)
    assert codes(audited(school).against(replace(root, size=12))) == {"shorter"}
    assert codes(audited(school).against(replace(root, school="other"))) == {"other-school"}


@pytest.mark.parametrize(
    "typed",
    ["", "hello", "{", '{"school": 1}', '{"school": "a", "size": true}', "[" * 90_000, "{" * 90_000, "é" * 300_000],
)
def test_what_is_no_receipt_is_refused_with_a_sentence(typed):
    with pytest.raises(RefusedError):
        read_held(typed)


@pytest.mark.parametrize(
    ("edit", "code"),
    [
        ("update session_version set end_minute = 660", "other-version"),
        ("update session_version set day = '2026-02-01'", "other-version"),
        ("update session_version set evidence = 'x'", "other-version"),
        ("update session_part set minutes = 120", "other-version"),
        ("update session_part set more = '{}'", "other-version"),
        ("update session_part set client = 'C2'", "other-version"),
        ("delete from session_part", "other-version"),
        ("insert into session_version (school_id, session_id, version, enrolment_id, day, start_minute, end_minute,"
         " break_minutes, site, setting, proof, evidence, logged_by, logged_at) select school_id, session_id, 2,"
         " enrolment_id, day, 0, 900, 0, '', '', proof, '', logged_by, logged_at from session_version", "unrecorded"),
        ("update session_now set state = 'accepted'", "other-state"),
        ("delete from session_now", "other-state"),
        ("update host_decision set receipt = 'R2'", "other-decision"),
        ("delete from host_decision", "other-decision"),
    ],
)  # fmt: skip
def test_what_hours_are_computed_from_is_held_against_the_record(school, edit, code):
    """Who leaves the events alone and edits the tables beside them is found too."""
    with school.reading("halden") as work:
        connection = work.session.connection()
        unguard(connection, "session_version", "session_part", "host_decision")
        assert audit(work).faults == ()
        connection.execute(text(edit))
        work.session.expire_all()
        assert codes(audit(work).faults) == {code}
