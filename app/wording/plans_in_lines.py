"""A checked session plan as plain text, for the command line."""

from collections.abc import Iterator

from app.wording.faults import fault_text
from app.wording.languages import ENGLISH, Language
from app.wording.practicals import elapsed
from curriculum.faults import N_
from curriculum.sessions.plan import Plan
from curriculum.sessions.plan_check import PlanCheck


def built_line(chosen: int, considered: int, value: object, language: Language = ENGLISH) -> str:
    """How many exercises were chosen of how many, and that no better plan exists."""
    sentence = N_("{chosen} of {considered} exercises, value {value}, the best there is (gap 0)")
    return language(sentence, chosen=chosen, considered=considered, value=value)


def plan_lines(plan: Plan, checked: PlanCheck, language: Language = ENGLISH) -> Iterator[str]:
    """Each exercise with what changes after it, the time it all takes, order, balance and warnings."""
    for item in checked.items:
        yield f"{elapsed(round(item.seconds)):>8}  {item.exercise.name} ({item.exercise.id})"
        yield from (f"{'':10}  – {step}" for step in (item.passage.steps if item.passage else ()))
        if item.passage:
            yield f"{elapsed(round(item.transition_seconds)):>8}  {language(N_('to the next'))}"
    yield language(
        N_("Moving {moving}, transitions {changes} ({share} %)"),
        moving=elapsed(round(checked.moving_seconds)),
        changes=elapsed(round(checked.transition_seconds)),
        share=round(100 * float(checked.transition_share)),
    )
    factor, whole = language.figure(float(plan.factor)), elapsed(round(checked.seconds))
    yield language(N_("With factor {factor}, intake and close: {time}"), factor=factor, time=whole)
    yield language(N_("In order: {kept} of {number}"), kept=checked.order_kept, number=len(checked.items))
    if checked.out_of_order:
        yield language(N_("Out of order: {ids}"), ids=language.listed(checked.out_of_order))
    families = [f"{name} {count}" for name, count in checked.families.items()]
    yield language(N_("Families: {families}"), families=language.listed(families))
    yield from (f"! {fault_text(warning, language)}" for warning in checked.warnings)
