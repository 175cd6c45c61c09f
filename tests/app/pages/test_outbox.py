"""The outbox: each mail once, with what became of it; links only where nothing is sent."""

from dataclasses import replace

from app.settings import MailServer
from app.storage.mail import OutgoingMail
from app.use_cases.demo import SCHOOL
from tests.app.pages.conftest import NOW, Town

LINK = "http://127.0.0.1:8000/h/halden-row.3q2-8hYfT0_2kLmNpQrStUvWxYz0123456789abcde"
MAIL = OutgoingMail("mail", "host-1@halden-row.example", "Dagny Holm", "Hours <to> sign", f"Sign here:\n{LINK}\n", NOW)


def keep(town: Town, **changes: object) -> None:
    with town.store.writing(SCHOOL.id) as work:
        email = work.hosts.by_id("host-1").email
        work.mail.add(replace(MAIL, to_address=email, **changes))
        work.commit()


def sending(town: Town) -> None:
    server = MailServer("127.0.0.1", 25, "none", "hours@school.internal")
    town.app.state.settings = replace(town.app.state.settings, mail_server=server)


def test_where_nothing_is_sent_each_mail_is_shown_once_as_both_and_can_be_followed(town: Town) -> None:
    keep(town)
    page = town.as_role("director").get("/outbox").text
    assert page.count("Hours &lt;to&gt; sign") == 1
    assert f'<a href="{LINK}" rel="noreferrer">Sign here</a>' in page
    assert f"<pre>Sign here:\n{LINK}" in page
    assert "shown here only" in page


def test_where_mail_is_sent_links_are_veiled_and_what_did_not_arrive_says_what_to_do(town: Town, form_token) -> None:  # noqa: ANN001
    keep(town, state="refused", trouble="550 5.1.1 no such user")
    sending(town)
    asked = []
    town.app.state.ask = lambda *what: asked.append(what)
    director = town.as_role("director")
    page = director.get("/outbox").text
    assert page.count("Hours &lt;to&gt; sign") == 1
    assert "Did not arrive" in page
    assert "550 5.1.1 no such user" in page
    assert 'href="/hosts/host-1"' in page
    assert LINK.rpartition(".")[2] not in page
    token = form_token(director, "/outbox")
    assert director.post("/outbox/mail/again", data={"form_token": token}).status_code == 303
    assert asked == [("mail", SCHOOL.id, "")]
    assert director.post("/outbox/mail/again", data={"form_token": token}).status_code == 409
    assert "on its way" in director.get("/outbox").text


def test_held_mail_says_so_at_the_top(town: Town) -> None:
    keep(town, next_at=NOW, trouble="[Errno 111] Connection refused", tries=1)
    sending(town)
    page = town.as_role("director").get("/outbox").text
    assert "Mail is held, and nothing is lost. The mail server said: [Errno 111] Connection refused" in page
