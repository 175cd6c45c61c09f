"""A sheet on paper: printed for all to read (ISO 14289-1, PDF/UA), and typed in as its examiner's by who may."""

from io import BytesIO

import pikepdf

from app.files.sheets import read_sheet
from app.use_cases.demo import SCHOOL
from assessments.practicals.paper_code import paper_code
from tests.app.pages.conftest import Town
from tests.app.pages.test_sheet_records import record
from tests.app.pages.test_sheet_records import send as tapped
from tests.app.pages.test_sheets import PATH, both, examiner, whole  # noqa: F401 - fixtures

CODE = paper_code("exam", "examiner-1")


def test_it_is_printed_found_by_its_code_and_sent_as_its_examiner_s(
    town: Town,
    both,  # noqa: ANN001, F811
    examiner,  # noqa: ANN001, F811
) -> None:
    first, second = both
    director = examiner("director@halden-row.example", "/exams")
    answer = director.get("/exams/exam/paper.pdf")
    assert answer.headers["content-type"] == "application/pdf"
    with pikepdf.open(BytesIO(answer.content)) as pdf, pdf.open_metadata() as described:
        assert described["pdfuaid:part"] == "1"
        assert pdf.Root.MarkInfo.Marked
    assert first.get(f"{PATH}/paper.pdf").status_code == 200
    assert first.get("/sheets/exam-passed/paper.pdf").status_code == 404

    tapped(first, record(1, "note", text="tapped before the battery went"))
    typed = CODE.lower().replace("0", "o")
    assert second.fill("/paper-sheets", code=typed).status_code == 422
    assert second.get(f"/paper-sheets/{CODE}").status_code == 404
    assert second.fill(f"/paper-sheets/{CODE}", **whole(town)).status_code == 404
    assert director.fill("/paper-sheets", code=typed).headers["location"] == f"/paper-sheets/{CODE}"
    assert "tapped before" not in director.get(f"/paper-sheets/{CODE}").text

    gaps = whole(town, **{"marks.opening.A": ""})
    refused = director.fill(f"/paper-sheets/{CODE}", **gaps)
    assert refused.status_code == 422
    assert 'name="marks.opening.B" value="3"' in refused.text
    assert director.fill(f"/paper-sheets/{CODE}", **whole(town, note="from the paper")).status_code == 303
    assert director.fill(f"/paper-sheets/{CODE}", **whole(town)).status_code == 409
    with town.store.reading(SCHOOL.id) as work:
        (sent,) = work.exams.sheets("exam")
        (event,) = [one for one in work.record.of_subject("exam") if one.kind == "sheet-sent"]
    sheet = read_sheet(sent.content)
    assert (sent.examiner_id, sheet.from_paper, sheet.note) == ("examiner-1", "director", "from the paper")
    assert event.content()["from_paper_of"] == "examiner-1"
    said = "Typed in from paper by "
    assert said in first.get(PATH).text
    assert said in director.get("/exams/exam").text
    assert said not in second.get(PATH).text
