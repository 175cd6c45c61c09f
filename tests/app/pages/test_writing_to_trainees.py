"""The cohort by how they stand, and one mail to each of those who stand alike, however often the button is pressed."""

from app.use_cases.demo import SCHOOL
from tests.app.pages.conftest import OTHER, Town


def test_a_mail_goes_to_each_once(town: Town, form_token) -> None:  # noqa: ANN001
    director = town.as_role("director")
    page = director.get("/cohort").text
    assert "/cohort?of=" in page
    assert "Nobody stands so today." in director.get("/cohort?of=over").text
    token = {"form_token": form_token(director, "/cohort/message")}
    form = token | {"id": "letter", "subject": "Workshop\r\nBcc: a@b.example", "words": "The springs workshop moved."}
    refused = director.post("/cohort/message", data=form | {"subject": "", "words": "x" * 9000, "to": ["nobody"]})
    assert refused.status_code == 422
    for sentence in ("say what it is about", "at most 8,000 characters", "tick at least one trainee"):
        assert sentence in refused.text
    sent = form | {"to": ["enrolment-1", "enrolment-2", "enrolment-1"]}
    assert [director.post("/cohort/message", data=sent).status_code for _ in range(2)] == [303, 303]
    with town.store.reading(SCHOOL.id) as work:
        mails = [one for one in work.mail.newest(50) if one.subject.startswith("Workshop")]
        assert sorted(one.to_address for one in mails) == ["trainee2@halden-row.example", "trainee@halden-row.example"]
        assert {one.subject for one in mails} == {"Workshop Bcc: a@b.example"}
        assert len(work.record.of_subject("letter")) == 1
    with town.store.reading(OTHER.id) as work:
        assert not [one for one in work.mail.newest(50) if one.subject.startswith("Workshop")]
