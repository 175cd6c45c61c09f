"""Templates for people: one environment a language, strict about what is not defined."""

from functools import lru_cache
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from app.wording.languages import Language

APP = Path(__file__).resolve().parent.parent


@lru_cache(maxsize=16)
def environment(language: Language) -> Environment:
    """The template environment of one language; English is what the sources are written in."""
    made = Environment(
        loader=FileSystemLoader(APP / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        extensions=["jinja2.ext.i18n"],
    )
    made.install_gettext_translations(language.catalogue, newstyle=True)
    return made
