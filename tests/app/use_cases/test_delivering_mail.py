"""Mail on its way, against a mail server that is not ours: taken, refused, held, given up, and a process that is killed."""

import logging
import subprocess
import sys
from dataclasses import replace
from datetime import timedelta
from functools import partial

import pytest

from app.mail.post import smtp_post
from app.settings import MailServer
from app.storage.mail import OutgoingMail
from app.use_cases.asker import Asker
from app.use_cases.delivering_mail import HOLD, LONGEST, PAUSES, deliver_mail, try_again
from app.wording.languages import ENGLISH
from curriculum.faults import ConflictError, NotFoundError
from tests.app.conftest import HALDEN, OTHER
from tests.app.mail.server import SENDER, Desk, free_port, serving

LINK = "https://hours.school.internal/h/halden.3q2-8hYfT0_2kLmNpQrStUvWxYz0123456789abcde"
# A worker that ends at once, as by `kill -9`, when the server has taken the message and before that is written down.
KILLED = """
import os, sys
from datetime import datetime
from functools import partial
from app.mail import post
from app.settings import MailServer
from app.storage.engine import open_engine
from app.storage.work import Store
from app.use_cases.delivering_mail import deliver_mail
from app.wording.languages import ENGLISH
url, port, moment = sys.argv[1:]
store, send = Store(open_engine(url)), post._send
post._send = lambda *conversation: (send(*conversation), os._exit(9))
server = MailServer("127.0.0.1", int(port), "none", "hours@school.internal")
now = lambda: datetime.fromisoformat(moment)
deliver_mail(store, store.schools()[0], server.sender, partial(post.smtp_post, server), now, ENGLISH)
"""


@pytest.fixture
def desk():
    return Desk()


def write(store, now, *addresses, **changes):
    with store.writing("halden") as work:
        for number, address in enumerate(addresses, start=1):
            mail = OutgoingMail(f"mail-{number}", address, "Ada", "To sign", f"Sign here:\n{LINK}\n", now)
            work.mail.add(replace(mail, **changes))
        work.commit()


def deliver(store, server, moment, school=HALDEN):
    return dict(deliver_mail(store, school, SENDER, partial(smtp_post, server), lambda: moment, ENGLISH))


def state(store, mail_id="mail-1"):
    with store.reading("halden") as work:
        return work.mail.by_id(mail_id)


def test_a_mail_is_sent_once_and_its_private_link_is_not_kept(store, now, desk):
    write(store, now, "ada@studio.internal")
    with serving(desk) as server:
        assert deliver(store, server, now) == {"taken": 1}
        assert deliver(store, server, now + timedelta(days=1)) == {}
    assert LINK in desk.taken[0].get_body(("plain",)).get_content()
    sent = state(store)
    assert (sent.state, sent.tries, sent.sent_at, sent.next_at) == ("sent", 1, now, None)
    assert LINK not in sent.words


def test_a_refusal_is_final_and_no_mail_behind_it_waits(store, now, desk):
    desk.replies["gone@studio.internal"] = "550 5.1.1 no such user"
    write(store, now, "gone@studio.internal", "not an address", "ada@studio.internal")
    with serving(desk) as server:
        assert deliver(store, server, now) == {"refused": 2, "taken": 1}
        assert deliver(store, server, now + timedelta(days=1)) == {}
    assert (state(store).state, state(store).trouble) == ("refused", "550 5.1.1 no such user")


def test_what_the_server_puts_off_is_tried_again_ever_more_slowly_and_given_up_after_days(store, now, desk):
    """RFC 5321, 4.5.4.1: the first tries soon, then seldom; 4 to 5 days at least."""
    desk.replies["ada@studio.internal"] = "451 4.7.1 try again later"
    write(store, now, "ada@studio.internal")
    moment, waits = now, []
    with serving(desk) as server:
        while state(store).state == "waiting":
            assert deliver(store, server, moment) == {"held": 1}
            held = state(store)
            if held.next_at:
                assert deliver(store, server, held.next_at - timedelta(seconds=1)) == {}
                waits.append(held.next_at - moment)
                moment = held.next_at
    assert waits[: len(PAUSES)] == list(PAUSES)
    assert set(waits[len(PAUSES) :]) == {PAUSES[-1]}
    assert held.state == "given_up"
    assert timedelta(0) < moment - now - LONGEST <= PAUSES[-1]


def test_while_the_server_is_down_everything_waits_and_then_goes_out(store, now, desk):
    port = free_port()
    write(store, now, "ada@studio.internal", "bo@studio.internal")
    down = MailServer("127.0.0.1", port, "none", SENDER)
    assert deliver(store, down, now) == {"held": 2}
    assert (state(store).state, state(store).tries) == ("waiting", 1)
    assert "refused" in state(store).trouble
    with serving(desk, port) as server:
        assert deliver(store, server, now + PAUSES[0]) == {"taken": 2}
    assert state(store).trouble == ""


def test_a_server_that_breaks_off_holds_the_rest(store, now, desk):
    desk.replies["ada@studio.internal"] = "421 4.3.2 going down"
    write(store, now, "ada@studio.internal", "bo@studio.internal")
    with serving(desk) as server:
        deliver(store, server, now)
        assert {state(store).state, state(store, "mail-2").state} == {"waiting"}
        desk.replies.clear()
        assert deliver(store, server, now + PAUSES[0]) == {"taken": 2}
    assert len(desk.taken) == 2


def test_a_worker_killed_between_sending_and_writing_it_down_sends_the_same_mail_again(database_urls, store, now, desk):
    """At least once, and shown once: the second has the Message-ID of the first."""
    write(store, now, "ada@studio.internal")
    with serving(desk) as server:
        url = store.engine.url.render_as_string(hide_password=False)
        words = [sys.executable, "-c", KILLED, url, str(server.port), now.isoformat()]
        assert subprocess.run(words, check=False).returncode == 9
        taken = state(store)
        assert (taken.state, taken.tries, taken.next_at) == ("waiting", 1, now + HOLD)
        assert deliver(store, server, now + HOLD - timedelta(seconds=1)) == {}, "another may still be sending it"
        assert deliver(store, server, now + HOLD) == {"taken": 1}
    assert len(desk.taken) == 2
    assert len({one["message-id"] for one in desk.taken}) == 1
    assert state(store).state == "sent"


def test_two_workers_do_not_send_the_same_mail(store, now, desk):
    """The second reads what is due, and the first takes it before the second does."""
    write(store, now, "ada@studio.internal")
    with serving(desk) as server:

        def late():
            assert deliver(store, server, now) == {"taken": 1}
            return smtp_post(server)

        found = deliver_mail(store, HALDEN, SENDER, late, lambda: now, ENGLISH)
    assert dict(found) == {"taken by another worker": 1}
    assert len(desk.taken) == 1


def test_nothing_is_sent_to_domains_for_examples_nor_what_lay_for_days(store, now):
    def nobody():
        raise AssertionError("the server was asked")

    write(store, now, "ada@halden-row.example")
    assert dict(deliver_mail(store, HALDEN, SENDER, nobody, lambda: now, ENGLISH)) == {"refused": 1}
    with store.writing("halden") as work:
        work.mail.add(OutgoingMail("old", "ada@studio.internal", "Ada", "To sign", "x", now - LONGEST - HOLD))
        work.commit()
    assert dict(deliver_mail(store, HALDEN, SENDER, nobody, lambda: now, ENGLISH)) == {"given_up": 1}


def test_what_did_not_arrive_is_sent_again_as_the_same_mail(store, now, desk):
    desk.replies["ada@studio.internal"] = "550 5.1.1 no such user"
    write(store, now, "ada@studio.internal")
    asker = Asker(HALDEN, "dora", "Dora", now)
    with pytest.raises(ConflictError):
        try_again(store, asker, "mail-1")
    with serving(desk) as server:
        deliver(store, server, now)
        desk.replies.clear()
        try_again(store, asker, "mail-1")
        assert deliver(store, server, now) == {"taken": 1}
    assert LINK in desk.taken[0].get_body(("plain",)).get_content()


def test_mail_of_another_school_is_not_touched(store, now, desk):
    write(store, now, "ada@studio.internal")
    with pytest.raises(NotFoundError):
        try_again(store, Asker(OTHER, "dora", "Dora", now), "mail-1")
    with serving(desk) as server:
        assert deliver(store, server, now, OTHER) == {}


def test_no_log_holds_a_link_an_address_or_a_word_of_the_mail(store, now, desk, caplog):
    caplog.set_level(logging.DEBUG)
    desk.replies["bo@studio.internal"] = f"550 not {LINK}"
    write(store, now, "ada@studio.internal", "bo@studio.internal")
    with serving(desk) as server:
        deliver(store, server, now)
    write_down = MailServer("127.0.0.1", free_port(), "none", SENDER)
    deliver(store, write_down, now + timedelta(days=1))
    told = "\n".join(
        record.getMessage() for record in caplog.records if record.name.startswith(("throughline", "huey"))
    )
    assert "mail-1" in told
    assert not [word for word in (LINK.rpartition(".")[2], "studio.internal", "Sign here") if word in told]
    assert LINK not in state(store, "mail-2").trouble
