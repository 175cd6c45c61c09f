"""Plain sentences about severity, for a director who is no statistician."""

from collections.abc import Iterator, Mapping, Sequence

from app.wording.faults import fault_text
from app.wording.languages import ENGLISH, Language
from curriculum.faults import N_

APART = N_("These ratings can't be compared as a whole: {why}.")
ISLAND = N_("  {facet}: {members}")
STRICT = N_("{name} {id} is stricter than the average by {size} (likely {low} to {high}), from {n} ratings.")
MILD = N_("{name} {id} is milder than the average by {size} (likely {low} to {high}), from {n} ratings.")
AVERAGE = N_("{name} {id} can't be told from the average, from {n} ratings.")
HELD = N_("{name} {id}: not shown, since it {why}.")
UNIT = N_("(On the model's own scale: 1 is what turns an even chance of the next higher rating into about 3 in 4.)")
RELIABLE = N_(
    "Of the differences between candidates' measures {percent} % are real, after allowing for shared lessons."
)
HARSHER = N_("{name} {id} is harsher on {facet} {other} than elsewhere ({size}).")
MILDER = N_("{name} {id} is milder on {facet} {other} than elsewhere ({size}).")
ADJUSTED = N_("With examiners of average severity, candidate {id} would have {adjusted} instead of {raw}.")
FEW = N_("Read with care: {why}.")
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
    if found["reliability"]["adjusted"] is not None:
        yield language(RELIABLE, percent=f"{100 * max(0, found['reliability']['adjusted']):.0f}")
    yield from _pairs(found["interactions"], judge, language)
    yield from _adjusted(found["candidates"], language)
    yield from (language(FEW, why=fault_text(flag, language)) for flag in found["flags"])


def _severity(row: Mapping[str, object], judge: str, language: Language) -> str:
    if row["estimate"] is None:
        return language(HELD, name=judge, id=row["id"], why=fault_text(row["withheld"], language))
    if row["low"] <= 0 <= row["high"]:
        return language(AVERAGE, name=judge, id=row["id"], n=row["n"])
    ends = sorted((abs(row["low"]), abs(row["high"])))
    figures = {
        "size": f"{abs(row['estimate']):.2f}",
        "low": f"{ends[0]:.2f}",
        "high": f"{ends[1]:.2f}",
    }
    return language(STRICT if row["estimate"] > 0 else MILD, name=judge, id=row["id"], n=row["n"], **figures)


def _pairs(rows: Sequence[Mapping[str, object]], judge: str, language: Language) -> Iterator[str]:
    for row in rows:
        if row["stands_out"]:
            value = (row["refit"] or row)["estimate"]
            facet = row["facets"][1]
            shown = {"name": judge, "id": row[judge], "facet": facet, "other": row[facet]}
            yield language(HARSHER if value > 0 else MILDER, size=f"{abs(value):.2f}", **shown)


def _adjusted(rows: Sequence[Mapping[str, object]], language: Language) -> Iterator[str]:
    known = [row for row in rows if row["adjusted"] is not None]
    for row in sorted(known, key=lambda row: -abs(row["adjusted"] - row["raw"]))[:LARGEST]:
        yield language(ADJUSTED, id=row["id"], adjusted=f"{row['adjusted']:.2f}", raw=f"{row['raw']:.2f}")
