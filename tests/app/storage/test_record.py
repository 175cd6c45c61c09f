"""The record: numbers without gaps, canonical bytes, words that can be erased."""

import hashlib
import hmac
from threading import Thread

import pytest

from app.storage.canonical import canonical


def append(store, now, school="halden", body=None):
    with store.writing(school) as work:
        number = work.record.append("k", "s", "p", now, body or {"b": 1, "a": "å"})
        work.commit()
    return number


def test_events_are_numbered_from_one(store, now):
    assert [append(store, now), append(store, now)] == [1, 2]


def test_each_school_counts_for_itself(store, now):
    append(store, now)
    assert append(store, now, "other") == 1


def test_a_number_that_was_not_kept_is_taken_again(store, now):
    with store.writing("halden") as work:
        work.record.append("k", "s", "p", now, {})
    assert append(store, now) == 1


def test_two_writers_at_once_leave_no_gap_and_share_no_number(store, now):
    taken = []
    writers = [Thread(target=lambda: taken.extend(append(store, now) for _ in range(15))) for _ in range(2)]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join()
    assert sorted(taken) == list(range(1, 31))


def test_an_event_comes_back_as_it_was_written(store, now):
    append(store, now)
    with store.reading("halden") as work:
        (event,) = work.record.events()
        assert (event.number, event.at, event.body) == (1, now, '{"a":"å","b":1}'.encode())
        assert work.record.of_subject("s") == (event,)
        assert (work.record.size(), work.record.events(after=1)) == (1, ())


def test_events_can_be_read_in_portions(store, now):
    for _ in range(3):
        append(store, now)
    with store.reading("halden") as work:
        assert [event.number for event in work.record.events(after=1, most=1)] == [2]


def test_only_the_salted_hash_of_words_is_for_the_record(store):
    with store.writing("halden") as work:
        kept = work.record.keep_words("w", "ada", "Sår skulder", b"salt")
        salt = hmac.digest(b"salt", b"w", "sha256")
        assert kept == hashlib.sha256(salt + "Sår skulder".encode()).hexdigest()
        assert work.record.words("w") == "Sår skulder"
        assert work.record.hashes_of_words() == {"w": kept}


def test_a_person_has_one_salt_and_the_same_words_twice_hash_differently(store):
    with store.writing("halden") as work:
        first, second = (work.record.keep_words(one, "ada", "words", one.encode()) for one in "ab")
        assert first != second
        assert second == hashlib.sha256(hmac.digest(b"a", b"b", "sha256") + b"words").hexdigest()


def test_words_of_nobody_have_a_salt_of_their_own(store):
    with store.writing("halden") as work:
        assert work.record.keep_words("w", None, "words", b"salt") == hashlib.sha256(b"salt" + b"words").hexdigest()


def test_erased_words_are_gone_and_nobody_elses(store):
    with store.writing("halden") as work:
        for words_id, person in (("a", "ada"), ("b", "bo")):
            work.record.keep_words(words_id, person, "words", b"salt")
        assert (work.record.erase_words("ada"), work.record.erase_words("ada")) == (1, 0)
        assert (work.record.words("a"), work.record.words("b")) == (None, "words")


def test_a_school_erases_only_its_own(store):
    with store.writing("halden") as work:
        work.record.keep_words("a", "ada", "words", b"salt")
        work.commit()
    with store.writing("other") as work:
        assert work.record.erase_words("ada") == 0


# RFC 8785 section 3.2.3, the keys of the sorting example, in the order it gives.
RFC_8785_ORDER = ["\r", "1", "\u0080", "\u00f6", "\u20ac", "\U0001f600", "\ufb33"]


def test_keys_are_in_the_order_of_rfc_8785():
    found = canonical(dict.fromkeys(reversed(RFC_8785_ORDER), 1)).decode()
    assert [found.index(key) for key in RFC_8785_ORDER[1:]] == sorted(found.index(key) for key in RFC_8785_ORDER[1:])
    assert found.startswith('{"\\r":1')


# RFC 8785 section 3.2.2.2: the string of the example, and its form when serialized.
def test_text_is_escaped_as_in_rfc_8785():
    assert canonical('\u20ac$\u000f\nA\'B"\\\\"/').decode() == '"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"'


@pytest.mark.parametrize("value", [1.5, None, {1: "a"}, b"x", {"a": [0.0]}])
def test_what_has_no_canonical_form_here_is_refused(value):
    with pytest.raises(TypeError):
        canonical(value)


@pytest.mark.parametrize("value", [2**53, -(2**53)])
def test_numbers_that_are_not_exact_everywhere_are_refused(value):
    with pytest.raises(ValueError, match="too large"):
        canonical(value)
