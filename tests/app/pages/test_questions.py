"""A director sees what looks odd in the log as a question, and closes it with the answer."""

import re
from dataclasses import replace
from datetime import timedelta

from tests.app.pages.conftest import NOW, Town

HERE = "/cohort/questions"


def test_a_question_is_closed_once_with_its_answer_on_record(town: Town, form_token) -> None:  # noqa: ANN001
    _log_two_months_late(town)
    client = town.as_role("director")
    page = client.get(HERE).text
    assert "more than four weeks after the fact" in page
    question = re.search(r'name="question" value="(\w+)"', page[page.index("four weeks after") :]).group(1)
    data = {"form_token": form_token(client, HERE), "question": question, f"answer-{question}": " "}
    refused = client.post(HERE, data=data)
    assert refused.status_code == 422
    assert "say what was answered" in refused.text
    data[f"answer-{question}"] = "From the paper diary, which I have seen <b>"
    assert client.post(HERE, data=data).status_code == 303
    assert question not in client.get(HERE).text
    assert client.post(HERE, data=data).status_code == 404
    with town.store.reading("halden-row") as work:
        (event,) = work.record.of_subject(question)
    assert event.content()["answer"] == data[f"answer-{question}"]


def _log_two_months_late(town: Town) -> None:
    with town.store.writing("halden-row") as work:
        like = work.ledger.of_enrolment("enrolment-1")[0]
        late = replace(like, id="late", day=NOW.date() - timedelta(days=60), version=1)
        work.ledger.add_version(late, "enrolment-1", None, "", "trainee-1", NOW)
        work.commit()
