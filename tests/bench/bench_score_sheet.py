"""Two browsers as two examiners of one exam, the network cut at random and the server killed in mid-send: every tap once."""

import tempfile
import time
from collections import Counter
from pathlib import Path
from random import Random

from playwright.sync_api import Playwright, expect, sync_playwright

from app.cli.test import browser
from app.storage.engine import open_engine
from app.storage.work import Store
from tests.browser.conftest import ARGUMENTS, MOST_WAITING
from tests.browser.cutting import AtSheet, Cutter, unaccounted
from tests.browser.killed_server import served_in_lives
from tests.browser.site import fill

SEED, DEATHS = 20261126, "0.1"


def measure(cuts: int = 200) -> dict[str, object]:
    """How often what was cut, and what is not accounted for: nothing, or it does not hold."""
    expect.set_options(timeout=MOST_WAITING)
    began = time.monotonic()
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as play:
        url = f"sqlite:///{Path(folder) / 'school.db'}"
        fill(url)
        with served_in_lives(url, DEATHS) as lives:
            both = [
                _at(play, lives.address, who, place, cuts // 2) for place, who in enumerate(("examiner", "examiner2"))
            ]
            while any(one.cutter.due() for one in both):
                for one in both:
                    one.some_time()
            for one in both:
                one.all_sent()
            killed = lives.killed()
        engine = open_engine(url)
        lost = [
            fault for place, one in enumerate(both, 1) for fault in unaccounted(Store(engine), f"examiner-{place}", one)
        ]
        engine.dispose()
        for one in both:
            one.context.browser.close()
    return {
        "cuts": sum((one.cutter.cuts for one in both), Counter()), "server_killed": killed,
        "taps": [len(one.taps) for one in both], "unaccounted": lost, "seconds": round(time.monotonic() - began),
    }  # fmt: skip


def _at(play: Playwright, address: str, who: str, place: int, cuts: int) -> AtSheet:
    """Each in a browser of their own."""
    own = play.chromium.launch(executable_path=browser(), args=ARGUMENTS)
    context = own.new_context(viewport={"width": 1024, "height": 768}, locale="en-GB")
    context.set_default_timeout(MOST_WAITING)
    one = AtSheet(context, address, who, Cutter(Random(SEED + place), cuts))
    one.begin()
    return one
