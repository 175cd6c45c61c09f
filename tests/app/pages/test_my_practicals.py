"""A candidate's exam, before and after: only they and the director read it, and the paper is PDF/UA-1 (ISO 14289-1)."""

import io

import pikepdf

from app.files.sheets import write_sheet
from app.queries.exam_facts import practical_of
from app.storage.exams import Exam, ExamDecision, SentSheet
from app.use_cases.demo import SCHOOL
from assessments.practicals.sheets import Noticed, Tap
from tests.app.pages.conftest import NOW, Town
from tests.assessments.practicals.cast import level_sheet

OWN = "/my-practicals/exam"


def decide(town: Town) -> None:
    """Both sheets of the first trainee's exam, sent and decided; and an exam of somebody else."""
    with town.store.writing(SCHOOL.id) as work:
        practical = practical_of(work, work.exams.by_id("exam"))
        work.exams.add(Exam("others", "enrolment-2", "practical-final", NOW.date(), 540), ("examiner-1",))
        for examiner in ("examiner-1", "examiner-2"):
            taps = (Tap("reformer-footwork", Noticed.FAULT_MISSED),)
            one = level_sheet(practical, examiner, 3, taps=taps, note="Only for the panel.")
            work.exams.add_sheet(SentSheet("exam", examiner, 1, write_sheet(one), "", NOW))
        work.exams.add_decision(
            ExamDecision("exam", 1, "refer", "The drawn part <again>.", "director", NOW, '["drawn"]')
        )
        work.commit()


def test_the_candidate_reads_what_is_judged_before_and_what_to_act_on_after(town: Town) -> None:
    trainee, director = town.as_role("trainee"), town.as_role("director")
    before = trainee.get(OWN).text
    assert "Sees the main fault within two repetitions." in before
    assert "Next step" not in before
    assert trainee.get(f"{OWN}/feedback.pdf").status_code == 404

    decide(town)
    after = trainee.get(OWN).text
    assert "The drawn part &lt;again&gt;." in after
    assert "Seeing faults: level 3" in after
    assert "For the next level: Expects it and prevents it." in after
    assert "A fault was missed." in after
    for hidden in ("Only for the panel.", "Piet Oosterhall", "Runa Calloway"):
        assert hidden not in after
    assert "For the next level: Expects it and prevents it." in director.get("/exams/exam/feedback").text
    assert trainee.get("/my-practicals/others").status_code == 404

    pdf = pikepdf.open(io.BytesIO(trainee.get(f"{OWN}/feedback.pdf").content))
    assert bool(pdf.Root.MarkInfo.Marked)
    with pdf.open_metadata() as metadata:
        assert (metadata["dc:title"], metadata["pdfuaid:part"]) == ("Final practical, 2026.1: Ida Marlowe", "1")
