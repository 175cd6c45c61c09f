"""The record of a training as an accessible PDF, for its trainee and the director, and for nobody else."""

from io import BytesIO

import pikepdf

from tests.app.pages.conftest import OTHER, Town


def test_the_record_of_a_training_is_a_tagged_pdf(town: Town) -> None:
    own = town.as_role("trainee").get("/transcript.pdf")
    of_director = town.as_role("director").get("/trainees/enrolment-1/transcript.pdf")
    assert own.content == of_director.content
    with pikepdf.open(BytesIO(own.content)) as pdf:
        assert pdf.Root.MarkInfo.Marked
        assert str(pdf.Root.Lang) == "en-GB"
        assert "Ida Marlowe" in str(pdf.docinfo["/Title"])
    assert town.as_role("examiner").get("/trainees/enrolment-1/transcript.pdf").status_code == 404
    assert town.as_role("director", OTHER).get("/trainees/nobody/transcript.pdf").status_code == 404
