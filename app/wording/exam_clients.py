"""The client of an exam and the screening of the list in words."""

from collections.abc import Mapping

from app.wording.languages import Language
from assessments.practicals.client import ClientRule
from assessments.practicals.screening import Swap
from curriculum.faults import N_

BRINGS: Mapping[str, str] = {
    "school": N_("The school brings the client."),
    "candidate": N_("The candidate brings the client."),
    "either": N_("The school or the candidate brings the client."),
}
NO_SHOW: Mapping[str, str] = {
    "void": N_("Nobody after {wait} minutes: the reserve is taken; without one the exam is void and uses no attempt."),
    "not-completed": N_("Nobody after {wait} minutes: the reserve is taken; without one the exam is not completed."),
}
BROUGHT_BY: Mapping[str, str] = {"school": N_("the school"), "candidate": N_("the candidate")}
HERE: Mapping[str, str] = {
    "": N_("not looked yet"),
    "client": N_("the client is here"),
    "reserve": N_("the reserve is here instead"),
    "nobody": N_("nobody came"),
}
SWAPPED = N_("{exercise} is withheld for this client; instead: {instead}.")
SWAPPED_AS = N_("{exercise} is withheld for this client ({cautions}); instead: {instead}.")
NO_EQUAL = N_(
    "{exercise} is withheld for this client, and the repertoire has no equal one. To decline it scores as right."
)
NO_EQUAL_AS = N_(
    "{exercise} is withheld for this client ({cautions}), and the repertoire has no equal one. To decline it scores as right."
)
GAVE_WAY: Mapping[str, str] = {
    "family": N_("Of another movement family: there is none of the same."),
    "minutes": N_("Shorter or longer: there is none of the same length."),
}
INSTEAD_OF = N_("{instead}, instead of {exercise}")
TO_DECLINE = N_("{exercise}, withheld: to decline it is right")


def rule_text(rule: ClientRule, language: Language) -> str:
    """A practical's rule on clients."""
    return f"{language(BRINGS[rule.brought_by])} {language(NO_SHOW[rule.no_show], wait=language.figure(rule.wait))}"


def swap_text(swap: Swap, names: Mapping[str, str], cautions: Mapping[str, str], language: Language) -> str:
    """One swap in a sentence; without its cautions once they are erased."""
    shown = {"exercise": names.get(swap.exercise, swap.exercise), "instead": names.get(swap.instead, swap.instead)}
    why = language.listed([cautions.get(code, code) for code in swap.cautions])
    sentences = (SWAPPED_AS, SWAPPED) if swap.instead else (NO_EQUAL_AS, NO_EQUAL)
    said = language(sentences[0], cautions=why, **shown) if why else language(sentences[1], **shown)
    return " ".join([said, *(language(GAVE_WAY[one]) for one in swap.gave_way)])
