"""One transaction in one school."""

from app.storage.mail import OutgoingMail
from app.storage.people import Person

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
