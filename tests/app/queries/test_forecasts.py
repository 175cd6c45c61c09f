"""Forecasts in words, and kept beside a standing."""

from types import SimpleNamespace

from app.wording.forecasts import forecast_lines
from app.wording.languages import ENGLISH


def ahead(**changes):
    usual = {
        "withheld": "", "early": "2026-12-06", "middle": "2027-01-03", "late": "2027-03-07", "in_window": 0.9999
    }  # fmt: skip
    return SimpleNamespace(**(usual | changes))


def said(ends="2027-06-30", **changes):
    return " ".join(forecast_lines(ahead(**changes), ends, ENGLISH))


def test_a_forecast_is_never_said_to_be_certain():
    assert "99 %" in said()
    assert "in 1 %" in said(in_window=0.0)


def test_without_a_window_nothing_is_said_of_its_end():
    assert "time allowed" not in said(ends="")


def test_too_little_is_said_kindly_and_a_finished_log_needs_no_words():
    assert said(withheld="few-weeks").startswith("Too early to say")
    assert said(withheld="few-others").startswith("Too early to say")
    assert said(withheld="complete") == ""


def test_a_day_past_seeing_names_no_day():
    assert "how late can't be told" in said(late="")
    assert "within four years" in said(middle="", late="")
