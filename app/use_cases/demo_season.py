"""A past season of the demo school: sixty candidates who have left, marked by a simulated panel of six. All invented."""

import json
from datetime import datetime, time, timedelta
from random import Random
from zoneinfo import ZoneInfo

from app.clock import day_in
from app.files.sheets import write_sheet
from app.queries.exam_facts import practical_edition
from app.storage.enrolments import Enrolment, Programme
from app.storage.exams import Exam, ExamDecision, SentSheet
from app.storage.people import Person
from app.storage.work import School, Store, Work
from app.use_cases.asker import Asker
from app.use_cases.auditing_strictness import nightly_strictness_audit
from app.use_cases.demo_appeals import add_demo_appeal
from app.use_cases.seasons import bring_up_to_date
from assessments.practicals.deciding import Outcome
from assessments.practicals.result import Recommendation, result
from assessments.season.gathered import SeasonExam
from assessments.season.simulated import Simulated, simulated_season

PRACTICAL = "practical-basic"
DAYS_AGO = 210
FIRST = (
    "Alva", "Benno", "Clio", "Dario", "Edda", "Falk", "Gerda", "Hanno", "Ilse", "Joris", "Kaja", "Linus", "Mirte",
    "Nils", "Oda", "Pia", "Quirin", "Rosa", "Sven", "Thea",
)  # fmt: skip
LAST = ("Ambrell", "Castorin", "Dunvale")
GUESTS = (
    ("examiner-3", "Hedda Skarne"),
    ("examiner-4", "Matteo Brandell"),
    ("examiner-5", "Wanda Ilverson"),
    ("examiner-6", "Corin Tashby"),
)
PANEL = Simulated(
    {"examiner-1": -0.1, "examiner-2": 0.05, "examiner-3": 0.5, "examiner-4": -0.35, "examiner-5": 0.0, "examiner-6": -0.1},
    len(FIRST) * len(LAST),
    mean=1.9,
    drift={"examiner-5": 1.1},
    leanings={("examiner-4", "A"): 1.6},
    seed=20260427,
)  # fmt: skip
REASONS = {
    Outcome.PASS: "Clear of the cut and every floor reached.",
    Outcome.REFER: "Every floor but one part's is reached; that part is taken again.",
    Outcome.FAIL: "Below the pass mark, or below a floor, on both sheets together.",
}


def add_demo_season(store: Store, school: School, programme: Programme, secret: str, now: datetime) -> None:
    """Keep the season's people, exams, sheets and decisions, the picture that follows from them, and its audit.

    `secret` is the hash of the password that the guest examiners sign in with.
    """
    starts = now - timedelta(days=DAYS_AGO)
    with store.writing(school.id) as work:
        practical = practical_edition(work, PRACTICAL)
        _people(work, programme, secret, starts)
        for number, one in enumerate(simulated_season(practical, PANEL, day_in(starts, school.time_zone)), start=1):
            _exam(work, number, one, ZoneInfo(school.time_zone))
            _decide(work, practical, one, ZoneInfo(school.time_zone))
        work.commit()
    add_demo_appeal(store, school)
    bring_up_to_date(store, school.id, PRACTICAL, lambda: now)
    nightly_strictness_audit(store, Asker(school, "", school.name, now))


def _people(work: Work, programme: Programme, secret: str, starts: datetime) -> None:
    """Guest examiners, and candidates who have left."""
    for id, name in GUESTS:
        work.people.add(
            Person(id, name, f"{id.replace('-', '')}@halden-row.example", secret), frozenset({"examiner"}), starts
        )
    names = [f"{first} {last}" for last in LAST for first in FIRST]
    Random(5).shuffle(names)
    editions = (programme.requirements_id, programme.repertoire_id, programme.readiness_id)
    left = starts + timedelta(days=90)
    for number, name in enumerate(names, start=1):
        person = Person(f"past-{number}", name, f"past{number}@halden-row.example", secret, left)
        work.people.add(person, frozenset({"trainee"}), starts - timedelta(days=300))
        enrolled = (starts - timedelta(days=300)).date()
        work.enrolments.add(Enrolment(f"past-{number}", person.id, programme.id, enrolled, *editions))


def _exam(work: Work, number: int, one: SeasonExam, zone: ZoneInfo) -> None:
    exam = Exam(one.id, f"past-{number}", PRACTICAL, one.day, 9 * 60 + 90 * ((number - 1) % 4), "North room")
    examiners = tuple(sorted(one.first))
    work.exams.add(exam, examiners)
    body = {
        "exam": exam.id, "enrolment": exam.enrolment_id, "practical": exam.practical_id, "day": exam.day.isoformat(),
        "starts": exam.starts_minute, "room": exam.room, "examiners": [*examiners],
    }  # fmt: skip
    at = datetime.combine(one.day, time(18), zone)
    work.record.append("exam-set", exam.id, "director", at - timedelta(days=14), body)
    for sheet in one.sheets:
        work.exams.add_sheet(SentSheet(exam.id, sheet.examiner, 1, write_sheet(sheet), "", at))
        work.record.append("sheet-sent", exam.id, sheet.examiner, at, {"exam": exam.id, "version": 1})


def _decide(work: Work, practical, one: SeasonExam, zone: ZoneInfo) -> None:  # noqa: ANN001
    """As recommended; a second marking is not simulated, so that what it would decide is left to the total."""
    found = result(practical, one.sheets)
    outcome = _outcome(found.recommendation, found.scores.total >= practical.cut.at)
    parts = "[]" if outcome is not Outcome.REFER else json.dumps(sorted(found.refer_parts))
    at = datetime.combine(one.day, time(12), zone) + timedelta(days=7)
    decision = ExamDecision(one.id, 1, outcome, REASONS[outcome], "director", at, parts)
    work.exams.add_decision(decision)
    body = {
        "exam": one.id, "number": 1, "outcome": str(outcome), "reason": decision.reason,
        "refer": sorted(found.refer_parts) if outcome is Outcome.REFER else [], "void": "",
    }  # fmt: skip
    work.record.append("exam-decided", one.id, "director", at, body)


def _outcome(recommended: Recommendation, at_cut: bool) -> Outcome:
    known = {Recommendation.PASS: Outcome.PASS, Recommendation.REFER: Outcome.REFER, Recommendation.FAIL: Outcome.FAIL}
    return known.get(recommended, Outcome.PASS if at_cut else Outcome.FAIL)
