"""A private link that has ended: the host has a new one mailed, and nobody learns whether a link ever was one."""

import re
from datetime import timedelta

from app.use_cases.demo import SCHOOL
from app.web.visit import token_hash
from tests.app.pages.conftest import NOW, Town

ENDED = "/h/halden-row.ended-weeks-ago"


def mails(town: Town) -> list:
    with town.store.reading(SCHOOL.id) as work:
        return work.mail.newest(50)


def test_an_ended_link_is_renewed_once_an_hour_to_the_registered_address_alone(town: Town, form_token) -> None:  # noqa: ANN001
    with town.store.writing(SCHOOL.id) as work:
        work.hosts.add_link(token_hash("ended-weeks-ago"), "host-1", NOW - timedelta(days=60), NOW - timedelta(days=39))
        registered = work.hosts.by_id("host-1").email
        work.commit()
    host, before, answers = town.visitor(), len(mails(town)), []
    assert "Nothing is lost" in host.get(ENDED).text
    for address in (ENDED, ENDED, "/h/halden-row.never-was-one", "/h/no-school.never-was-one"):
        data = {"form_token": form_token(host, address), "email": "somebody@else.example"}
        answer = host.post(f"{address}/renew", data=data, headers={"host": "evil.example", "origin": "null"})
        assert answer.status_code == 403, "a form from elsewhere is not taken"
        answers.append(host.post(f"{address}/renew", data=data))
    assert {answer.status_code for answer in answers} == {200}
    assert len({answer.text for answer in answers[:3]}) == 1, "the same words whether there ever was a link"
    sent = mails(town)
    assert (len(sent) - before, sent[0].to_address) == (1, registered)
    new = re.search(r"http://127\.0\.0\.1:8000(/h/\S+)", sent[0].words)[1]
    assert "Hours to sign" in host.get(new).text
