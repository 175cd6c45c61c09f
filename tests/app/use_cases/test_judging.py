"""The pass mark that judges settle on is written into the practical's text, and nothing else there changes."""

import pytest
import yaml

from app.use_cases.judging import with_cut

CUT = {"at": 71, "method": "angoff", "how": "Six judges: “just good enough”.", "set_on": "2026-11-26"}
REST = "# kept\nid: basic\nparts: [one, two]  # kept too\n"


@pytest.mark.parametrize(
    "text",
    [
        REST,
        REST + "cut: {at: 60, method: fixed}\n",
        REST + "cut:\n  at: 60\n  how: |\n    Two lines,\n\n    and a third.\nscale: {lowest: 1}\n",
        "cut: {at: 60,\n      method: fixed}\n" + REST,
        REST + "cut: {at: 60}",
        REST.replace("\n", "\r\n") + "cut:\r\n  at: 60\r\nscale: {lowest: 1}\r\n",
    ],
)
def test_only_the_cut_is_written_anew(text):
    before, after = yaml.safe_load(text), yaml.safe_load(with_cut(text, CUT))
    assert after.pop("cut") == CUT
    before.pop("cut", None)
    assert after == before
    assert "# kept too" in with_cut(text, CUT)
