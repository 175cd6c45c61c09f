"""Plain sentences about measurement, for a director who is no statistician."""

from collections.abc import Iterable, Mapping

from app.wording.faults import fault_text
from app.wording.languages import ENGLISH, Language
from assessments.measurement.ratings import Ratings
from assessments.measurement.statistic import Statistic
from curriculum.faults import N_

Found = Mapping[str, object]

LABELS = {
    "percent": N_("Pairs of ratings that are the same"),
    "adjacent": N_("The same or one category apart"),
    "kappa": N_("Kappa, each difference counting alike"),
    "kappa_linear": N_("Kappa, a difference counting by its size"),
    "kappa_quadratic": N_("Kappa, large differences counting most"),
    "kappa_weighted": N_("Kappa, by the table of disagreement"),
    "fleiss_kappa": N_("Fleiss' kappa, order ignored"),
    "alpha_nominal": N_("Krippendorff's alpha, order ignored"),
    "alpha_ordinal": N_("Krippendorff's alpha, levels in order"),
    "alpha_interval": N_("Krippendorff's alpha, marks"),
    "ac1": N_("AC1, order ignored"),
    "ac2_linear": N_("AC2, a difference counting by its size"),
    "ac2_quadratic": N_("AC2, large differences counting most"),
    "icc_1_1": N_("Intraclass correlation, other examiners for each unit, one mark"),
    "icc_a_1": N_("Intraclass correlation, severity counting, one mark"),
    "icc_c_1": N_("Intraclass correlation, ranking only, one mark"),
    "icc_1_k": N_("Intraclass correlation, other examiners for each unit, mean mark"),
    "icc_a_k": N_("Intraclass correlation, severity counting, mean mark"),
    "icc_c_k": N_("Intraclass correlation, ranking only, mean mark"),
    "bias": N_("Mean difference of marks"),
    "alpha": N_("Alpha"),
    "sem": N_("Standard error of a total, in marks"),
    "agreement": N_("Same result twice"),
    "accuracy": N_("Right result"),
    "false_pass": N_("Passed wrongly"),
    "false_fail": N_("Failed wrongly"),
}
HIGHER = N_(
    "On average {a} marks {by} points higher than {b}; for 19 units out of 20, {a} minus {b} lies between "
    "{low} and {high} points."
)
LOWER = N_(
    "On average {a} marks {by} points lower than {b}; for 19 units out of 20, {a} minus {b} lies between "
    "{low} and {high} points."
)


def figures(statistic: Statistic, digits: int = 2, language: Language = ENGLISH) -> str:
    """An estimate with its likely range and cautions, or why there is none."""
    if statistic.estimate is None:
        return language(
            N_("no figure: {why}"), why=fault_text(statistic.withheld, language) if statistic.withheld else ""
        )
    text = language.decimal(statistic.estimate, digits)
    if statistic.low is not None and statistic.high is not None:
        low, high = (language.decimal(end, digits) for end in (statistic.low, statistic.high))
        text = language(N_("{figure} (likely between {low} and {high})"), figure=text, low=low, high=high)
    cautions = "; ".join(fault_text(flag, language) for flag in statistic.flags)
    return language(N_("{figures}. Caution: {why}"), figures=text, why=cautions) if cautions else text


def listed(found: Found, language: Language) -> list[str]:
    """One line for each labelled statistic."""
    named = ((label, found.get(key)) for key, label in LABELS.items())
    return [
        language(N_("  {name}: {figures}"), name=language(label), figures=figures(value, language=language))
        for label, value in named
        if isinstance(value, Statistic) and _fits(value)
    ]


def _fits(statistic: Statistic) -> bool:
    """Whether the statistic is meant for such ratings at all."""
    return statistic.withheld is None or not statistic.withheld.code.startswith("needs-")


def agreement_sentences(ratings: Ratings, found: Found, language: Language = ENGLISH) -> list[str]:
    lines = [_same_grade(ratings, found, language)]
    icc, many = found.get("icc_a_1"), found.get("icc_a_k")
    if is_shown(icc) and is_shown(many):
        lines.append(
            language(
                N_(
                    "If one other examiner had marked these units, {one} % of the differences between them would have "
                    "been the same; averaging {k} examiners makes that {many} %."
                ),
                one=_percent(icc),
                k=len(ratings.examiners),
                many=_percent(many),
            )
        )
    lines += _marks(ratings, found, language)
    kappa, same = found.get("kappa"), found.get("percent")
    if is_shown(kappa) and is_shown(same) and kappa.estimate < 0.4 and same.estimate > 0.85:
        lines.append(
            language(
                N_(
                    "Nearly all ratings fall in one category, which pulls kappa down although the examiners mostly agree: "
                    "read it with the share of equal ratings and AC1 before you doubt the examiners."
                )
            )
        )
    return [*(line for line in lines if line), *listed(found, language), *_pairs(found, language)]


def _same_grade(ratings: Ratings, found: Found, language: Language) -> str:
    same, near, kappa = found.get("percent"), found.get("adjacent"), found.get("kappa_quadratic")
    if not is_shown(same):
        return language(N_("Agreement can't be shown: {why}."), why=fault_text(same.withheld, language))
    names = list(ratings.examiners)
    if len(names) != 2:
        return language(
            N_("Two ratings of the same unit are equal in {share} % of cases ({n} units)."),
            share=_percent(same),
            n=language.figure(same.n),
        )
    shown = {"n": language.figure(same.n), "a": names[0], "b": names[1], "share": _percent(same)}
    shown["times"] = language.figure(round(same.n * same.estimate))
    text = language(N_("Of {n} units rated by both, {a} and {b} gave the same rating to {times} ({share} %)."), **shown)
    if is_shown(near):
        sentence = N_(
            "Of {n} units rated by both, {a} and {b} gave the same rating to {times} ({share} %) and were at most one "
            "category apart on {near}."
        )
        text = language(sentence, **shown, near=language.figure(round(near.n * near.estimate)))
    if not is_shown(kappa) or kappa.low is None:
        return text
    sentence = N_(
        "Allowing for luck, agreement is {kappa} on a scale where 0 is chance and 1 is perfect; with {n} units "
        "the true figure is likely between {low} and {high}."
    )
    numbers = {"kappa": kappa.estimate, "low": kappa.low, "high": kappa.high}
    ends = {name: language.decimal(number, 2) for name, number in numbers.items()}
    return f"{text} {language(sentence, n=language.figure(kappa.n), **ends)}"


def _marks(ratings: Ratings, found: Found, language: Language) -> list[str]:
    bias, limits = found.get("bias"), found.get("limits")
    if not isinstance(limits, Mapping) or not is_shown(bias):
        return []
    low, high = limits["low"], limits["high"]
    if not is_shown(low):
        return [
            language(N_("The limits of the differences can't be shown: {why}."), why=fault_text(low.withheld, language))
        ]
    a, b = ratings.examiners
    shown = {"a": a, "b": b, "by": language.decimal(abs(bias.estimate), 1)}
    shown |= {
        "low": language.decimal(low.estimate, 1, sign=True),
        "high": language.decimal(high.estimate, 1, sign=True),
    }
    return [language(HIGHER if bias.estimate > 0 else LOWER, **shown)]


def _pairs(found: Found, language: Language) -> list[str]:
    pairs = found.get("pairs") or []
    return [
        f"  {' / '.join(pair['examiners'])}: {figures(pair['kappa_quadratic'], language=language)}" for pair in pairs
    ]


def reliability_sentences(found: Found, rests_on: Found, language: Language = ENGLISH) -> list[str]:
    alpha, sem = found["alpha"], found["sem"]
    lines = [language(N_("{n} candidates on {k} parts."), n=rests_on["candidates"], k=rests_on["items"])]
    if rests_on["incomplete_left_out"]:
        lines.append(
            language(N_("{n} candidates with a part missing are left out."), n=rests_on["incomplete_left_out"])
        )
    if is_shown(alpha) and is_shown(sem):
        lines.append(
            language(
                N_("A candidate's total is right to within about {reach} marks either way (95 %)."),
                reach=language.decimal(1.96 * sem.estimate, 1),
            )
        )
    caution = N_(
        "Where one examiner marked all parts of one performance, this tells how alike the examiner's impressions are, "
        "not how reliable the exam is."
    )
    return [*lines, *listed(found, language), language(caution)]


def consistency_sentences(found: Found, rests_on: Found, language: Language = ENGLISH) -> list[str]:
    agreement, wrong_pass, wrong_fail = found["agreement"], found["false_pass"], found["false_fail"]
    if not is_shown(agreement):
        return [language(N_("This can't be shown: {why}."), why=fault_text(agreement.withheld, language))]
    text = language(
        N_(
            "If the same candidates sat an equivalent exam, about {same} in 100 would get the same result; about {passed} "
            "in 100 pass who should not and {failed} fail who should not."
        ),
        same=_percent(agreement),
        passed=_percent(wrong_pass),
        failed=_percent(wrong_fail),
    )
    return [text, *listed(found, language)]


def detection_sentences(
    observers: Iterable[Found], pooled: Statistic | None = None, language: Language = ENGLISH
) -> list[str]:
    lines = [_observer(observer, language) for observer in observers]
    if pooled is not None and is_shown(pooled):
        together = N_("All observers together, each with a tendency of their own: {figures}")
        lines.append(language(together, figures=figures(pooled, 1, language)))
    return lines


def _observer(found: Found, language: Language) -> str:
    d_prime, criterion = found["d_prime"], found["criterion"]
    text = language(
        N_("{who} found {hits} of the {faults} faults and raised {alarms} false alarms in {sound} sound clips."),
        who=found["id"],
        hits=found["hits"],
        faults=found["signal_trials"],
        alarms=found["false_alarms"],
        sound=found["noise_trials"],
    )
    if not is_shown(d_prime):
        return (
            text
            + " "
            + language(N_("The eye for faults can't be shown: {why}."), why=fault_text(d_prime.withheld, language))
        )
    text += " " + language(
        N_("The eye for faults is {d} (0 is guessing, 3 is near perfect; likely {low} to {high})."),
        d=language.decimal(d_prime.estimate, 1),
        low=language.decimal(d_prime.low, 1),
        high=language.decimal(d_prime.high, 1),
    )
    return f"{text} {_tendency(criterion, language)}"


def _tendency(criterion: Statistic, language: Language) -> str:
    if criterion.low is not None and criterion.low > 0:
        return language(N_("Tends to report too little."))
    if criterion.high is not None and criterion.high < 0:
        return language(N_("Tends to report too much."))
    return language(N_("Tends neither to over- nor to under-report."))


def is_shown(value: object) -> bool:
    return isinstance(value, Statistic) and value.estimate is not None


def _percent(statistic: Statistic) -> int:
    return round(100 * statistic.estimate)
