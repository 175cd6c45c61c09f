"""The JSON-LD contexts that certificates use, from this installation's own files: nothing is fetched."""

import json
from functools import cache
from pathlib import Path

from pyld import BUNDLED_CONTEXTS

from assessments.certificates.canonical_form import Contexts
from assessments.certificates.credential import CONTEXTS
from assessments.certificates.status_list import CONTEXT

HERE = Path(__file__).with_name("contexts")


@cache
def known_contexts() -> Contexts:
    """Those of W3C's data model 2.0 and of Open Badges 3.0.3 with its extensions, byte for byte as published."""
    files = (HERE / "open-badges-3.0.3.json", HERE / "open-badges-extensions.json")
    paths = {CONTEXT: BUNDLED_CONTEXTS[CONTEXT]} | dict(zip(CONTEXTS[1:], files, strict=True))
    return Contexts({address: json.loads(path.read_text("utf-8")) for address, path in paths.items()})
