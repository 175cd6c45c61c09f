"""From a season's rows to what the measurement takes: exams, their first examiners, every version of every sheet."""

import hashlib
import json

from app.files.sheets import read_sheet
from app.queries.exam_facts import practical_edition
from app.storage.work import Work
from assessments.practicals.deciding import Outcome
from assessments.practicals.specification import Practical
from assessments.season.gathered import Gathered, SeasonExam, gather

FORMULAS = 5
"""Counts up whenever a picture of the same sheets would come out otherwise."""


def fingerprint(work: Work, practical_id: str) -> str:
    """What a picture follows from: the versions sent, who is a first examiner, and what was declared void."""
    exams = work.seasons.exams(practical_id)
    versions = work.seasons.versions(practical_id)
    first = work.seasons.first_examiners(practical_id)
    parts = [
        FORMULAS,
        versions,
        [(exam, sorted(first.get(exam, ()))) for exam in sorted({exam for exam, _, _ in versions})],
        sorted(_void(work) & {exam.id for exam in exams}),
    ]
    return hashlib.sha256(json.dumps(parts).encode()).hexdigest()


def gathered_season(work: Work, practical_id: str) -> tuple[Practical, Gathered]:
    """The practical and its season's ratings; a further attempt at some parts is no whole exam and takes no part."""
    practical, sheets, void = practical_edition(work, practical_id), work.seasons.sheets(practical_id), _void(work)
    first = work.seasons.first_examiners(practical_id)
    exams = [
        SeasonExam(
            exam.id,
            exam.enrolment_id,
            exam.day,
            frozenset(first.get(exam.id, ())),
            tuple(read_sheet(one.content) for one in sheets[exam.id]),
            exam.id in void,
        )
        for exam in work.seasons.exams(practical_id)
        if exam.id in sheets and exam.parts == "[]"
    ]
    return practical, gather(practical, exams)


def _void(work: Work) -> set[str]:
    return {exam for exam, decision in work.exams.all_decisions().items() if decision.outcome == Outcome.VOID}
