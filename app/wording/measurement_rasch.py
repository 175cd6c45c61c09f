"""Plain sentences about severity, for a director who is no statistician."""

from collections.abc import Iterator, Mapping, Sequence

from app.wording.faults import fault_text
from app.wording.languages import ENGLISH, Language
from assessments.measurement.statistic import Statistic
from curriculum.faults import N_

APART = N_("These ratings can't be compared as a whole: {why}.")
ISLAND = N_("  {facet}: {members}")
STRICT = N_("{name} {id} is stricter than the average by {size} (likely {low} to {high}), from {n} ratings.")
MILD = N_("{name} {id} is milder than the average by {size} (likely {low} to {high}), from {n} ratings.")
AVERAGE = N_("{name} {id} can't be told from the average, from {n} ratings.")
HELD = N_("{name} {id}: not shown ({why}).")
UNIT = N_("(On the model's own scale: 1 is what turns an even chance of the next higher rating into about 3 in 4.)")
RELIABLE = N_("Of the differences between candidates' measures {percent} % are real.")
RELIABLE_BY_LESSON = N_(
    "Of the differences between candidates' measures {percent} % are real, after allowing for shared lessons."
)
HARSHER = N_("{name} {id} is harsher on {facet} {other} than elsewhere ({size}).")
MILDER = N_("{name} {id} is milder on {facet} {other} than elsewhere ({size}).")
ADJUSTED = N_("With examiners of average severity, candidate {id} would have {adjusted} instead of {raw}.")
LESSONS = N_(
    "Good and bad days count: ratings of one lesson go together, so candidates' measures are less sure than so many "
    "ratings seem to make them (errors {times} times as large, already allowed for)."
)
ERRATIC = N_("{name} {id} rates less steadily than the model allows for: talk over some of these ratings.")
PREDICTABLE = N_("{name} {id} rates more evenly than the model allows for, perhaps keeping to the middle of the scale.")
GREW_HARSHER = N_("{name} {id} grew harsher from first to last ({size}).")
GREW_MILDER = N_("{name} {id} grew milder from first to last ({size}).")
SESSION_HARSHER = N_("{name} {id} was harsher in session {session} than else ({size}).")
SESSION_MILDER = N_("{name} {id} was milder in session {session} than else ({size}).")
ALL_ALIKE = N_("One set of steps between ratings serves all criteria (by BIC).")
EACH_ITS_OWN = N_("The ratings speak for steps of their own for each criterion (by BIC): use --model partial-credit.")
LINK = N_(
    "The two sides would be compared better if {name} {id} marked candidate {candidate} as well, from a recording "
    "(error {after} in place of {now})."
)
FEW = N_("Read with care: {why}.")
NOTICED = 1.1
LARGEST = 10


def rasch_sentences(found: Mapping[str, object], judge: str, language: Language = ENGLISH) -> Iterator[str]:
    """The answer of `rasch_report` in words."""
    if not found["connected"]:
        yield language(APART, why=fault_text(found["withheld"], language))
        for facet, islands in found["islands"].items():
            members = "; ".join(language.listed(island) for island in islands)
            yield language(ISLAND, facet=facet, members=members)
        return
    for row in found["facets"][judge]:
        yield _severity(row, judge, language)
    yield language(UNIT)
    shown = any(row["estimate"] is not None for row in found["candidates"])
    if shown and found["reliability"]["adjusted"] is not None:
        sentence = RELIABLE if found["design_effect"].estimate is None else RELIABLE_BY_LESSON
        yield language(sentence, percent=language.decimal(100 * max(0, found["reliability"]["adjusted"]), 0))
    yield from _lessons(found["design_effect"], language)
    yield from _unfit(found["facets"][judge], judge, language)
    yield from _pairs(found["interactions"], judge, language)
    yield from _drift(found["drift"], judge, language)
    yield from _model(found["model_advice"], language)
    yield from _adjusted(found["candidates"], language)
    yield from (language(FEW, why=fault_text(flag, language)) for flag in found["flags"])
    yield from _link(found["weakest_link"], judge, language)


def _link(link: Mapping[str, object], judge: str, language: Language) -> Iterator[str]:
    advice = link["advice"]
    if advice is not None:
        now, after = (language.decimal(advice[name], 2) for name in ("error_now", "error_after"))
        who = {"name": judge, "id": advice["examiner"], "candidate": advice["candidate"]}
        yield language(LINK, **who, now=now, after=after)


def _severity(row: Mapping[str, object], judge: str, language: Language) -> str:
    if row["estimate"] is None:
        return language(HELD, name=judge, id=row["id"], why=fault_text(row["withheld"], language))
    if row["low"] <= 0 <= row["high"]:
        return language(AVERAGE, name=judge, id=row["id"], n=row["n"])
    ends = sorted((abs(row["low"]), abs(row["high"])))
    figures = {
        "size": language.decimal(abs(row["estimate"]), 2),
        "low": language.decimal(ends[0], 2),
        "high": language.decimal(ends[1], 2),
    }
    return language(STRICT if row["estimate"] > 0 else MILD, name=judge, id=row["id"], n=row["n"], **figures)


def _lessons(effect: Statistic, language: Language) -> Iterator[str]:
    if effect.estimate is not None and effect.estimate >= NOTICED:
        yield language(LESSONS, times=language.decimal(effect.estimate**0.5, 1))


def _unfit(rows: Sequence[Mapping[str, object]], judge: str, language: Language) -> Iterator[str]:
    for row in rows:
        if row["fit_alert"] and row["infit"] is not None:
            yield language(ERRATIC if row["infit"] > 1 else PREDICTABLE, name=judge, id=row["id"])


def _drift(found: Mapping[str, object], judge: str, language: Language) -> Iterator[str]:
    """Who grew harsher or milder, and why that may be the cohort and not the examiner."""
    moved = [row for row in found["slopes"] if row["stands_out"]]
    for row in moved:
        value = row["refit"]["total"] if row["refit"] else row["one_step"]["total"]
        size = language.decimal(abs(value), 2)
        yield language(GREW_HARSHER if value > 0 else GREW_MILDER, name=judge, id=row["id"], size=size)
    apart = [row for row in found["sessions"] if row["stands_out"]]
    for row in apart:
        value = (row["refit"] or row["one_step"])["estimate"]
        shown = {"name": judge, "id": row[judge], "session": row["session"]}
        size = language.decimal(abs(value), 2)
        yield language(SESSION_HARSHER if value > 0 else SESSION_MILDER, size=size, **shown)
    if moved or apart:
        yield from (language(FEW, why=fault_text(flag, language)) for flag in found["flags"])


def _model(advice: Mapping[str, object] | None, language: Language) -> Iterator[str]:
    if advice is None or advice["advised"] is None:
        return
    yield language(ALL_ALIKE if advice["advised"] == "rating-scale" else EACH_ITS_OWN)


def _pairs(rows: Sequence[Mapping[str, object]], judge: str, language: Language) -> Iterator[str]:
    for row in rows:
        if row["stands_out"]:
            value = (row["refit"] or row["one_step"])["estimate"]
            facet = row["facets"][1]
            shown = {"name": judge, "id": row[judge], "facet": facet, "other": row[facet]}
            yield language(HARSHER if value > 0 else MILDER, size=language.decimal(abs(value), 2), **shown)


def _adjusted(rows: Sequence[Mapping[str, object]], language: Language) -> Iterator[str]:
    known = [row for row in rows if row["adjusted"] is not None]
    for row in sorted(known, key=lambda row: -abs(row["adjusted"] - row["raw"]))[:LARGEST]:
        adjusted, raw = (language.decimal(row[name], 2) for name in ("adjusted", "raw"))
        yield language(ADJUSTED, id=row["id"], adjusted=adjusted, raw=raw)
