"""A season's strictness reckoned a second way: in marks, and only of examiners whose strictness is shown."""

from dataclasses import replace

import numpy as np
import pytest

from assessments.measurement.limits import DEFAULT_LIMITS
from assessments.season.gathered import gather
from assessments.season.strictness_audit import strictness_audit
from tests.assessments.season.cast import BASIC, season

PANEL = {"ada": -0.6, "bo": 0.6, "cy": 0.0}


def audited(candidates: int, panel=PANEL, blocks: int = 2, keep=lambda exam: exam):
    """Two blocks are enough, and quick."""
    found = gather(BASIC, [keep(exam) for exam in season(candidates, panel)])
    return strictness_audit(BASIC, replace(found, rating=found.rating[found.rating[:, 2] < blocks]), DEFAULT_LIMITS)


def test_the_difference_in_marks_has_the_other_sign_of_severity():
    rows = audited(24)["examiners"]
    assert [row["id"] for row in rows] == ["ada", "bo", "cy"]
    logits, marks = (np.array([row[key] for row in rows]) for key in ("logits", "marks"))
    assert (np.sign(logits) == -np.sign(marks)).all()
    assert logits.sum() == pytest.approx(0, abs=1e-9)
    assert all(row["error"] > 0 for row in rows if not np.isnan(row["error"]))


def test_where_nothing_can_be_reckoned_it_says_why():
    assert audited(1, {"ada": 0.0, "bo": 0.0}, blocks=1)["withheld"].code in {"undetermined", "nobody"}
    alone = strictness_audit(BASIC, gather(BASIC, []), DEFAULT_LIMITS)
    assert (alone["withheld"].code, alone["examiners"]) == ("one-examiner", [])


def test_with_four_exams_nobodys_strictness_is_shown_so_that_none_is_audited():
    assert audited(4)["withheld"].code == "nobody"
