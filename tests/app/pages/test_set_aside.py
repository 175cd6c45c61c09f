"""An exam is set aside, taken back, set aside anew and decided so."""

import re

from tests.app.pages.conftest import Town

HERE = "/exams/exam/set-aside"


def test_an_exam_is_set_aside_and_taken_back_until_it_is_decided(town: Town, form_token) -> None:  # noqa: ANN001
    client = town.as_role("director")
    token = form_token(client, HERE)

    def fill(path: str, **typed: str):  # noqa: ANN202
        return client.post(path, data={"form_token": token} | typed, headers={"accept": "text/html"})

    void = {"outcome": "void", "cause": "broken-machine", "reason": "A spring of the <long> machine broke."}
    assert "f-reason" in fill(HERE, outcome="void").text
    assert [fill(HERE, **void).status_code for _ in range(2)] == [303, 303]
    assert fill(HERE, **void | {"cause": "illness"}).status_code == 409
    page = client.get("/exams/exam").text
    assert "A spring of the &lt;long&gt; machine broke." in page
    assert re.search(r'value="void"[^>]*checked', page)
    assert "set aside, to decide" in client.get("/exams").text
    assert "set aside, to decide" in town.as_role("trainee").get("/my-practicals").text
    number = re.search(r'name="number" value="(\d+)"', client.get(HERE).text).group(1)
    failed = fill("/exams/exam/decision", outcome="not-completed", reason="x", known="0")
    assert (failed.status_code, "take the note back first" in failed.text) == (422, True)
    assert [fill(f"{HERE}/taken-back", number=number).status_code for _ in range(2)] == [303, 303]
    assert "spring" not in client.get("/exams/exam").text
    fill(HERE, **void)
    decided = {"outcome": "void", "void_cause": "broken-machine", "reason": void["reason"], "known": "0"}
    assert fill("/exams/exam/decision", **decided).status_code == 303
    assert fill(f"{HERE}/taken-back", number=number).status_code == 409
