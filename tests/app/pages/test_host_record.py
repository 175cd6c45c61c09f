"""A host's own record and yearly statement, through the private link, against the ledger."""

import io

import pikepdf

from app.use_cases.demo import SCHOOL
from app.web.visit import token_hash
from app.wording.hours import hours
from tests.app.pages.conftest import NOW, Town

LINK = "/h/halden-row.a-link-that-works"


def test_a_host_reads_what_stands_signed_and_takes_a_statement_that_names_no_trainee(town: Town) -> None:
    with town.store.writing(SCHOOL.id) as work:
        work.hosts.add_link(token_hash("a-link-that-works"), "host-1", NOW, NOW.replace(year=2027))
        signed = [one for _, one in work.ledger.signed_by("host-1") if one.day.year == 2026]
        name = work.hosts.by_id("host-1").name
        work.commit()
    host = town.visitor()
    page = host.get(f"{LINK}/record").text
    assert page.count("Receipt ") == len(signed) > 0
    assert hours(sum(one.minutes for one in signed)) in page
    assert "Nothing stands signed" in host.get(f"{LINK}/record?year=2019").text
    shown = host.get(f"{LINK}/statements/2026").text
    assert "The year is not over" in shown
    assert f"Mentoring by {name} in 2026" in shown
    assert "Ida Marlowe" not in shown
    pdf = pikepdf.open(io.BytesIO(host.get(f"{LINK}/statements/2026.pdf").content))
    assert bool(pdf.Root.MarkInfo.Marked)
    with pdf.open_metadata() as metadata:
        assert (metadata["dc:title"], metadata["pdfuaid:part"]) == (f"Mentoring by {name} in 2026", "1")
    assert [host.get(f"{LINK}/statements/{year}").status_code for year in ("2027", "x", "0")] == [404] * 3
    assert host.get(f"{LINK}/privacy").status_code == 200
    assert host.get("/h/halden-row.none/record").status_code == 410
