"""A season in plain words, for people who are no statisticians; what rests on too little says so, and what it takes.

A statistic is a plain object: `estimate`, `low`, `high`, `n`, `withheld`, `flags` (see `app.files.seasons`).
"""

from collections.abc import Iterable, Mapping

from babel.numbers import format_decimal

from app.wording.languages import Language
from app.wording.season_counts import LEFT_OUT, THINGS, exams_outside
from curriculum.faults import N_

Found = Mapping[str, object]

FEW = N_("Not shown yet. It rests on {found} and takes at least {least}: with fewer, luck alone could move it far.")
NOBODY = N_(
    "Nobody's strictness is shown yet. It takes at least {exams} exams and {ratings} ratings by the same examiner: with "
    "fewer, luck alone could move it far."
)
HELD = N_("Not shown: {why}.")
THIN = N_("Read with care: this rests on {found} only, and grows steadier from {least} on.")
CARE = N_("Read with care: {why}.")
# What the model's own cautions say, without its unit of measurement.
PLAIN: Mapping[str, str] = {
    "weak-link": N_(
        "part of the panel is linked to the rest through few shared candidates, so that their strictness is compared "
        "only roughly"
    ),
    "weak-prior": N_(
        "an examiner, block or criterion with fewer than 20 ratings, or with none but the best or worst, is held near "
        "the average"
    ),
}
SAME = N_(
    "Of every 100 blocks that two examiners graded, they gave the same grade to {same} (likely {same_low} to "
    "{same_high}), and were at most one grade apart on {near}."
)
ALPHA = N_(
    "Allowing for luck, agreement is {value} on a scale where 0 is chance and 1 is perfect; the true figure is likely "
    "between {low} and {high}."
)
REAL = N_(
    "Of the differences between candidates' totals, {phi} % are real (likely {low} to {high}); the rest is who happened "
    "to examine and what the day was like."
)
ERROR = N_("A total is right to within about {reach} marks either way, 19 times out of 20.")
SHARES = N_(
    "In a single block marked by one examiner, {own} % of the spread comes from the candidate, {strict} % from some "
    "examiners being stricter, {suits} % from who examined whom, {task} % from what was asked, and {rest} % from nothing "
    "that could be named."
)
BAND = N_(
    "“Too close to call” reaches {season} marks either side of the pass mark: this season's own error, the pass mark's "
    "with it. While a season's sheets carry no error of their own, the rules' {rules} marks hold."
)
CUT = N_("The pass mark in use is {at} %.")
BY_GRADES = N_(
    "By the examiners' own overall grades it would be {at} % (likely {low} to {high}): the total that goes with "
    "“borderline”, by regression block by block."
)
INSIDE = N_("The two differ by no more than their errors allow.")
OUTSIDE = N_(
    "The two differ by more than their errors allow: a reason for the judges to look at the pass mark again, not to "
    "change it by itself."
)
LIKELY = N_("{at} %, likely {low} to {high}")
ALONE = N_("{at} %")
TWICE = N_(
    "If the same candidates were examined again by examiners of average strictness, about {same} of 100 would come out "
    "on the same side of the pass mark (likely {low} to {high})."
)
WRONG = N_("About {passed} of 100 pass who should not, and {failed} of 100 fail who should not.")
ON_TOTAL = N_("This looks at totals alone: floors and critical faults come on top.")
MILDER = N_("{size} marks milder than the average, likely {low} to {high}")
STRICTER = N_("{size} marks stricter than the average, likely {low} to {high}")
EVEN = N_("can't be told from the average (between {low} and {high} marks)")
ERRATIC = N_("{name} marks less predictably than the others; look at single sheets together.")
LEANS_LOW = N_(
    "{name} marks {what} lower than their strictness elsewhere lets one expect: by about {size} of 100 at the pass mark "
    "(likely {low} to {high})."
)
LEANS_HIGH = N_(
    "{name} marks {what} higher than their strictness elsewhere lets one expect: by about {size} of 100 at the pass mark "
    "(likely {low} to {high})."
)
NO_LEANINGS = N_("Nobody's marks of a single block or criterion stand out from their own strictness elsewhere.")
OWN_LEANS_LOW = N_(
    "You mark {what} lower than your strictness elsewhere lets one expect: by about {size} of 100 at the pass mark "
    "(likely {low} to {high})."
)
OWN_LEANS_HIGH = N_(
    "You mark {what} higher than your strictness elsewhere lets one expect: by about {size} of 100 at the pass mark "
    "(likely {low} to {high})."
)
STEADY = N_("steady")
AT = N_("reached from a total of {at} % on")
NOWHERE = N_("beyond what this exam can measure")
PLAN = N_("right to within {reach} marks; {phi} % real (likely {low} to {high})")
ISLANDS = N_("These examiners share no candidate with the others, so that nobody can tell strict from weak: {groups}.")
LINK = N_("One exam that is marked by an examiner of each group would link them; ten make it sure.")
OWN_SAME = N_(
    "Of {pairs} grades that somebody else gave to the same block, yours was the same {same} times and at most one apart "
    "{near} times."
)
OWN_MILD = N_("Your totals lie about {size} marks above what the average examiner gives (likely {low} to {high}).")
OWN_STRICT = N_("Your totals lie about {size} marks below what the average examiner gives (likely {low} to {high}).")
OWN_EVEN = N_("Your strictness can't be told from the average of the panel (between {low} and {high} marks).")
OWN_ERRATIC = N_("Your levels are less predictable than those of the others: worth a calibration, not a verdict.")
OWN_FITS = N_("Your levels go up and down with the candidates much as the panel's do.")
TOO_SMALL = N_(
    "With a panel of two, whatever is said of you says as much of the other. It is shown from three examiners on."
)
ONE_PARTNER = N_(
    "You have examined with one colleague only, and a comparison would name them. It is shown from two colleagues on."
)


def decimal(value: float, language: Language, digits: int = 1) -> str:
    """A number with so many digits after the point, as the language writes it."""
    pattern = "0." + "0" * digits if digits else "0"
    return format_decimal(round(value, digits) + 0.0, format=pattern, locale=language.locale)


def of_100(value: float, language: Language) -> str:
    return decimal(100 * value, language, 0)


def signed(value: float, language: Language) -> str:
    """A number with its sign, so that milder and stricter are told apart."""
    text = decimal(abs(value), language)
    return text if round(abs(value), 1) == 0 else f"{'+' if value > 0 else '−'}{text}"


def held_text(why: Found, language: Language) -> str:
    """Why something is not shown, kindly: what it rests on, and from when on it can be."""
    if why["code"] == "too-few":
        return language(FEW, **_counts(why["values"], language))
    return language(HELD, why=_sentence(why, language))


def cautions(statistics: Iterable[Found], language: Language, more: Iterable[Found] = ()) -> list[str]:
    """The cautions that belong to what is shown, each said once."""
    flags = [flag for one in statistics if one["estimate"] is not None for flag in one["flags"]]
    texts = []
    for flag in [*flags, *more]:
        thin = flag["code"] == "few"
        values = _counts(flag["values"], language) if thin else {"why": _sentence(flag, language)}
        texts.append(language(THIN if thin else CARE, **values))
    return list(dict.fromkeys(texts))


def _counts(values: Found, language: Language) -> dict[str, str]:
    found = THINGS[values["thing"]](language, int(float(values["found"])))
    return {"found": found, "least": decimal(float(values["least"]), language, 0)}


def _sentence(fault: Found, language: Language) -> str:
    if fault["code"] in PLAIN:
        return language(PLAIN[fault["code"]])
    return language(fault["sentence"], **fault["values"]) if fault["values"] else language(fault["sentence"])


def agreement_texts(found: Found, language: Language) -> list[str]:
    """How alike grades are, or why that is not shown."""
    same, near, alpha = found["same"], found["near"], found["alpha"]
    if same["estimate"] is None or near["estimate"] is None:
        return [held_text(same["withheld"] or near["withheld"], language)]
    values = {"same": same["estimate"], "same_low": same["low"], "same_high": same["high"], "near": near["estimate"]}
    texts = [language(SAME, **{key: of_100(value or 0, language) for key, value in values.items()})]
    if alpha["estimate"] is None:
        return [*texts, held_text(alpha["withheld"], language)]
    ends = {key: decimal(alpha[name] or 0, language, 2) for key, name in _ENDS.items()}
    return [*texts, language(ALPHA, **ends)]


_ENDS = {"value": "estimate", "low": "low", "high": "high"}


def sureness_texts(spread: Found, band: tuple[float | None, float], language: Language) -> list[str]:
    """How sure a total is; `band` is half the season's own band or None, and half the rules' fixed one."""
    answer, shares = spread["as_it_is"], spread["shares"]
    phi, error = answer["phi"], answer["error"]
    if phi["estimate"] is None or error["estimate"] is None:
        return [held_text(phi["withheld"] or error["withheld"], language)]
    texts = [
        language(ERROR, reach=decimal(1.96 * error["estimate"], language)),
        language(REAL, phi=of_100(phi["estimate"], language), **_range(phi, language)),
    ]
    if shares and None not in shares.values():
        parts = {
            "own": shares["candidate"],
            "strict": shares["examiner"],
            "suits": shares["candidate x examiner"],
            "task": shares["block"] + shares["candidate x block"] + shares["examiner x block"],
            "rest": shares["candidate x examiner x block"],
        }
        texts.append(language(SHARES, **{key: of_100(value, language) for key, value in parts.items()}))
    if band[0] is not None:
        texts.append(language(BAND, season=decimal(band[0], language), rules=decimal(band[1], language)))
    return texts


def _range(statistic: Found, language: Language) -> dict[str, str]:
    return {end: of_100(max(0.0, statistic[end] or 0.0), language) for end in ("low", "high")}


def consistency_texts(found: Found, language: Language) -> list[str]:
    """Whether the pass mark would decide the same again."""
    twice = found["agreement"]
    if twice["estimate"] is None:
        return [held_text(twice["withheld"], language)]
    shares = {"passed": found["false_pass"]["estimate"] or 0.0, "failed": found["false_fail"]["estimate"] or 0.0}
    return [
        language(TWICE, same=of_100(twice["estimate"], language), **_range(twice, language)),
        language(WRONG, **{key: of_100(value, language) for key, value in shares.items()}),
        language(ON_TOTAL),
    ]


def pass_mark_texts(found: Found, cut: float, error: float, language: Language) -> list[str]:
    """What the season's grades say of the pass mark in use, whose standard error is `error` (0 if not known)."""
    texts, own = [language(CUT, at=decimal(cut, language))], found["regression"]
    if own["estimate"] is None:
        return [*texts, held_text(own["withheld"], language)]
    ends = {name: decimal(own[key], language) for name, key in (("at", "estimate"), ("low", "low"), ("high", "high"))}
    inside = abs(own["estimate"] - cut) <= 1.96 * (found["se"] ** 2 + error**2) ** 0.5
    return [*texts, language(BY_GRADES, **ends), language(INSIDE if inside else OUTSIDE)]


def mark_text(at: float, low: float | None, high: float | None, language: Language) -> str:
    """A mark with its likely range, if it has one."""
    if low is None or high is None:
        return language(ALONE, at=decimal(at, language))
    return language(LIKELY, at=decimal(at, language), low=decimal(low, language), high=decimal(high, language))


def severity_text(severity: Found, language: Language, own: bool = False) -> str:
    """One examiner's strictness in marks at the pass mark; `own` speaks to the examiner."""
    if severity["estimate"] is None:
        return held_text(severity["withheld"], language)
    low, high = severity["low"], severity["high"]
    if low <= 0 <= high:
        return language(OWN_EVEN if own else EVEN, low=signed(low, language), high=signed(high, language))
    near, far = sorted((abs(low), abs(high)))
    milder = severity["estimate"] > 0
    sentence = (OWN_MILD if milder else OWN_STRICT) if own else (MILDER if milder else STRICTER)
    sizes = {"size": abs(severity["estimate"]), "low": near, "high": far}
    return language(sentence, **{key: decimal(value, language) for key, value in sizes.items()})


def leaning_text(marks: Found, what: str, name: str, language: Language) -> str:
    """That somebody marks one block or criterion otherwise; without a `name` it is said to the examiner."""
    low, high = sorted((marks["low"], marks["high"]), key=abs)
    own, named = (OWN_LEANS_LOW, OWN_LEANS_HIGH), (LEANS_LOW, LEANS_HIGH)
    sentence = (named if name else own)[marks["estimate"] > 0]
    sizes = {"size": marks["estimate"], "low": low, "high": high}
    return language(
        sentence, name=name, what=what, **{key: decimal(abs(value), language, 0) for key, value in sizes.items()}
    )


def drift_text(examiner: Found, language: Language) -> str:
    """Whether an examiner has left the lines of the control chart."""
    if examiner["drift"]["estimate"] is None:
        return held_text(examiner["drift"]["withheld"], language)
    outside = examiner["chart"]["outside"]
    return exams_outside(language, outside) if outside else language(STEADY)


def island_texts(strictness: Found, names: Mapping[str, str], language: Language) -> list[str]:
    """Why examiners can't be compared, and what would mend it."""
    texts = [held_text(strictness["withheld"], language)]
    islands = strictness.get("islands") or []
    if len(islands) > 1:
        groups = [language.listed([names.get(one, one) for one in island]) for island in islands]
        texts += [language(ISLANDS, groups=" / ".join(groups)), language(LINK)]
    return texts


def left_out_texts(left_out: Mapping[str, int], language: Language) -> list[str]:
    return [LEFT_OUT[code](language, number) for code, number in sorted(left_out.items()) if code in LEFT_OUT]


def task_text(at: float | None, language: Language) -> str:
    return language(NOWHERE) if at is None else language(AT, at=decimal(at, language, 0))


def plan_text(plan: Found, language: Language) -> str:
    """What one plan buys."""
    phi, error = plan["phi"], plan["error"]
    if phi["estimate"] is None or error["estimate"] is None:
        return held_text(phi["withheld"] or error["withheld"], language)
    reach = decimal(1.96 * error["estimate"], language)
    return language(PLAN, reach=reach, phi=of_100(phi["estimate"], language), **_range(phi, language))
