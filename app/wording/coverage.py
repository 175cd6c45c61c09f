"""Coverage in words: what was done with an exercise, how often and when last, and on what ground a strand stands."""

from app.wording.dates import day_text
from app.wording.languages import Language
from curriculum.competencies.evidence import Coverage, ShownActivity, ShownStrand
from curriculum.competencies.statements import STRAND_NAMES
from curriculum.faults import N_

COVERED = {
    "observed": N_("Observed"),
    "practised": N_("Practised"),
    "assisted": N_("Assisted with"),
    "taught": N_("Taught"),
    "assessed": N_("Assessed"),
}
GROUNDS = {
    "none": N_("nothing yet"),
    "noticed": N_("noticed in others' teaching or in practice"),
    "tried": N_("tried in practice teaching"),
    "supervised": N_("tried under supervision"),
    "assessed": N_("assessed"),
}


IN_SHORT = {
    "none": "–",
    "noticed": N_("noticed"),
    "tried": N_("tried"),
    "supervised": N_("under supervision"),
}


def activity_text(shown: ShownActivity, language: Language) -> str:
    """How often and when last; a dash where nothing is on record."""
    if shown.state == "open":
        return "–"
    day = day_text(shown.last, language.locale)
    if shown.state == "waiting":
        return language(N_("waits for signature, {day}"), day=day)
    text = language.ngettext("{number} time", "{number} times", shown.times)
    return language(N_("{times}, last on {day}"), times=text, day=day)


def in_short(coverage: Coverage, language: Language) -> str:
    """An exercise's coverage in one breath: what is covered, then what waits."""
    done = [language(COVERED[one]) for one, shown in coverage.activities if shown.state == "covered"]
    waits = [language(COVERED[one]) for one, shown in coverage.activities if shown.state == "waiting"]
    texts = [language.listed(done)] if done else []
    if waits:
        texts.append(language(N_("waiting: {what}"), what=language.listed(waits)))
    return "; ".join(texts) or language(N_("nothing yet"))


def strand_name(shown: ShownStrand, language: Language) -> str:
    return language(STRAND_NAMES[shown.strand])


def strand_text(shown: ShownStrand, language: Language) -> str:
    """On what ground a strand stands, who answers for the newest of it, and when."""
    ground = language(GROUNDS[shown.ground])
    if shown.ground == "none":
        return ground
    if shown.share is not None:
        ground = _assessed(shown, language)
    times = language.ngettext("{number} time", "{number} times", shown.times)
    day = day_text(shown.last, language.locale)
    if shown.assessor:
        return language(N_("{ground}; {times}, last on {day} with {name}"), ground=ground, times=times, day=day,
                        name=shown.assessor)  # fmt: skip
    return language(N_("{ground}; {times}, last on {day}"), ground=ground, times=times, day=day)


def strand_in_short(shown: ShownStrand, language: Language) -> str:
    """The ground alone, as a cell of a table; of an assessment the share."""
    if shown.share is not None:
        return language(N_("assessed, {share} %"), share=language.figure(round(float(shown.share) * 100)))
    return IN_SHORT["none"] if shown.ground == "none" else language(IN_SHORT[shown.ground])


def _assessed(shown: ShownStrand, language: Language) -> str:
    share = language.figure(round(float(shown.share) * 100))
    if shown.reached:
        return language(N_("assessed at {share} %, the mark was reached"), share=share)
    return language(N_("assessed at {share} %, the mark was not reached"), share=share)
