"""The conversation with a mail server: what its replies mean (RFC 5321, 4.2.1), and nothing secret in what is said of it."""

from dataclasses import replace

import pytest

from app.mail.message import message
from app.mail.post import NoPostError, smtp_post
from app.settings import MailServer
from tests.app.mail.server import LOGIN, Desk, free_port, serving
from tests.app.mail.test_message import LETTER


@pytest.fixture
def desk():
    return Desk()


def send(server, *letters):
    with smtp_post(server) as post:
        return [post(message(letter)) for letter in letters]


def to(address, **changes):
    return replace(LETTER, to_address=address, **changes)


def test_each_message_of_a_conversation_has_its_own_outcome(desk):
    desk.replies = {
        "gone@studio.internal": "550 5.1.1 no such user",
        "full@studio.internal": "452 4.2.2 mailbox full",
        "Too odd": "554 5.7.1 not wanted",
        "Later": "451 4.3.0 try again",
    }
    letters = [
        to("ada@studio.internal"), to("gone@studio.internal"), to("full@studio.internal"),
        to("bo@studio.internal", subject="Too odd"), to("bo@studio.internal", subject="Later"), to("bo@studio.internal"),
    ]  # fmt: skip
    with serving(desk) as server:
        outcomes = send(server, *letters)
    assert [one.kind for one in outcomes] == ["taken", "refused", "held", "refused", "held", "taken"]
    assert outcomes[1].said == "550 5.1.1 no such user"
    assert [one["to"] for one in desk.taken] == [
        "Ada Øverland <ada@studio.internal>",
        "Ada Øverland <bo@studio.internal>",
    ]


def test_the_words_arrive_as_they_were_written(desk):
    with serving(desk) as server:
        send(server, LETTER)
    text, _html = desk.taken[0].iter_parts()
    assert text.get_content().replace("\r\n", "\n") == LETTER.words


def test_a_server_that_is_not_there_is_said_once():
    with pytest.raises(NoPostError, match="refused"):
        send(MailServer("127.0.0.1", free_port(), "none", "hours@school.internal"), LETTER)


@pytest.mark.filterwarnings("ignore:Requiring AUTH")  # there is no network between the two
def test_name_and_password_are_used_and_a_wrong_one_is_never_repeated(desk):
    user, password = LOGIN.login.decode(), LOGIN.password.decode()
    with serving(desk, login=True) as server:
        known = replace(server, user=user, password=password)
        assert send(known, LETTER)[0].kind == "taken"
        with pytest.raises(NoPostError) as refused:
            send(replace(known, password="wrong secret"), LETTER)
        with pytest.raises(NoPostError):
            send(server, LETTER)
    assert str(refused.value).startswith("535")
    assert "wrong secret" not in str(refused.value) + repr(known)


def test_a_server_without_tls_is_not_spoken_to_when_tls_is_asked_for(desk):
    """RFC 3207: where STARTTLS is asked for and not offered, nothing goes out in the clear."""
    with serving(desk) as server, pytest.raises(NoPostError):
        send(replace(server, security="starttls"), LETTER)
    assert desk.taken == []
