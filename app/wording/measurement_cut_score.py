"""Sentences about a pass mark, by whatever method it came about."""

from app.wording.faults import fault_text
from app.wording.languages import ENGLISH, Language
from app.wording.measurement import Found, is_shown
from curriculum.faults import N_

METHODS = {
    "angoff": N_("It is what the judges expect of a just-acceptable candidate."),
    "borderline-group": N_("It is the middle mark of the candidates whose overall impression was 'borderline'."),
    "borderline-regression": N_("It is the mark that examiners' overall impression 'borderline' corresponds to."),
    "contrasting-groups": N_("It is the mark from which a candidate is more likely competent than not."),
    "hofstee": N_("It is where the judges' limits for the mark and for the share failing meet the marks obtained."),
    "beuk": N_("It is where what judges ask of the mark and of the share passing meets the marks obtained."),
}


def cut_score_sentences(method: str, found: Found, most: float | None, language: Language = ENGLISH) -> list[str]:
    cut = found["cut"]
    if not is_shown(cut):
        lines = [language(N_("There is no pass mark: {why}."), why=fault_text(cut.withheld, language))]
        if found.get("fallback") is not None:
            lines.append(
                language(
                    N_("Where a rule asks for one all the same, the nearer limit is {mark}."),
                    mark=language.decimal(found["fallback"], 1),
                )
            )
        return lines
    mark = language.decimal(cut.estimate, 1)
    if most:
        mark = language(N_("{mark} out of {most}"), mark=mark, most=language.figure(most))
    line = language(N_("The pass mark is {mark}."), mark=mark)
    if cut.low is not None:
        sentence = N_("The pass mark is {mark} (likely range {low} to {high}).")
        line = language(sentence, mark=mark, low=language.decimal(cut.low, 1), high=language.decimal(cut.high, 1))
    lines = [line, *_method(method, found, language)]
    failing = found.get("fail_percent")
    if failing is not None:
        lines.append(language(N_("{share} in 100 candidates would fail."), share=language.decimal(failing, 0)))
    lines += _rounds(found.get("rounds"), language)
    return lines + [language(N_("Caution: {why}."), why=fault_text(flag, language)) for flag in cut.flags]


def _method(method: str, found: Found, language: Language) -> list[str]:
    if found.get("share", 0.5) != 0.5:
        return [language(UNEQUAL_COSTS, share=language.decimal(100 * found["share"], 0))]
    if "exercises" not in found:
        return [language(METHODS[method])]
    marks = [one["cut"].estimate for one in found["exercises"]]
    parts = [
        f"{one['id']} {language.decimal(mark, 1)}"
        for one, mark in zip(found["exercises"], marks, strict=True)
        if mark is not None
    ]
    lines = [language(EXAM_CUT), ", ".join(parts) + "."]
    if found["left_out"]:
        lines.append(language(LEFT_OUT, count=found["left_out"]))
    return lines


UNEQUAL_COSTS = N_("It is the mark from which {share} in 100 candidates are competent, as the two errors' costs ask.")
EXAM_CUT = N_("It is the sum of the exercises' marks that the overall impression 'borderline' corresponds to:")
LEFT_OUT = N_("Candidates left out because a mark or a grade is missing: {count}.")


def _rounds(rounds: Found | None, language: Language) -> list[str]:
    if not rounds or not is_shown(rounds["change"]):
        return []
    change, spread = rounds["change"], (rounds["sd_before"], rounds["sd_after"])
    before, after = (language.decimal(sd, 2) for sd in spread)
    by = language.decimal(abs(change.estimate), 2)
    lines = [language(RAISED if change.estimate > 0 else LOWERED, by=by)]
    return [*lines, language(CLOSER if spread[1] < spread[0] else WIDER, before=before, after=after)]


RAISED = N_("Since the round before the judges raised the pass mark by {by}.")
LOWERED = N_("Since the round before the judges lowered the pass mark by {by}.")
CLOSER = N_("They came closer together: the spread of their own marks fell from {before} to {after}.")
WIDER = N_("They did not come closer together: the spread of their own marks was {before} and is {after}.")
