"""Signed on the spot: the code names one session, the host's PIN signs it, and the host can take it back."""

import re
from datetime import timedelta

import pytest

from app.queries.proof import audit
from app.use_cases import signing_on_the_spot
from app.use_cases.demo import SCHOOL
from app.use_cases.keeping_pins import pin_faults
from app.web.visit import token_hash
from tests.app.pages.conftest import NOW, Town

LINK, PIN, SPOT = "/h/halden-row.a-link-that-works", "739104", "/spot/halden-row"
ID = "signed-on-the-spot"
LOGGED = {
    "id": ID, "version": "0", "day": "2026-11-25", "start": "06:00", "end": "07:00", "host": "host-1",
    "activity-0": "observation", "apparatus-0": "reformer",
}  # fmt: skip


class Scene:
    """A session that waits, its trainee, and its host, who has a link and perhaps a PIN."""

    def __init__(self, town: Town, form_token, pin: str = PIN) -> None:  # noqa: ANN001
        self.town, self.token = town, form_token
        self.trainee, self.host = town.as_role("trainee"), town.visitor()
        answer = self.trainee.post("/today", data=LOGGED | {"form_token": form_token(self.trainee, "/today")})
        assert answer.status_code == 303, answer.text
        with town.store.writing(SCHOOL.id) as work:
            work.hosts.add_link(token_hash("a-link-that-works"), "host-1", NOW, NOW.replace(year=2027))
            work.commit()
        if pin:
            data = {"form_token": form_token(self.host, f"{LINK}/pin"), "pin": pin, "again": pin}
            assert self.host.post(f"{LINK}/pin", data=data).status_code == 303

    def code(self) -> str:
        data = {"form_token": self.token(self.trainee, f"/hours/sessions/{ID}")}
        page = self.trainee.post(f"/hours/sessions/{ID}/code", data=data)
        assert page.status_code == 200, page.text
        return re.search(r'class="number"><code>([A-Z2-9]{4}-[A-Z2-9]{4})<', page.text)[1]

    def sign(self, code: str, pin: str = PIN):  # noqa: ANN201
        return self.town.visitor().post(SPOT, data={"code": code, "pin": pin})

    def state(self) -> tuple[str, int]:
        with self.town.store.reading(SCHOOL.id) as work:
            assert audit(work).faults == ()
            now = work.ledger.now(ID)
            return now.state, now.version

    def mail(self, words: str) -> str:
        with self.town.store.reading(SCHOOL.id) as work:
            own = (one.words for one in work.mail.newest(30) if one.to_address == "host1@halden-row.example")
            return next(one for one in own if words in one)


@pytest.fixture
def scene(town: Town, form_token) -> Scene:  # noqa: ANN001
    return Scene(town, form_token)


def test_the_code_shows_and_the_pin_signs_once_and_the_host_can_take_it_back(scene: Scene) -> None:
    code, host = scene.code(), scene.host
    assert "Ida Marlowe" in host.get(f"{SPOT}?code={code.lower()}").text
    assert scene.state() == ("waiting", 1), "by itself the code proves nothing"
    signed = scene.sign(code)
    number = re.search(r'class="number">([0-9A-F]{16})<', signed.text)[1]
    assert scene.state() == ("signed_off", 1)
    assert scene.sign(code).status_code == 422, "once"
    path = re.search(r"http://127\.0\.0\.1:8000(/h/\S+/not-me)", scene.mail("With your PIN you signed"))[1]
    assert number in path
    data = {"form_token": scene.token(host, path), "not-me-words": "I was in the mountains."}
    assert host.post(path, data=data).status_code == 303
    assert scene.state() == ("sent_back", 2)
    assert host.post(path, data=data).status_code == 409
    assert "I was in the mountains." in scene.town.as_role("director").get("/worries").text
    assert "Signature taken back" in scene.trainee.get(f"/hours/sessions/{ID}").text
    assert "You have no PIN yet" in host.get(f"{LINK}/pin").text


def test_a_code_bears_three_tries_and_a_new_one_ends_it(scene: Scene) -> None:
    first, second = scene.code(), scene.code()
    assert scene.sign(first).status_code == 422, "ended by the newer one"
    answers = [scene.sign(second, pin) for pin in ("111111", "", "222222", PIN)]
    assert [answer.status_code for answer in answers] == [422] * 4
    assert "this code does not work, or no longer" in answers[-1].text, "the right PIN comes too late"
    assert scene.state() == ("waiting", 1)
    assert scene.sign(scene.code()).status_code == 200


def test_a_pin_tried_too_often_over_many_codes_is_over_and_the_host_is_told(scene: Scene) -> None:
    for _ in range(4):
        code = scene.code()
        for _ in range(3):
            scene.sign(code, "111111")
    assert "you have no PIN that works" in scene.sign(scene.code()).text
    assert scene.state() == ("waiting", 1)
    assert "Nothing was signed" in scene.mail("wrong PIN many times")


def test_a_pin_that_ends_while_it_is_looked_at_signs_nothing(scene: Scene, monkeypatch) -> None:  # noqa: ANN001
    code = scene.code()

    def ended_meanwhile(stored: str, pin: str) -> bool:
        with scene.town.store.writing(SCHOOL.id) as work:
            work.spot_codes.end_pin("host-1")
            work.commit()
        return True

    monkeypatch.setattr(signing_on_the_spot, "is_right", ended_meanwhile)
    assert scene.sign(code).status_code == 422
    assert scene.state() == ("waiting", 1)


def test_a_code_ends_after_ten_minutes_and_with_another_version(town: Town, scene: Scene) -> None:
    code = scene.code()
    town.app.state.now = lambda: NOW + timedelta(minutes=10)
    assert scene.sign(code).status_code == 422
    town.app.state.now = lambda: NOW
    page = f"/hours/sessions/{ID}"
    data = LOGGED | {"form_token": scene.token(scene.trainee, page), "version": "1", "end": "06:30"}
    code = scene.code()
    assert scene.trainee.post(page, data=data).status_code == 303
    assert scene.sign(code).status_code == 422
    assert scene.state() == ("waiting", 2)


def test_without_a_pin_nothing_is_signed(town: Town, form_token) -> None:  # noqa: ANN001
    scene = Scene(town, form_token, pin="")
    answer = scene.sign(scene.code())
    assert (answer.status_code, "you have no PIN that works" in answer.text) == (422, True)


@pytest.mark.parametrize("pin", ["12345", "1" * 13, "123456", "987654", "000000", "121212", "12345a", "١٢٣٤٥٧", ""])
def test_what_anybody_would_try_first_is_no_pin(pin: str) -> None:
    assert len(pin_faults(pin, pin)) == 1


def test_a_pin_is_typed_twice() -> None:
    assert [pin_faults("739104", again) != [] for again in ("739104", "739105")] == [False, True]
