"""One transaction in one school."""

import pytest

from app.storage.mail import OutgoingMail
from app.storage.people import Person
from app.storage.work import NestedWorkError, School

ADA = Person("ada", "Ada Vik", "ada@halden.example", "hash")


def add_ada(store, school, now):
    with store.writing(school) as work:
        work.people.add(ADA, frozenset({"trainee"}), now)
        work.commit()


def test_what_is_committed_is_kept(store, now):
    add_ada(store, "halden", now)
    with store.reading("halden") as work:
        assert work.people.by_email("ADA@halden.example") == ADA


def test_what_is_not_committed_is_undone(store, now):
    with store.writing("halden") as work:
        work.people.add(ADA, frozenset(), now)
    with store.reading("halden") as work:
        assert work.people.by_id("ada") is None


def test_a_failure_undoes_everything_and_lets_the_next_writer_in(store, now):
    try:
        with store.writing("halden") as work:
            work.people.add(ADA, frozenset(), now)
            raise RuntimeError
    except RuntimeError:
        add_ada(store, "halden", now)
    with store.reading("halden") as work:
        assert work.people.roles("ada") == {"trainee"}


def test_two_schools_do_not_see_each_other(store, now):
    add_ada(store, "halden", now)
    with store.reading("other") as work:
        assert (work.people.by_id("ada"), work.people.names(), work.people.roles("ada")) == (None, {}, frozenset())


def test_two_schools_may_use_the_same_id_and_address(store, now):
    add_ada(store, "halden", now)
    add_ada(store, "other", now)
    with store.reading("other") as work:
        assert work.people.names() == {"ada": "Ada Vik"}


def test_schools_are_listed_by_their_short_names(store):
    assert [school.slug for school in store.schools()] == ["halden-row", "other-school"]


def test_a_reader_sees_one_moment(store, now):
    with store.reading("halden") as reader:
        assert reader.people.names() == {}
        add_ada(store, "halden", now)
        assert reader.people.names() == {}


def test_mail_comes_back_newest_first_with_its_time_zone(store, now):
    mail = OutgoingMail("m", "host@site.example", "Host", "Hours", "Words", now)
    with store.writing("halden") as work:
        work.mail.add(mail)
        assert work.mail.newest(5) == [mail]


@pytest.mark.parametrize("school", ["halden", "other"])
def test_writing_inside_writing_is_refused_at_once_and_the_outer_one_goes_on(store, now, school):
    with store.writing("halden") as work:
        with pytest.raises(NestedWorkError, match="inside writing"), store.writing(school):
            pytest.fail("nobody gets here")
        work.people.add(ADA, frozenset(), now)
        work.commit()
    with store.writing("halden") as work:
        assert work.people.by_id("ada") == ADA


def test_a_school_is_not_added_inside_writing(store):
    with store.writing("halden"), pytest.raises(NestedWorkError):
        store.add_school(School("third", "third", "Third", "Europe/Oslo"))
    assert len(store.schools()) == 2


def test_reading_inside_writing_sees_what_was_committed_before(store, now):
    with store.writing("halden") as work:
        work.people.add(ADA, frozenset(), now)
        work.session.flush()
        with store.reading("halden") as reader:
            assert reader.people.by_id("ada") is None
        work.commit()
