"""Templates for people: one environment a language, strict about what is not defined."""

from functools import lru_cache
from gettext import NullTranslations, translation
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

APP = Path(__file__).resolve().parent.parent


@lru_cache(maxsize=16)
def environment(locale: str) -> Environment:
    """The template environment of one language; English is what the sources are written in."""
    made = Environment(
        loader=FileSystemLoader(APP / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        extensions=["jinja2.ext.i18n"],
    )
    made.install_gettext_translations(catalogue(locale), newstyle=True)
    return made


@lru_cache(maxsize=16)
def catalogue(locale: str) -> NullTranslations:
    """The texts of one language; what is not translated stays English."""
    return translation("throughline", APP / "wording" / "locales", [locale], fallback=True)
