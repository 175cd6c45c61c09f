"""A supervising teacher's feedback reaches the trainee and the coverage; of other lessons and hosts nothing is there."""

from app.queries.proof import audit
from app.use_cases.demo import SCHOOL
from app.web.visit import token_hash
from tests.app.pages.conftest import NOW, Town

LINK = "/h/halden-row.a-link-that-works"
SAID = {
    "id": "the-feedback", "strand": "cue", "level": "alone", "exercise": "chair-swan", "worked": "It <breathed>.",
    "better": "Say less.", "next_step": "One word a phase.",
}  # fmt: skip


def test_feedback_is_given_once_read_by_the_trainee_and_is_evidence(town: Town, form_token) -> None:  # noqa: ANN001
    with town.store.writing(SCHOOL.id) as work:
        log = work.ledger.of_enrolment("enrolment-1")
        lesson = next(
            one for one in log if one.parts[0].activity == "supervised_teaching" and one.state == "signed_off"
        )
        watched = next(one for one in log if one.host == lesson.host and one.parts[0].activity == "observation")
        foreign = next(one for one in log if one.host and one.host != lesson.host)
        work.hosts.add_link(token_hash("a-link-that-works"), lesson.host, NOW, NOW.replace(year=2027))
        work.commit()
    host, page = town.visitor(), f"{LINK}/sessions/{lesson.id}/feedback"
    for other in (watched, foreign):
        assert host.get(f"{LINK}/sessions/{other.id}/feedback").status_code == 404
    data = SAID | {"form_token": form_token(host, page)}
    refused = host.post(page, data=data | {"worked": "", "strand": "taste"})
    assert refused.status_code == 422
    assert "say in a sentence what worked" in refused.text
    assert "Say less." in refused.text
    assert [host.post(page, data=data).status_code for _ in range(2)] == [303, 303]
    trainee = town.as_role("trainee")
    assert trainee.get(f"/hours/sessions/{lesson.id}").text.count("It &lt;breathed&gt;. Say less.") == 1
    assert "Next: One word a phase." in town.as_role("director").get("/trainees/enrolment-1/coverage").text
    assert "tried under supervision" in trainee.get("/repertoire/exercises/chair-swan").text
    with town.store.reading(SCHOOL.id) as work:
        assert audit(work).faults == ()
