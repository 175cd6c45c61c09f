"""Judges' rounds on the demo school's basic practical: a first round, a talk, a second that waits. All invented."""

import json
from datetime import datetime, timedelta
from random import Random

from app.queries.exam_facts import practical_edition
from app.storage.judging import Judging, JudgingAnswer, JudgingStep
from app.storage.work import School, Store, Work
from assessments.season.compromise import BOUNDS
from assessments.season.judging import block_shares

PRACTICAL = "practical-basic"
PANEL = "judging-of-the-demo"
LEANINGS = {"examiner-1": -2, "examiner-2": 3, "examiner-3": 12, "examiner-4": -9, "examiner-5": 1, "examiner-6": -3}
HARDER = {"drawn": -6, "mat": 3}
JUST_PASSING = 71
TALK = (
    "Whether a candidate who only just passes may still stop to think before an exercise that was drawn, and how much "
    "an unsteady opening counts when the rest holds together."
)


def add_demo_judging(store: Store, school: School, now: datetime) -> None:
    """A panel of the season's examiners; the first of them has still to answer in the second round."""
    chance, opened = Random(7), now - timedelta(days=12)
    with store.writing(school.id) as work:
        blocks = block_shares(practical_edition(work, PRACTICAL))
        work.judgings.add(Judging(PANEL, PRACTICAL, json.dumps(sorted(LEANINGS)), "director", opened))
        body = {"judging": PANEL, "judges": sorted(LEANINGS)}
        work.record.append("judging-opened", PRACTICAL, "director", opened, body)
        for place, (judge, leaning) in enumerate(LEANINGS.items(), start=1):
            first = {id: _mark(chance, leaning, id, 6) for id in blocks}
            _answer(work, judge, 1, first, opened + timedelta(hours=9 * place))
            closer = {id: _mark(chance, leaning / 2, id, 3) for id in blocks}
            if judge != "examiner-1":
                _answer(work, judge, 2, closer, opened + timedelta(days=5, hours=7 * place))
        at = opened + timedelta(days=4)
        work.judgings.add_step(JudgingStep(PANEL, "second", TALK, "director", at))
        body = {"judging": PANEL, "step": "second", "words": TALK}
        work.record.append("judging-step", PRACTICAL, "director", at, body)
        work.commit()


def _mark(chance: Random, leaning: float, block: str, spread: float) -> int:
    return round(JUST_PASSING + leaning + HARDER.get(block, 0) + chance.gauss(0, spread))


def _answer(work: Work, judge: str, number: int, marks: dict[str, int], at: datetime) -> None:
    middle = sum(marks.values()) // len(marks)
    bounds = dict(zip(BOUNDS, (middle - 6, middle + 7, 5, 30, 82), strict=True))
    answer = JudgingAnswer(PANEL, judge, number, json.dumps(marks), json.dumps(bounds), at)
    work.judgings.add_answer(answer)
    body = {"judging": PANEL, "round": number}
    work.record.append("pass-mark-judged", PRACTICAL, judge, at, body)
