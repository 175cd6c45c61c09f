"""The log as files, through the pages: who gets whose, and what was exported reads back to the same standing."""

import io
from pathlib import Path

import pikepdf

from app.files.log import log_from_file
from app.queries.standing import facts_of, requirements_of, standing_of
from assessments.hours.assessing import assess
from tests.app.pages.conftest import NOW, Town


def test_what_a_trainee_exports_earns_what_the_page_says(town: Town, tmp_path: Path) -> None:
    path = tmp_path / "log.csv"
    path.write_bytes(town.as_role("trainee").get("/hours/log/log.csv").content)
    with town.store.reading("halden-row") as work:
        enrolment = work.enrolments.by_id("enrolment-1")
        requirements = requirements_of(work.editions.by_id(enrolment.requirements_id))
        facts = facts_of(work, enrolment)
        _, standing = standing_of(work, enrolment, NOW.date())
    (log,) = log_from_file(path, {}).values()
    found = assess(requirements, log, facts, as_of=NOW.date(), enrolled=enrolment.enrolled_on)
    assert found.credited_minutes == standing.credited_minutes > 0


def test_every_file_is_of_its_kind_and_the_directors_are_of_anybody(town: Town) -> None:
    director = town.as_role("director")
    begins = {"pdf": b"%PDF-", "xlsx": b"PK", "csv": b"\xef\xbb\xbftrainee,id,date", "ics": b"BEGIN:VCALENDAR"}
    for kind, first in begins.items():
        answer = director.get(f"/trainees/enrolment-2/log/log.{kind}")
        assert answer.content.startswith(first), kind
        assert answer.headers["content-disposition"] == f'attachment; filename="halden-row-log.{kind}"'
    assert len(pikepdf.open(io.BytesIO(director.get("/trainees/enrolment-2/log/log.pdf").content)).pages) > 1
    cohort = director.get("/cohort/log/log.csv").text
    assert len({line.partition(",")[0] for line in cohort.splitlines()[1:]}) == 2
    for nothing in ("/cohort/log/log.pdf", "/hours/log/log.exe", "/trainees/nobody/log/log.csv"):
        assert director.get(nothing).status_code == 404
    for page in ("/cohort/log", "/trainees/enrolment-2/log"):
        assert "log.xlsx" in director.get(page).text
    assert "log.ics" in town.as_role("trainee").get("/hours/log").text
