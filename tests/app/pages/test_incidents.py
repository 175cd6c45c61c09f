"""An incident is reported, takes a machine out of use, and is closed; others can't read it."""

import re

from app.use_cases.demo import SCHOOL
from tests.app.pages.conftest import Town
from tests.app.pages.test_exams import WANTED

REPORT = {
    "id": "report", "degree": "incident", "during": "exam", "day": "2026-11-25", "place": "North room", "exam": "exam",
    "words": "A <strap> broke under load.", "told": "The director, at once.", "changed": "All straps looked at.",
    "machines": "Reformer 2",
}  # fmt: skip
ROOM = "North room: reformer 2, table"


def test_a_report_takes_a_machine_out_of_use_until_it_is_let_back(town: Town, form_token) -> None:  # noqa: ANN001
    examiner, director, trainee = town.as_role("examiner"), town.as_role("director"), town.as_role("trainee")

    def fill(client, path: str, **typed: str):  # noqa: ANN001, ANN202
        token = form_token(client, "/incidents/new")
        return client.post(path, data={"form_token": token} | typed, headers={"accept": "text/html"})

    refused = fill(examiner, "/incidents/new", **REPORT | {"told": "", "day": "soon"})
    assert refused.status_code == 422
    assert {"f-told", "f-day"} <= set(re.findall(r'href="#(f-[\w-]+)"', refused.text))
    assert "A &lt;strap&gt; broke" in refused.text
    assert [fill(examiner, "/incidents/new", **REPORT).status_code for _ in range(2)] == [303, 303]
    assert trainee.get("/incidents/report").status_code == 404
    assert "strap" not in trainee.get("/incidents").text
    assert "A &lt;strap&gt; broke" in examiner.get("/incidents/report").text
    told = WANTED | {"room": ROOM}
    assert "out of use since a report: reformer 2" in fill(director, "/exams/new", **told).text
    assert fill(examiner, "/incidents/report/closed", words="x").status_code == 404
    assert (
        fill(director, "/incidents/report/closed", words="A worn stitch; straps are looked at weekly.").status_code
        == 303
    )
    assert fill(director, "/incidents/report/closed", words="Again.").status_code == 409
    assert "Out of use: Reformer 2" in director.get("/incidents").text
    back = {"machine": "Reformer 2", "back-words": "New straps, pulled at twice the load by Maren."}
    assert fill(director, "/incidents/report/back", **back | {"back-words": ""}).status_code == 422
    assert fill(director, "/incidents/report/back", **back).status_code == 303
    assert fill(director, "/incidents/report/back", **back).status_code == 409
    assert fill(director, "/exams/new", **told).status_code == 303
    fill(examiner, "/incidents/new", **REPORT | {"id": "second"})
    for page in (f"/exams/{WANTED['id']}", f"/exam-days/{WANTED['day']}"):
        assert "Out of use since a report: reformer 2." in director.get(page).text
    with town.store.reading(SCHOOL.id) as work:
        assert [one.kind for one in work.record.of_subject("report")] == ["incident-reported", *["incident-step"] * 2]
