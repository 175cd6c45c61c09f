"""The director finds a fail in the sample, seats a further examiner who marks alone, and sees what that changed."""

from app.queries.second_marking import sample_overview, seeds_of
from app.storage.people import Person
from app.use_cases.demo import SCHOOL
from app.wording.languages import ENGLISH
from assessments.practicals.sample import lot
from tests.app.pages.conftest import NOW, Town
from tests.app.pages.test_exams import ID, director, set_with_sheets, sheet  # noqa: F401


def test_a_fail_is_marked_by_a_further_examiner_before_it_is_decided(town: Town, director) -> None:  # noqa: ANN001, F811
    with town.store.writing(SCHOOL.id) as work:
        third = Person("examiner-3", "Ebba Karst", "third@halden-row.example", "hash")
        work.people.add(third, frozenset({"examiner", "director"}), NOW)
        work.commit()
    set_with_sheets(town, director, 1, 1)
    listed = director.get("/second-marking").text
    assert all(words in listed for words in (f"/exams/{ID}", "not a pass", "no further examiner yet"))
    for _ in range(2):
        assert director.fill("/second-marking/practical-basic/drawn").status_code == 303
    with town.store.reading(SCHOOL.id) as work:
        seed = seeds_of(work, ["practical-basic"])["practical-basic"]
        (line,) = (one for one in sample_overview(work, "director", ENGLISH).lines if one.exam_id == ID)
    assert ("random share" in line.reasons) is (lot(seed, ID) < 0.1)
    assert seed in director.get("/second-marking").text
    seat = {"examiner": "examiner-3", "further-waiver": "Nobody else is free; calibrated next week."}
    assert director.fill(f"/exams/{ID}/further-examiner", **seat).status_code == 303
    assert "Ebba Karst marks" in director.get("/second-marking").text
    with town.store.reading(SCHOOL.id) as work:
        assert ID not in {one.exam_id for one in sample_overview(work, "examiner-3", ENGLISH).lines}
    fail = {"outcome": "fail", "reason": "Below the pass mark.", "known": "0"}
    assert "sheet is not in yet" in director.fill(f"/exams/{ID}/decision", **fail).text
    sheet(town, "examiner-3", 3, second_marking=True)
    assert "marked further: fail" in director.get("/second-marking").text
    assert director.fill("/second-marking/no-such/drawn").status_code == 404
