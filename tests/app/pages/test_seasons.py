"""A season's pages: with six candidates nearly all is withheld kindly, with two hundred all is said; nobody is given away."""

import re
from dataclasses import replace

import pytest

from app.files.sheets import write_sheet
from app.main import create_app
from app.settings import Settings
from app.storage.exams import Exam, SentSheet
from app.storage.people import Person
from app.use_cases.demo import SCHOOL
from app.use_cases.seasons import JOB, bring_up_to_date
from tests.app.pages.conftest import NOW, Town
from tests.app.pages.disguise import LOCALE, Known, Seen, disguise, typed_texts
from tests.app.pages.test_sheets import whole
from tests.assessments.season.cast import season

PAGE = "/seasons/practical-basic"
PANEL = {"examiner-1": -0.6, "examiner-2": 0.6, "examiner-3": 0.0, "examiner-4": 0.1}
NAMES = {"examiner-3": "Hedda Skarne", "examiner-4": "Matteo Brandell"}


def fill(town: Town, candidates: int, panel: dict[str, float] = PANEL, made: bool = True, **more) -> None:  # noqa: ANN003
    """Every exam is the first trainee's: what is counted is exams."""
    with town.store.writing(SCHOOL.id) as work:
        for id in panel:
            if work.people.by_id(id) is None:
                work.people.add(Person(id, NAMES[id], f"{id}@halden-row.example", "x"), frozenset({"examiner"}), NOW)
        for one in season(candidates, panel, **more):
            work.exams.add(Exam(one.id, "enrolment-1", "practical-basic", one.day, 600), tuple(sorted(one.first)))
            for sheet in one.sheets:
                work.exams.add_sheet(SentSheet(one.id, sheet.examiner, 1, write_sheet(sheet), "", NOW))
        work.commit()
    if made:
        bring_up_to_date(town.store, SCHOOL.id, "practical-basic", lambda: NOW)


def words(page: str) -> str:
    return re.sub(r"\s+", " ", " ".join(Seen(page).texts))


def test_without_a_sheet_there_is_nothing_to_show_and_nothing_to_wait_for(town: Town) -> None:
    page = words(town.as_role("director").get(PAGE).text)
    assert "No sheet of this practical is sent yet." in page
    assert "brought up to date" not in page


def test_new_sheets_are_said_to_be_on_their_way_and_then_are_there(town: Town) -> None:
    fill(town, 6, made=False)
    director = town.as_role("director")
    assert "being brought up to date" in words(director.get(PAGE).text)
    bring_up_to_date(town.store, SCHOOL.id, "practical-basic", lambda: NOW)
    page = words(director.get(PAGE).text)
    assert "being brought up to date" not in page
    assert "6 exams" in page
    assert "12 sheets sent" in words(director.get("/seasons").text)


def test_with_six_candidates_nearly_all_is_withheld_and_says_from_when_on_it_is_shown(town: Town) -> None:
    fill(town, 6)
    page = words(town.as_role("director").get(PAGE).text)
    for reason in (
        "rests on 6 exams with two sheets and takes at least 10",
        "rests on 6 exams and takes at least 20",
        "rests on 6 exams and takes at least 50",
        "rests on 6 exams and takes at least 15",
        "takes at least 5 exams and 20 ratings by the same examiner",
    ):
        assert reason in page, reason
    assert not re.search(r"marks (milder|stricter)|of 100 would|right to within", page)


def test_with_two_hundred_candidates_every_question_is_answered_in_words(town: Town) -> None:
    fill(town, 200, drift={"examiner-3": 1.2})
    answer = town.as_role("director").get(PAGE)
    page = words(answer.text)
    for sentence in (
        r"Of every 100 blocks that two examiners graded, they gave the same grade to \d+ \(likely \d+ to \d+\)",
        r"Allowing for luck, agreement is 0\.\d\d on a scale where 0 is chance and 1 is perfect",
        r"Piet Oosterhall: \d+\.\d marks milder than the average, likely \d+\.\d to \d+\.\d",
        r"Runa Calloway: \d+\.\d marks stricter than the average",
        r"Hedda Skarne: \d+ exams outside the dashed lines",
        r"A total is right to within about \d+\.\d marks either way",
        r"about \d+ of 100 would come out on the same side of the pass mark \(likely \d+ to \d+\)",
        r"Safety and set-up: reached from a total of \d+ % on",
        r"By the examiners.? own overall grades it would be \d+\.\d % \(likely \d+\.\d to \d+\.\d\)",
        r"2 examiners: right to within \d+\.\d marks; \d+ % real",
    ):
        assert re.search(sentence, page), sentence
    assert "Not shown" not in page
    assert "logit" not in page.lower()


def test_every_picture_has_its_words_and_its_table(town: Town) -> None:
    fill(town, 60)
    page = town.as_role("director").get(PAGE).text
    pictures = re.findall(r'<svg class="line[^>]*role="img"[^>]*>(.{0,40})', page, re.S)
    assert len(pictures) > 20
    assert all(start.lstrip().startswith("<title>") for start in pictures)
    assert page.count("<figure") == page.count("The figures behind the picture") == 5


def test_another_plan_is_shown_and_a_wrong_one_refused_with_every_reason(town: Town) -> None:
    fill(town, 60)
    director = town.as_role("director")
    page = words(director.get(f"{PAGE}?examiners=3&blocks=8").text)
    assert "With 8 blocks" in page
    answer = director.get(f"{PAGE}?examiners=many&blocks=99", headers={"accept": "text/html"})
    assert answer.status_code == 422
    assert {"f-examiners", "f-blocks"} <= set(re.findall(r'href="#(f-[\w-]+)"', answer.text))
    assert 'value="many"' in answer.text
    assert 'value="99"' in answer.text


def test_a_plan_of_more_is_never_less_sure(town: Town) -> None:
    fill(town, 60)
    page = words(town.as_role("director").get(f"{PAGE}?examiners=2&blocks=6").text)
    reaches = [float(one) for one in re.findall(r"\d examiners?: right to within (\d+\.\d) marks", page)]
    assert len(reaches) == 4
    assert reaches == sorted(reaches, reverse=True)


def test_an_examiner_reads_of_themself_and_of_nobody_else(town: Town) -> None:
    fill(town, 60)
    page = words(town.as_role("examiner").get("/my-scoring").text)
    assert re.search(r"Your totals lie about \d+\.\d marks above what the average examiner gives", page)
    assert re.search(r"Of 150 grades that somebody else gave to the same block, yours was the same \d+ times", page)
    for name in ("Runa Calloway", *NAMES.values(), *PANEL):
        assert name not in page


def test_with_a_panel_of_two_nothing_is_said_since_it_would_say_the_same_of_the_other(town: Town) -> None:
    fill(town, 60, {"examiner-1": -0.6, "examiner-2": 0.6})
    answer = town.as_role("examiner").get("/my-scoring").text
    assert "It is shown from three examiners on." in words(answer)
    assert not re.search(r"marks (above|below)|somebody else gave", words(answer))
    assert '<svg class="line' not in answer


def test_with_one_partner_only_agreement_would_name_them(town: Town) -> None:
    fill(town, 24, {"examiner-1": 0.0, "examiner-2": 0.0})
    with town.store.writing(SCHOOL.id) as work:
        work.people.add(
            Person("examiner-3", "Hedda Skarne", "e3@halden-row.example", "x"), frozenset({"examiner"}), NOW
        )
        for one in season(24, {"examiner-2": 0.0, "examiner-3": 0.0}, seed=11):
            work.exams.add(
                Exam(f"{one.id}-b", "enrolment-2", "practical-basic", one.day, 700), tuple(sorted(one.first))
            )
            for sheet in one.sheets:
                own = replace(sheet, exam=f"{one.id}-b")
                work.exams.add_sheet(SentSheet(own.exam, own.examiner, 1, write_sheet(own), "", NOW))
        work.commit()
    bring_up_to_date(town.store, SCHOOL.id, "practical-basic", lambda: NOW)
    page = words(town.as_role("examiner").get("/my-scoring").text)
    assert "It is shown from two colleagues on." in page
    assert "somebody else gave" not in page


def test_a_sheet_sent_in_the_pages_tells_its_season(town: Town, form_token) -> None:  # noqa: ANN001
    told = []
    town.app.state.ask = lambda *what: told.append(what)
    with town.store.reading(SCHOOL.id) as work:
        practical_id = work.exams.by_id("exam").practical_id
    examiner, form = town.as_role("examiner"), whole(town)
    token = {"form_token": form_token(examiner, "/sheets")}
    assert examiner.post("/sheets/exam", data=token | form | {"act": "keep"}).status_code == 303
    assert told == []
    assert examiner.post("/sheets/exam", data=token | form).status_code == 303
    assert told == [(JOB, SCHOOL.id, practical_id)]


@pytest.mark.parametrize("candidates", [6, 60])
def test_every_word_goes_through_the_catalogue(town: Town, candidates: int) -> None:
    """In the language made for tests, no word of a season is left as it was written."""
    fill(town, candidates, drift={"examiner-3": 1.2})
    made = Town(create_app(Settings(str(town.store.engine.url)), now=lambda: NOW, languages=disguise()))
    asked = {"accept": "text/html", "accept-language": LOCALE}
    known = Known(typed_texts(town.store))
    for role, path in (("director", PAGE), ("director", f"{PAGE}?examiners=x"), ("examiner", "/my-scoring")):
        page = made.as_role(role).get(path, headers=asked).text
        leaks = [leak for text in Seen(page).texts for leak in known.leaks(text) if leak != "Throughline"]
        assert leaks == [], (path, leaks)
    made.store.engine.dispose()


def test_who_has_left_is_no_trainee_any_more_and_keeps_their_exams(town: Town) -> None:
    """The season's candidates stay in its figures; the cohort and the forms are about who is there."""
    fill(town, 24)
    with town.store.writing(SCHOOL.id) as work:
        gone = work.people.by_id("trainee-2")
        left = Person("left", "Zeno Abandonato", "left@halden-row.example", "x", NOW)
        work.people.add(left, frozenset({"trainee"}), NOW)
        first = work.enrolments.by_id("enrolment-1")
        work.enrolments.add(replace(first, id="enrolment-left", person_id="left"))
        work.exams.add(
            Exam("exam-left", "enrolment-left", "practical-basic", NOW.date(), 600), ("examiner-1", "examiner-2")
        )
        for sheet in season(1, {"examiner-1": 0.0, "examiner-2": 0.0})[0].sheets:
            own = replace(sheet, exam="exam-left")
            work.exams.add_sheet(SentSheet(own.exam, own.examiner, 1, write_sheet(own), "", NOW))
        work.commit()
    bring_up_to_date(town.store, SCHOOL.id, "practical-basic", lambda: NOW)
    director = town.as_role("director")
    assert "Zeno Abandonato" in words(director.get(PAGE).text)
    for path in ("/cohort", "/exams/new", "/editions/requirements-2026-1"):
        page = words(director.get(path).text)
        assert gone.name in page
        assert "Zeno Abandonato" not in page
