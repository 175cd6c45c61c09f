"""Plain sentences about measurement, for a director who is no statistician."""

from collections.abc import Iterable, Mapping

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
METHODS = {
    "angoff": N_("It is what the judges expect of a just-acceptable candidate."),
    "borderline-group": N_("It is the middle mark of the candidates whose overall impression was 'borderline'."),
    "borderline-regression": N_("It is the mark that examiners' overall impression 'borderline' corresponds to."),
    "contrasting-groups": N_("It is the mark from which a candidate is more likely competent than not."),
    "hofstee": N_("It is where the judges' limits for the mark and for the share failing meet the marks obtained."),
    "beuk": N_("It is where what judges ask of the mark and of the share passing meets the marks obtained."),
}


def figures(statistic: Statistic, digits: int = 2) -> str:
    """An estimate with its likely range and cautions, or why there is none."""
    if statistic.estimate is None:
        return N_("no figure: {why}").format(why=statistic.withheld.text() if statistic.withheld else "")
    text = f"{statistic.estimate:.{digits}f}"
    if statistic.low is not None and statistic.high is not None:
        text += N_(" (likely between {low} and {high})").format(
            low=f"{statistic.low:.{digits}f}", high=f"{statistic.high:.{digits}f}"
        )
    cautions = "; ".join(flag.text() for flag in statistic.flags)
    return f"{text}. {N_('Caution')}: {cautions}" if cautions else text


def listed(found: Found) -> list[str]:
    """One line for each labelled statistic."""
    named = ((label, found.get(key)) for key, label in LABELS.items())
    return [f"  {label}: {figures(value)}" for label, value in named if isinstance(value, Statistic) and _fits(value)]


def _fits(statistic: Statistic) -> bool:
    """Whether the statistic is meant for such ratings at all."""
    return statistic.withheld is None or not statistic.withheld.code.startswith("needs-")


def agreement_sentences(ratings: Ratings, found: Found) -> list[str]:
    lines = [_same_grade(ratings, found)]
    icc, many = found.get("icc_a_1"), found.get("icc_a_k")
    if _shown(icc) and _shown(many):
        lines.append(
            N_(
                "If one other examiner had marked these units, {one} % of the differences between them would have "
                "been the same; averaging {k} examiners makes that {many} %."
            ).format(one=_percent(icc), k=len(ratings.examiners), many=_percent(many))
        )
    lines += _marks(ratings, found)
    kappa, same = found.get("kappa"), found.get("percent")
    if _shown(kappa) and _shown(same) and kappa.estimate < 0.4 and same.estimate > 0.85:
        lines.append(
            N_(
                "Nearly all ratings fall in one category, which pulls kappa down although the examiners mostly agree: "
                "read it with the share of equal ratings and AC1 before you doubt the examiners."
            )
        )
    return [*(line for line in lines if line), *listed(found), *_pairs(found)]


def _same_grade(ratings: Ratings, found: Found) -> str:
    same, near, kappa = found.get("percent"), found.get("adjacent"), found.get("kappa_quadratic")
    if not _shown(same):
        return N_("Agreement can't be shown: {why}.").format(why=same.withheld.text())
    names = list(ratings.examiners)
    if len(names) != 2:
        return N_("Two ratings of the same unit are equal in {share} % of cases ({n} units).").format(
            share=_percent(same), n=same.n
        )
    text = N_("Of {n} units rated by both, {a} and {b} gave the same rating to {times} ({share} %)").format(
        n=same.n, a=names[0], b=names[1], times=round(same.n * same.estimate), share=_percent(same)
    )
    if _shown(near):
        text += N_(" and were at most one category apart on {times}").format(times=round(near.n * near.estimate))
    text += "."
    if _shown(kappa) and kappa.low is not None:
        text += N_(
            " Allowing for luck, agreement is {kappa:.2f} on a scale where 0 is chance and 1 is perfect; with {n} units "
            "the true figure is likely between {low:.2f} and {high:.2f}."
        ).format(kappa=kappa.estimate, n=kappa.n, low=kappa.low, high=kappa.high)
    return text


def _marks(ratings: Ratings, found: Found) -> list[str]:
    bias, limits = found.get("bias"), found.get("limits")
    if not isinstance(limits, Mapping) or not _shown(bias):
        return []
    low, high = limits["low"], limits["high"]
    if not _shown(low):
        return [N_("The limits of the differences can't be shown: {why}.").format(why=low.withheld.text())]
    a, b = ratings.examiners
    side = N_("higher") if bias.estimate > 0 else N_("lower")
    return [
        N_(
            "On average {a} marks {by:.1f} points {side} than {b}; for 19 units out of 20, {a} minus {b} lies between "
            "{low:+.1f} and {high:+.1f} points."
        ).format(a=a, b=b, by=abs(bias.estimate), side=side, low=low.estimate, high=high.estimate)
    ]


def _pairs(found: Found) -> list[str]:
    pairs = found.get("pairs") or []
    return [f"  {' / '.join(pair['examiners'])}: {figures(pair['kappa_quadratic'])}" for pair in pairs]


def reliability_sentences(found: Found, rests_on: Found) -> list[str]:
    alpha, sem = found["alpha"], found["sem"]
    lines = [N_("{n} candidates on {k} parts.").format(n=rests_on["candidates"], k=rests_on["items"])]
    if rests_on["incomplete_left_out"]:
        lines.append(N_("{n} candidates with a part missing are left out.").format(n=rests_on["incomplete_left_out"]))
    if _shown(alpha) and _shown(sem):
        lines.append(
            N_("A candidate's total is right to within about {reach:.1f} marks either way (95 %).").format(
                reach=1.96 * sem.estimate
            )
        )
    caution = N_(
        "Where one examiner marked all parts of one performance, this tells how alike the examiner's impressions are, "
        "not how reliable the exam is."
    )
    return [*lines, *listed(found), caution]


def consistency_sentences(found: Found, rests_on: Found) -> list[str]:
    agreement, wrong_pass, wrong_fail = found["agreement"], found["false_pass"], found["false_fail"]
    if not _shown(agreement):
        return [N_("This can't be shown: {why}.").format(why=agreement.withheld.text())]
    text = N_(
        "If the same candidates sat an equivalent exam, about {same} in 100 would get the same result; about {passed} "
        "in 100 pass who should not and {failed} fail who should not."
    ).format(same=_percent(agreement), passed=_percent(wrong_pass), failed=_percent(wrong_fail))
    return [text, *listed(found)]


def cut_score_sentences(method: str, found: Found, most: float | None) -> list[str]:
    cut = found["cut"]
    if not _shown(cut):
        lines = [N_("There is no pass mark: {why}.").format(why=cut.withheld.text())]
        if found.get("fallback") is not None:
            lines.append(
                N_("Where a rule asks for one all the same, the nearer limit is {mark:.1f}.").format(
                    mark=found["fallback"]
                )
            )
        return lines
    out_of = N_(" out of {most:g}").format(most=most) if most else ""
    ends = (
        N_(" (likely range {low:.1f} to {high:.1f})").format(low=cut.low, high=cut.high) if cut.low is not None else ""
    )
    lines = [N_("The pass mark is {cut:.1f}").format(cut=cut.estimate) + out_of + ends + ".", METHODS[method]]
    failing = found.get("fail_percent")
    if failing is not None:
        lines.append(N_("{share:.0f} in 100 candidates would fail.").format(share=failing))
    return lines + [f"{N_('Caution')}: {flag.text()}." for flag in cut.flags]


def detection_sentences(observers: Iterable[Found], pooled: Statistic | None = None) -> list[str]:
    lines = [_observer(observer) for observer in observers]
    if pooled is not None and _shown(pooled):
        together = N_("All observers together, each with a tendency of their own: {figures}")
        lines.append(together.format(figures=figures(pooled, 1)))
    return lines


def _observer(found: Found) -> str:
    d_prime, criterion = found["d_prime"], found["criterion"]
    text = N_(
        "{who} found {hits} of the {faults} faults and raised {alarms} false alarms in {sound} sound clips."
    ).format(
        who=found["id"],
        hits=found["hits"],
        faults=found["signal_trials"],
        alarms=found["false_alarms"],
        sound=found["noise_trials"],
    )
    if not _shown(d_prime):
        return text + " " + N_("The eye for faults can't be shown: {why}.").format(why=d_prime.withheld.text())
    text += " " + N_(
        "The eye for faults is {d:.1f} (0 is guessing, 3 is near perfect; likely {low:.1f} to {high:.1f})."
    ).format(d=d_prime.estimate, low=d_prime.low, high=d_prime.high)
    return f"{text} {_tendency(criterion)}"


def _tendency(criterion: Statistic) -> str:
    if criterion.low is not None and criterion.low > 0:
        return N_("Tends to report too little.")
    if criterion.high is not None and criterion.high < 0:
        return N_("Tends to report too much.")
    return N_("Tends neither to over- nor to under-report.")


def _shown(value: object) -> bool:
    return isinstance(value, Statistic) and value.estimate is not None


def _percent(statistic: Statistic) -> int:
    return round(100 * statistic.estimate)
