"""What stands of judges' rounds on a pass mark: who sits, what they answered, what it comes to."""

import json
from collections.abc import Mapping, Sequence

from app.files.seasons import plain
from app.queries.exam_facts import practical_edition
from app.storage.judging import Judging
from app.storage.work import Work
from assessments.season.compromise import panel_compromise
from assessments.season.judging import JudgedRound, Rounds, judged_round, rounds_stand

Marks = dict[str, dict[str, float]]


def judges_of(judging: Judging) -> frozenset[str]:
    """Ids of the people who judge."""
    return frozenset(json.loads(judging.judges))


def answers_of(work: Work, judging: Judging, number: int) -> Marks:
    """The marks of one round, by judge and block."""
    return {one.judge_id: json.loads(one.marks) for one in work.judgings.answers(judging.id) if one.round == number}


def bounds_of(work: Work, judging: Judging, number: int) -> Marks:
    """What the judges of one round could accept, by judge; empty for those who did not say."""
    return {one.judge_id: json.loads(one.bounds) for one in work.judgings.answers(judging.id) if one.round == number}


def rounds_of(work: Work, judging: Judging) -> Rounds:
    """Where the panel stands."""
    answered: dict[int, set[str]] = {}
    for one in work.judgings.answers(judging.id):
        answered.setdefault(one.round, set()).add(one.judge_id)
    return rounds_stand(judges_of(judging), answered, set(work.judgings.steps(judging.id)))


def shown_round(work: Work, judging: Judging) -> JudgedRound | None:
    """The last round that is over, or None while the first is open."""
    shown = rounds_of(work, judging).shown
    answers = answers_of(work, judging, shown) if shown else {}
    return judged_round(practical_edition(work, judging.practical_id), answers) if answers else None


def marks_of_panel(work: Work, judging: Judging, totals: Sequence[float]) -> dict[str, Mapping[str, object]]:
    """The judges' pass marks by method as plain statistics; `totals` are a season's, in per cent."""
    found = shown_round(work, judging)
    if found is None:
        return {}
    bounds = bounds_of(work, judging, rounds_of(work, judging).shown)
    return plain({"judges": found.cut, **panel_compromise(found.own, bounds, totals)})


def judged_marks(work: Work, practical_id: str, totals: Sequence[float]) -> dict[str, Mapping[str, object]]:
    """`marks_of_panel` of the newest panel on an edition whose first round is over; empty if there is none."""
    for judging in work.judgings.all():
        if judging.practical_id == practical_id and (found := marks_of_panel(work, judging, totals)):
            return found
    return {}
