"""Drawn lists and seated exams in sentences, for a director."""

from collections.abc import Sequence

from app.wording.languages import ENGLISH, Language
from assessments.practicals.drawing_specification import DrawingSpecification
from assessments.practicals.drawn_list import Drawing, DrawnList
from assessments.practicals.panel import Exam
from curriculum.faults import N_

LIST = N_("List {number}: {tasks} ({minutes:.4g} minutes, mean difficulty {difficulty:.3f})")
ORDERED = N_("  Transitions {seconds:g} s; no order of these tasks takes less.")
UNPROVEN = N_("  Transitions {seconds:g} s; a shorter order may exist.")
INFORMATION = N_("  Information at the pass mark {value:.3f}.")
AT_TARGET = N_("  Information at the target's points: {values}.")
RECENT = N_("  Drawn lately already: {tasks}.")
THIN = N_("  Difficulty measured on fewer than 30 candidates, so read it as rough: {tasks}.")
LEFT_OUT = N_("Left out, as their difficulty was measured on fewer than 15 candidates: {tasks}.")
LESS = N_("List {number} does not keep {rule}: {found:g} where {asked:g} or more were asked.")
MORE = N_("List {number} does not keep {rule}: {found:g} where {asked:g} or less were asked.")
RELAXED = N_("Every other clause is kept; what gave way did so by as little as was found to do.")
MINUTES = N_("minutes")
FEWER = N_("not kept: {what}, {found:g} where {asked:g} or more were asked")
FURTHER = N_("not kept: {what}, {found:g} where {asked:g} or less were asked")
SEALED = N_("The lists stay sealed until the start.")
CHOSEN = N_("The candidate chooses the order; transitions are not counted.")
NEAREST = N_("Largest distance from the target {deviation:.4f}: proven the least.")
NEAR = N_("Largest distance from the target {deviation:.4f}; the least possible is at most {gap:.4f} smaller.")
IN_BOUNDS = N_("Every list keeps every clause of the specification; each order is proven the shortest of its tasks.")
LOOSE = N_("Every list keeps every clause; an order may be up to {gap:g} s longer than the shortest of its tasks.")
BROKEN_ORDERS = N_("Each order is proven the shortest of its tasks.")
LOOSE_ORDERS = N_("An order may be up to {gap:g} s longer than the shortest of its tasks.")
EXAM = N_("{slot}  {room}  {candidate}: {examiners}")
LINKED = N_("All examiners are linked through shared candidates.")
APART = N_("Not all examiners are linked through shared candidates: their severities can't be compared.")


def drawing_lines(drawn: Drawing, spec: DrawingSpecification, language: Language = ENGLISH) -> list[str]:
    """Each list, when it is given out, and what is proven."""
    timed = bool(spec.transitions) or any(one.transition_seconds for one in drawn.lists)
    lines = [line for n, one in enumerate(drawn.lists, 1) for line in _list_lines(n, one, timed, language)]
    if spec.notice:
        lines.append(_given_out(spec.notice, language))
    if spec.order == "candidate":
        lines.append(language(CHOSEN))
    if drawn.left_out:
        lines.append(language(LEFT_OUT, tasks=language.listed(drawn.left_out)))
    return [*lines, *broken_texts(drawn, language), proof_text(drawn, language)]


def broken_texts(drawn: Drawing, language: Language = ENGLISH) -> list[str]:
    """Which rules gave way, list by list."""
    if not drawn.broken:
        return []
    lines = [
        language(LESS if one.found < one.asked else MORE, number=one.list + 1, rule=one.rule,
                 found=one.found, asked=one.asked)
        for one in drawn.broken
    ]  # fmt: skip
    return [*lines, language(RELAXED)]


def not_kept(drawn: Drawing, place: int, language: Language = ENGLISH) -> list[str]:
    """What one list, by its place from 0, does not keep, for people who never saw a specification."""
    lines = []
    for one in drawn.broken:
        if one.list == place:
            clause, *kind, _ = one.rule.split(".")
            what = language(MINUTES) if clause == "minutes" else " ".join(kind or [clause])
            sentence = FEWER if one.found < one.asked else FURTHER
            lines.append(language(sentence, what=what, found=one.found, asked=one.asked))
    return lines


def _list_lines(number: int, one: DrawnList, timed: bool, language: Language) -> list[str]:
    tasks = language.listed(one.tasks)
    line = language(LIST, number=number, tasks=tasks, minutes=one.minutes, difficulty=one.difficulty)
    order = ORDERED if one.order_proven else UNPROVEN
    lines = [line, language(order, seconds=one.transition_seconds)] if timed else [line]
    if one.information:
        lines.append(language(AT_TARGET, values=language.listed([f"{value:.3f}" for value in one.information])))
    if one.information_at_cut is not None:
        lines.append(language(INFORMATION, value=one.information_at_cut))
    told = ((RECENT, one.recent), (THIN, one.thin))
    return lines + [language(sentence, tasks=language.listed(tasks)) for sentence, tasks in told if tasks]


def _given_out(notice: int | str, language: Language) -> str:
    if notice == "sealed":
        return language(SEALED)
    return language.ngettext(
        "The lists are given out {number} day before the exam.",
        "The lists are given out {number} days before the exam.",
        int(notice),
    )


def proof_text(drawn: Drawing, language: Language = ENGLISH) -> str:
    """What is proven of the lists, in a sentence."""
    if drawn.deviation is None and drawn.broken:
        return language(BROKEN_ORDERS) if drawn.proven_optimal else language(LOOSE_ORDERS, gap=drawn.gap)
    if drawn.deviation is None:
        return language(IN_BOUNDS) if drawn.proven_optimal else language(LOOSE, gap=drawn.gap)
    sentence = NEAREST if drawn.gap == 0 else NEAR
    return language(sentence, deviation=drawn.deviation, gap=drawn.gap)


def panel_lines(exams: Sequence[Exam], connected: bool, language: Language = ENGLISH) -> list[str]:
    """Each exam in the order of the day, and whether the examiners can be compared."""
    lines = [
        language(EXAM, slot=one.slot, room=one.room, candidate=one.candidate, examiners=language.listed(one.examiners))
        for one in exams
    ]
    return [*lines, language(LINKED if connected else APART)]
