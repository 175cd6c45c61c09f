"""Plain sentences about severity, for a director who is no statistician."""

from collections.abc import Iterator, Mapping, Sequence

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
PAIR = N_("{name} {id} is {way} on {facet} {other} than elsewhere ({size}).")
HARSHER, MILDER = N_("harsher"), N_("milder")
ADJUSTED = N_("With examiners of average severity, candidate {id} would have {adjusted} instead of {raw}.")
FEW = N_("Read with care: {why}.")
LARGEST = 10


def rasch_sentences(found: Mapping[str, object], judge: str) -> Iterator[str]:
    """The answer of `rasch_report` in words."""
    if not found["connected"]:
        yield APART.format(why=found["withheld"].text())
        for facet, islands in found["islands"].items():
            members = "; ".join(", ".join(island) for island in islands)
            yield ISLAND.format(facet=facet, members=members)
        return
    for row in found["facets"][judge]:
        yield _severity(row, judge)
    yield UNIT
    if found["reliability"]["adjusted"] is not None:
        yield RELIABLE.format(percent=f"{100 * max(0, found['reliability']['adjusted']):.0f}")
    yield from _pairs(found["interactions"], judge)
    yield from _adjusted(found["candidates"])
    yield from (FEW.format(why=flag.text()) for flag in found["flags"])


def _severity(row: Mapping[str, object], judge: str) -> str:
    if row["estimate"] is None:
        return HELD.format(name=judge, id=row["id"], why=row["withheld"].text())
    if row["low"] <= 0 <= row["high"]:
        return AVERAGE.format(name=judge, id=row["id"], n=row["n"])
    ends = sorted((abs(row["low"]), abs(row["high"])))
    figures = {
        "size": f"{abs(row['estimate']):.2f}",
        "low": f"{ends[0]:.2f}",
        "high": f"{ends[1]:.2f}",
    }
    return (STRICT if row["estimate"] > 0 else MILD).format(name=judge, id=row["id"], n=row["n"], **figures)


def _pairs(rows: Sequence[Mapping[str, object]], judge: str) -> Iterator[str]:
    for row in rows:
        if row["stands_out"]:
            value = (row["refit"] or row)["estimate"]
            facet = row["facets"][1]
            figures = {
                "way": HARSHER if value > 0 else MILDER,
                "size": f"{abs(value):.2f}",
            }
            yield PAIR.format(name=judge, id=row[judge], facet=facet, other=row[facet], **figures)


def _adjusted(rows: Sequence[Mapping[str, object]]) -> Iterator[str]:
    known = [row for row in rows if row["adjusted"] is not None]
    for row in sorted(known, key=lambda row: -abs(row["adjusted"] - row["raw"]))[:LARGEST]:
        yield ADJUSTED.format(id=row["id"], adjusted=f"{row['adjusted']:.2f}", raw=f"{row['raw']:.2f}")
