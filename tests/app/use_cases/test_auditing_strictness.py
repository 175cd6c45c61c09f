"""The nightly audit of strictness: once a night, kept, and of one season's sheets until they change."""

from datetime import timedelta

import pytest

from app.queries.season_audit import STRICTNESS_AUDIT, season_audit
from app.settings import Settings
from app.use_cases.asker import Asker
from app.use_cases.auditing_strictness import nightly_strictness_audit
from app.wording.languages import ENGLISH
from app.wording.season_audit import audit_text
from app.worker import jobs
from app.worker.bench import Bench
from tests.app.conftest import HALDEN
from tests.app.use_cases.test_seasons import SHEETS, school, send  # noqa: F401 - the fixture


def audit(store, moment) -> int:
    return nightly_strictness_audit(store, Asker(HALDEN, "", "Halden", moment))


def said(store) -> str:
    with store.reading("halden") as work:
        return season_audit(work, "practical-basic", ENGLISH)


def test_each_season_is_audited_once_and_again_when_its_sheets_change(school, now):  # noqa: F811
    send(school, now, *SHEETS[:5])
    assert "these sheets come next night" in said(school)
    night = now.replace(hour=2)
    assert [audit(school, night), audit(school, night + timedelta(hours=1))] == [1, 0]
    first = said(school)
    assert "in the night to 2 Mar 2026" in first
    assert audit(school, night + timedelta(days=1)) == 0
    assert said(school) == first
    send(school, now, SHEETS[5])
    assert "these sheets come next night" in said(school)
    assert audit(school, night + timedelta(days=2)) == 1
    assert "in the night to 4 Mar 2026" in said(school)


def test_it_is_done_at_night_only(school, now):  # noqa: F811
    """Oslo is an hour ahead of UTC in March."""
    send(school, now, *SHEETS[:2])
    for hour, done in ((12, False), (7, False), (6, True)):
        bench = Bench(school, Settings(""), lambda hour=hour: now.replace(hour=hour))
        jobs.strictness_audit(bench, HALDEN)
        with school.reading("halden") as work:
            assert (work.chores.last_done(STRICTNESS_AUDIT) is not None) is done


def test_a_season_that_fails_stops_no_night_and_is_tried_again(school, now, monkeypatch, caplog):  # noqa: F811
    send(school, now, *SHEETS[:2])
    monkeypatch.setattr("assessments.season.strictness_audit.strictness_audit", lambda *_: 1 / 0)
    assert audit(school, now) == 0
    assert "was not audited" in caplog.text
    monkeypatch.undo()
    assert audit(school, now + timedelta(days=1)) == 1


def row(id: str, marks: float | None, apart: bool) -> dict:
    return {"id": id, "logits": 0.1, "error": 0.02, "marks": marks, "apart": apart}


@pytest.mark.parametrize(
    ("found", "sentence"),
    [
        ([row("a", -0.21, False), row("b", 0.1, False)], "comes out alike. No difference exceeds 0.3 marks"),
        ([row("a", -1.26, True), row("b", 0.4, True)], "differently for Ada, Bo. Perhaps some examiners met abler"),
        ([row("a", None, False)], "comes out alike."),
    ],
)
def test_the_sentence_for_directors(found, sentence):
    answer = {"day": "2026-03-09", "withheld": None, "examiners": found}
    assert sentence in audit_text(answer, {"a": "Ada", "b": "Bo"}, ENGLISH)


def test_what_could_not_be_reckoned_says_why():
    why = {"code": "one-examiner", "sentence": "needs two examiners or more", "values": {}}
    text = audit_text({"day": "2026-03-09", "withheld": why, "examiners": []}, {}, ENGLISH)
    assert text.endswith("came to nothing: needs two examiners or more.")
