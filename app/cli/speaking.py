"""The language that the command line speaks: the environment's, as for every program (POSIX locale variables)."""

import os
from collections.abc import Mapping

from app.wording.languages import Language, own_languages

NAMES = ("LC_ALL", "LC_MESSAGES", "LANG")


def spoken(environment: Mapping[str, str] = os.environ) -> Language:
    """The language that the first of the variables names, if there is a catalogue for it; else English."""
    named = next((environment[name] for name in NAMES if environment.get(name)), "")
    return own_languages().of(named.partition(".")[0].partition("@")[0])
