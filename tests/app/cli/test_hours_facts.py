"""Facts about trainees beside a log."""

from datetime import date

import pytest

from app.files.facts import facts_from_file
from assessments.hours.entry import Span
from curriculum.faults import RefusedError

FACTS = """ada:
  practicals: {safety: 2026-02-01}
  modules: {one: 2026-01-10}
  documents: {cover: {from: 2026-01-01, to: 2026-12-31}}
  extensions: [2026-06-01]
  leave: [{from: 2026-03-01}]
"""


def test_facts_are_read_by_trainee(tmp_path) -> None:
    (tmp_path / "facts.yaml").write_text(FACTS)
    ada = facts_from_file(tmp_path / "facts.yaml")["ada"]
    assert (ada.practicals["safety"], ada.modules["one"]) == (date(2026, 2, 1), date(2026, 1, 10))
    assert ada.documents["cover"] == Span(date(2026, 1, 1), date(2026, 12, 31))
    assert (ada.extensions, ada.leave) == ((date(2026, 6, 1),), (Span(date(2026, 3, 1)),))


@pytest.mark.parametrize(
    ("old", "new", "code", "line"),
    [
        ("2026-02-01", "2026-02-30", "not-a-date", 2),
        ("modules", "module", "unknown-key", 3),
        ("to: 2026-12-31", "to: 2025-12-31", "backwards", 4),
        ("[2026-06-01]", "2026-06-01", "not-a-list", 5),
        ("{from: 2026-03-01}", "{to: 2026-03-01}", "missing", 6),
    ],
)
def test_each_fault_of_facts_has_its_line(tmp_path, old: str, new: str, code: str, line: int) -> None:
    (tmp_path / "facts.yaml").write_text(FACTS.replace(old, new))
    with pytest.raises(RefusedError) as refused:
        facts_from_file(tmp_path / "facts.yaml")
    assert (code, line) in [(one.code, one.line) for one in refused.value.faults]
