"""The templates as pages get them: strict about missing values, escaped, with texts left in English."""

from datetime import date
from pathlib import Path
from types import SimpleNamespace

from jinja2 import Environment, FileSystemLoader, StrictUndefined

APP = Path(__file__).parents[3] / "app"


def environment() -> Environment:
    made = Environment(
        loader=FileSystemLoader(APP / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        extensions=["jinja2.ext.i18n"],
    )
    made.install_null_translations(newstyle=True)
    return made


def part(name: str, macro: str, *values: object, **named: object) -> str:
    return str(getattr(environment().get_template(f"parts/{name}.html").module, macro)(*values, **named))


def visit(**changes: object) -> SimpleNamespace:
    usual = {
        "person": SimpleNamespace(name="Ida Marlowe"),
        "unread": (),
        "device_key": "a-device",
        "shares_device": False,
        "has_account": True,
        "roles": {"trainee"},
        "school_name": "Halden Row",
        "path": "/today",
        "csrf": "a-token",
        "notice": None,
        "locale": "en",
        "places": [("Today", "/today", True), ("My hours", "/hours", False)],
    }
    return SimpleNamespace(**(usual | changes))


def fault(field: str, text: str) -> SimpleNamespace:
    return SimpleNamespace(field=field, text=text)


def line(**changes: object) -> SimpleNamespace:
    """A window of 400 days, today on day 200; 100 h needed, 30 credited, 10 waiting."""
    usual = {
        "name": "Ida Marlowe",
        "href": None,
        "enrolled": date(2026, 1, 1),
        "today": date(2026, 7, 20),
        "ends": date(2027, 2, 5),
        "forecast": None,
        "needed": 6000,
        "credited": 1800,
        "waiting": 600,
        "enrolled_text": "1 Jan 2026",
        "today_text": "20 Jul 2026",
        "ends_text": "5 Feb 2027",
        "forecast_text": None,
        "early": None,
        "late": None,
        "band_text": "",
        "needed_text": "100 h",
        "credited_text": "30 h",
        "waiting_text": "10 h",
        "to_do_text": "60 h",
        "state": "Behind plan",
        "state_kind": "behind",
    }
    return SimpleNamespace(**(usual | changes))
