"""Drawn lists and seated exams in sentences, for a director."""

from collections.abc import Sequence

from assessments.practicals.drawing import Drawing, DrawnList
from assessments.practicals.drawing_specification import DrawingSpecification
from assessments.practicals.panel import Exam
from curriculum.faults import N_

LIST = N_("List {number}: {tasks} ({minutes:.4g} minutes, mean difficulty {difficulty:.3f})")
ORDERED = N_("  Transitions {seconds:g} s; no order of these tasks takes less.")
UNPROVEN = N_("  Transitions {seconds:g} s; a shorter order may exist.")
SEALED = N_("The lists stay sealed until the start.")
GIVEN_OUT = N_("The lists are given out {days} days before the exam.")
CHOSEN = N_("The candidate chooses the order; transitions are not counted.")
NEAREST = N_("Largest distance from the target {deviation:.4f}: proven the least.")
NEAR = N_("Largest distance from the target {deviation:.4f}; the least possible is at most {gap:.4f} smaller.")
IN_BOUNDS = N_("Every list keeps every clause of the specification; each order is proven the shortest of its tasks.")
LOOSE = N_("Every list keeps every clause; an order may be up to {gap:g} s longer than the shortest of its tasks.")
EXAM = N_("{slot}  {room}  {candidate}: {examiners}")
LINKED = N_("All examiners are linked through shared candidates.")
APART = N_("Not all examiners are linked through shared candidates: their severities can't be compared.")


def drawing_lines(drawn: Drawing, spec: DrawingSpecification) -> list[str]:
    """Each list, when it is given out, and what is proven."""
    timed = bool(spec.transitions) or any(one.transition_seconds for one in drawn.lists)
    lines = [line for n, one in enumerate(drawn.lists, 1) for line in _list_lines(n, one, timed)]
    if spec.notice:
        lines.append(SEALED if spec.notice == "sealed" else GIVEN_OUT.format(days=spec.notice))
    if spec.order == "candidate":
        lines.append(CHOSEN)
    return [*lines, _proof(drawn)]


def _list_lines(number: int, one: DrawnList, timed: bool) -> list[str]:
    tasks = ", ".join(one.tasks)
    line = LIST.format(number=number, tasks=tasks, minutes=one.minutes, difficulty=one.difficulty)
    order = ORDERED if one.order_proven else UNPROVEN
    return [line, order.format(seconds=one.transition_seconds)] if timed else [line]


def _proof(drawn: Drawing) -> str:
    if drawn.deviation is None:
        return IN_BOUNDS if drawn.proven_optimal else LOOSE.format(gap=drawn.gap)
    sentence = NEAREST if drawn.gap == 0 else NEAR
    return sentence.format(deviation=drawn.deviation, gap=drawn.gap)


def panel_lines(exams: Sequence[Exam], connected: bool) -> list[str]:
    """Each exam in the order of the day, and whether the examiners can be compared."""
    lines = [
        EXAM.format(slot=one.slot, room=one.room, candidate=one.candidate, examiners=", ".join(one.examiners))
        for one in exams
    ]
    return [*lines, LINKED if connected else APART]
