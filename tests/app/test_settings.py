"""Settings from the environment: what they are by default, and how a bad one is refused."""

import pytest

from app.cli import run
from app.settings import settings_from
from curriculum.faults import RefusedError


def test_a_port_is_taken_from_the_environment() -> None:
    assert (settings_from({}).port, settings_from({"THROUGHLINE_PORT": "9001"}).port) == (8000, 9001)


@pytest.mark.parametrize("text", ["", "eighty", "80.5", "-1", "0", "65536", "٨٠٠٠", "9" * 5000])
def test_what_is_no_port_is_refused_by_name(text: str) -> None:
    with pytest.raises(
        RefusedError, match="^THROUGHLINE_PORT: '.*' is not a port; give a whole number from 1 to 65535$"
    ):
        settings_from({"THROUGHLINE_PORT": text})


def test_the_command_says_it_in_a_sentence(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture) -> None:
    monkeypatch.setenv("THROUGHLINE_PORT", "eighty")
    assert run(["serve"]) == 2
    assert capsys.readouterr().err.startswith("THROUGHLINE_PORT: 'eighty' is not a port")


MAIL = {
    "THROUGHLINE_SMTP_HOST": "mail.school.internal",
    "THROUGHLINE_SMTP_USER": "school",
    "THROUGHLINE_SMTP_PASSWORD": "a good password",
    "THROUGHLINE_MAIL_FROM": "hours@school.internal",
}


def test_without_a_mail_server_there_is_none_and_with_one_its_password_is_never_shown() -> None:
    assert settings_from({}).mail_server is None
    settings = settings_from(MAIL)
    assert settings.mail_server.password == "a good password"
    assert "a good password" not in repr(settings)


@pytest.mark.parametrize(("security", "port"), [("tls", 465), ("starttls", 587)])
def test_the_ports_of_mail_are_those_of_rfc_8314(security: str, port: int) -> None:
    assert settings_from(MAIL | {"THROUGHLINE_SMTP_SECURITY": security}).mail_server.port == port


@pytest.mark.parametrize(
    ("changes", "named"),
    [
        ({"THROUGHLINE_SMTP_SECURITY": "ssl"}, "THROUGHLINE_SMTP_SECURITY: 'ssl'"),
        ({"THROUGHLINE_SMTP_SECURITY": "none"}, "THROUGHLINE_SMTP_SECURITY: a password would go over the network"),
        ({"THROUGHLINE_SMTP_PASSWORD": ""}, "THROUGHLINE_SMTP_PASSWORD: a user and a password"),
        ({"THROUGHLINE_SMTP_PORT": "x"}, "THROUGHLINE_SMTP_PORT: 'x' is not a port"),
        ({"THROUGHLINE_MAIL_FROM": ""}, "THROUGHLINE_MAIL_FROM: '' is not a mail address"),
        ({"THROUGHLINE_MAIL_FROM": "Halden Row <hours@school.internal>"}, "THROUGHLINE_MAIL_FROM: 'Halden"),
        ({"THROUGHLINE_ADDRESS": "school.internal"}, "THROUGHLINE_ADDRESS: 'school.internal'"),
        ({"THROUGHLINE_WORKER": "none"}, "THROUGHLINE_WORKER: 'none' is not one of inside, apart"),
    ],
)
def test_a_bad_setting_of_mail_is_refused_by_name(changes: dict, named: str) -> None:
    with pytest.raises(RefusedError) as refused:
        settings_from(MAIL | changes)
    assert str(refused.value).startswith(named)
    assert "a good password" not in str(refused.value)


def test_on_the_own_machine_a_relay_may_be_spoken_to_in_the_clear() -> None:
    own = {"THROUGHLINE_SMTP_SECURITY": "none", "THROUGHLINE_SMTP_HOST": "localhost"}
    assert settings_from(MAIL | own).mail_server.port == 25
