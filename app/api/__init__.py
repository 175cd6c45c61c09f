"""JSON for programs, one file per noun; the same use cases and queries as the pages."""

import importlib

from app.api.door import Api

NOUNS = ("document", "person", "hours", "hosts", "cohort")


def every_noun() -> tuple[Api, ...]:
    """The routes of every noun."""
    return tuple(importlib.import_module(f"app.api.{noun}").api for noun in NOUNS)
