"""What goes into a collection comes out of it, in its own school only."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from sqlalchemy.exc import IntegrityError

from app.storage.editions import Edition
from app.storage.enrolments import ShownDocument, TimeGranted
from app.storage.exams import Exam, ExamDecision, KeptWaiver, SentSheet
from app.storage.hosts import HostDecision
from app.storage.people import Person
from tests.app.storage.cast import ADA, BO, ENROLMENT, HOST, PROGRAMME, enrol

DAY = date(2026, 3, 1)
EXAM = Exam("exam", "enrolment", "practical", DAY, 600, "Room 2", '{"a":[]}')


@pytest.fixture
def work(store, now):
    with store.writing("halden") as opened:
        enrol(opened, now)
        yield opened


def test_people_are_found_by_address_id_and_role(work):
    assert (work.people.by_email("BO@halden.example"), work.people.by_id("ada")) == (BO, ADA)
    assert (work.people.with_role("trainee"), work.people.roles("bo")) == ([ADA], {"examiner", "director"})


def test_an_address_belongs_to_one_person_of_a_school(work, now):
    with pytest.raises(IntegrityError):
        work.people.add(Person("cy", "Cy", ADA.email, "hash"), frozenset(), now)


def test_a_sign_in_lasts_until_it_ends(work, now):
    ends = now + timedelta(days=1)
    work.sign_ins.start("t", "ada", now, ends)
    assert work.sign_ins.by_token_hash("t", now).person_id == "ada"
    assert work.sign_ins.by_token_hash("t", ends) is None


def test_signing_out_ends_one_and_signing_out_everywhere_ends_all_of_one_person(work, now):
    for token, person in (("a1", "ada"), ("a2", "ada"), ("a3", "ada"), ("b", "bo")):
        work.sign_ins.start(token, person, now, now + timedelta(days=1))
    alive = lambda: [token for token in ("a1", "a2", "a3", "b") if work.sign_ins.by_token_hash(token, now)]  # noqa: E731
    work.sign_ins.end("a1")
    assert alive() == ["a2", "a3", "b"]
    work.sign_ins.end_all_of("ada")
    assert alive() == ["b"]


def test_failed_attempts_are_counted_from_a_moment_on(work, now):
    for minutes in (20, 10, 0):
        work.sign_ins.note_failed("who", now - timedelta(minutes=minutes))
    work.sign_ins.note_failed("else", now)
    assert work.sign_ins.failed_attempts_since("who", now - timedelta(minutes=10)) == 2


def test_an_edition_keeps_its_text_and_its_number_is_its_own(work, now):
    assert work.editions.by_id("repertoire").documents == {"one.yaml": "title: Å\n"}
    with pytest.raises(IntegrityError):
        work.editions.add(Edition("again", "repertoire", "The repertoire", "1", {}, now))


def test_the_newest_edition_was_published_last(work, now):
    newer = Edition("r2", "repertoire", "The repertoire", "2", {}, now + timedelta(days=1))
    work.editions.add(newer)
    assert work.editions.newest("repertoire") == newer
    assert [edition.number for edition in work.editions.of_kind("repertoire")] == ["1", "2"]


def test_enrolments_are_found_by_id_and_person(work):
    assert (work.enrolments.by_id("enrolment"), work.enrolments.of_person("ada")) == (ENROLMENT, [ENROLMENT])
    assert (work.enrolments.all(), work.enrolments.programmes()) == ([ENROLMENT], [PROGRAMME])


def test_what_a_trainee_has_shown_done_and_been_granted_comes_back(work, now):
    document = ShownDocument("d", "first_aid", DAY, None, "bo", now)
    granted = TimeGranted("g", "leave", DAY, DAY, "Illness", "bo", now)
    work.enrolments.add_document("enrolment", document)
    work.enrolments.add_module("enrolment", "anatomy", DAY, "bo")
    work.enrolments.add_time("enrolment", granted)
    assert work.enrolments.documents("enrolment") == [document]
    assert work.enrolments.modules_done("enrolment") == {"anatomy": DAY}
    assert work.enrolments.time_granted("enrolment") == [granted]


def test_a_hosts_link_opens_until_it_ends(work, now):
    ends = now + timedelta(days=21)
    work.hosts.add_link("t", "host", now, ends)
    assert (work.hosts.by_link("t", now), work.hosts.by_link("t", ends)) == (HOST, None)
    assert work.hosts.link_made_since("host", now)
    assert not work.hosts.link_made_since("host", now + timedelta(seconds=1))


def test_one_version_of_a_session_is_decided_once(work, now):
    decision = HostDecision("s", 1, "host", "signed_off", None, "R", now)
    work.hosts.add_decision(decision)
    assert work.hosts.decisions("s") == [decision]
    with pytest.raises(IntegrityError):
        work.hosts.add_decision(replace(decision, decision="sent_back"))


def test_an_exam_keeps_its_panel_sheets_waivers_and_decisions(work, now):
    sheet = SentSheet("exam", "bo", 1, "{}", "", now)
    waiver = KeptWaiver("w", "exam", "bo", "taught", "Only examiner", "bo", now)
    work.exams.add(EXAM, ("bo",))
    work.exams.add_sheet(sheet)
    work.exams.add_waiver(waiver)
    assert (work.exams.by_id("exam"), work.exams.seats("exam"), work.exams.of_examiner("bo")) == (EXAM, ["bo"], [EXAM])
    assert (work.exams.sheets("exam"), work.exams.waivers("exam")) == ([sheet], [waiver])


def test_a_draft_is_its_examiners_newest(work, now):
    work.exams.add(EXAM, ("bo",))
    for content in ("1", "2"):
        work.exams.put_draft("exam", "bo", content, now)
    assert (work.exams.draft("exam", "bo"), work.exams.draft("exam", "ada")) == ("2", None)


def test_the_last_decision_says_whether_a_practical_is_passed(work, now):
    work.exams.add(EXAM, ("bo",))
    work.exams.add_decision(ExamDecision("exam", 1, "pass", "", "bo", now))
    assert work.exams.passed("enrolment") == {"The practical": DAY}
    work.exams.add_decision(ExamDecision("exam", 2, "fail", "Appeal", "bo", now))
    assert work.exams.passed("enrolment") == {}


def test_a_kept_standing_is_replaced(work):
    for fingerprint in ("1", "2"):
        work.standings.put("enrolment", fingerprint, "{}")
    assert work.standings.get("enrolment").fingerprint == "2"
    assert work.standings.get("nobody") is None


def test_nothing_refers_across_schools(store, now):
    with store.writing("halden") as work:
        enrol(work, now)
        work.commit()
    with store.writing("other") as elsewhere, pytest.raises(IntegrityError):
        elsewhere.hosts.add_link("t", "host", now, now)
