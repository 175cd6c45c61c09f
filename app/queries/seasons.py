"""What the pages of a season show: the picture last made of its sheets, in words and in lines."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from app.files.seasons import read_picture
from app.queries.exam_facts import practical_edition
from app.queries.judging import judged_marks
from app.queries.pass_marks import PassMarks, pass_marks_side_by_side
from app.queries.season_lines import Chart, Stretch, drift_rows, severity_rows
from app.queries.season_ratings import fingerprint
from app.storage.work import Work
from app.wording import seasons as words
from app.wording.dates import moment_text
from app.wording.languages import Language
from app.wording.season_counts import examiners
from assessments.measurement.limits import DEFAULT_LIMITS
from assessments.practicals.result import band_squared
from assessments.practicals.specification import Practical

Found = Mapping[str, object]


@dataclass(frozen=True, slots=True)
class SeasonLine:
    """One practical's edition that has exams; `stale` says that its picture is not of the sheets there are."""

    id: str
    title: str
    exams: int
    sheets: int
    stale: bool


@dataclass(frozen=True, slots=True)
class Map:
    """Candidates' totals and where blocks and criteria lie, along one line of marks; places from 0 to 1."""

    held: str
    candidates: tuple[float, ...] = ()
    cut: float = 0.0
    blocks: tuple[Stretch, ...] = ()
    criteria: tuple[Stretch, ...] = ()
    ticks: tuple[tuple[float, str], ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()


@dataclass(frozen=True, slots=True)
class SeasonOverview:
    """A season as its director reads it; `made` None while no picture was made yet."""

    id: str
    title: str
    edition: str
    stale: bool
    made: str | None = None
    counted: tuple[int, int, int] = (0, 0, 0)
    left_out: tuple[str, ...] = ()
    seed: int = 0
    agreement: tuple[str, ...] = ()
    agreement_cautions: tuple[str, ...] = ()
    held: tuple[str, ...] = ()
    severities: tuple[Stretch, ...] = ()
    severity_ends: tuple[str, str] = ("", "")
    severity_remarks: tuple[str, ...] = ()
    charts: tuple[Chart, ...] = ()
    chart_ends: tuple[str, str] = ("", "")
    chart_cautions: tuple[str, ...] = ()
    sureness: tuple[str, ...] = ()
    sureness_cautions: tuple[str, ...] = ()
    consistency: tuple[str, ...] = ()
    consistency_cautions: tuple[str, ...] = ()
    map: Map | None = None
    pass_mark: tuple[str, ...] = ()
    pass_mark_how: str = ""
    pass_mark_cautions: tuple[str, ...] = ()
    pass_marks: PassMarks = PassMarks()
    plans: tuple[Stretch, ...] = ()
    plan_held: str = ""
    plan_ends: tuple[str, str] = ("", "")
    extra: Mapping[str, object] = field(default_factory=dict)


def season_list(work: Work) -> tuple[SeasonLine, ...]:
    """Every edition of a practical that has exams, by title."""
    lines = []
    for id, (exams, sheets) in work.seasons.numbers().items():
        practical, kept = practical_edition(work, id), work.seasons.picture(id)
        stale = bool(sheets) and (kept is None or kept.fingerprint != fingerprint(work, id))
        lines.append(SeasonLine(id, f"{practical.title}, {practical.edition}", exams, sheets, stale))
    return tuple(sorted(lines, key=lambda line: line.title))


def season_overview(
    work: Work, practical_id: str, plan: tuple[int, int] | None, zone: str, language: Language
) -> SeasonOverview:
    """One season; `plan` is how many examiners and blocks are asked about, None for as it is now."""
    practical, kept = practical_edition(work, practical_id), work.seasons.picture(practical_id)
    mark = fingerprint(work, practical_id)
    stale = kept.fingerprint != mark if kept else bool(work.seasons.versions(practical_id))
    head = {"id": practical_id, "title": practical.title, "edition": practical.edition, "stale": stale}
    if kept is None:
        return SeasonOverview(**head)
    found, names = read_picture(kept.content), work.people.names()
    people = {one.id: names[one.person_id] for one in work.enrolments.all()}
    return SeasonOverview(
        **head,
        made=moment_text(kept.made_at, zone, language.locale),
        **_counted(found, language),
        **_agreement(found, language),
        **_pass_mark(
            practical,
            found["pass_marks"],
            judged_marks(work, practical_id, found["pass_marks"].get("totals", ())),
            language,
        ),
        **_strictness(practical, found, names, people, language),
        **_sureness(practical, found, plan, language),
    )


def _counted(found: Found, language: Language) -> dict[str, object]:
    counted = found["counted"]
    return {
        "counted": (counted["exams"], counted["sheets"], len(counted["examiners"])),
        "left_out": tuple(words.left_out_texts(counted["left_out"], language)),
        "seed": found["seed"],
    }


def _agreement(found: Found, language: Language) -> dict[str, object]:
    agreement = found["agreement"]
    shown = [agreement[key] for key in ("same", "near", "alpha")]
    return {
        "agreement": tuple(words.agreement_texts(agreement, language)),
        "agreement_cautions": tuple(words.cautions(shown, language)),
    }


def _pass_mark(practical: Practical, found: Found, judged: Found, language: Language) -> dict[str, object]:
    error = float(practical.cut.standard_error or 0)
    return {
        "pass_mark": tuple(words.pass_mark_texts(found, float(practical.cut.at), error, language)),
        "pass_mark_how": practical.cut.how,
        "pass_mark_cautions": tuple(
            words.cautions([found[key] for key in ("regression", "group", "contrast") if key in found], language)
        ),
        "pass_marks": pass_marks_side_by_side(practical, {**found, **judged}, language),
    }


def _strictness(
    practical: Practical, found: Found, names: Mapping[str, str], people: Mapping[str, str], language: Language
) -> dict[str, object]:
    strictness = found["strictness"]
    if strictness["withheld"]:
        return {"held": tuple(words.island_texts(strictness, names, language))}
    rest = {
        "consistency": tuple(words.consistency_texts(strictness["consistency"], language)),
        "consistency_cautions": tuple(words.cautions([strictness["consistency"]["agreement"]], language)),
        "map": _map(practical, strictness, people, language),
    }
    if all(one["severity"]["estimate"] is None for one in strictness["examiners"]):
        return rest | {"held": (_nobody(strictness["examiners"], language),)}
    examiners = sorted(strictness["examiners"], key=lambda one: names.get(one["id"], ""))
    remarks = [
        language(words.ERRATIC, name=names.get(one["id"], one["id"]))
        for one in examiners
        if one["erratic"] and one["fit_known"]
    ]
    leanings = strictness.get("leanings", ())
    titles = titles_of_tasks(practical)
    remarks += [
        words.leaning_text(one["marks"], titles[one["id"]], names.get(one["examiner"], one["examiner"]), language)
        for one in leanings
    ] or [language(words.NO_LEANINGS)]
    shown = [one["severity"] for one in examiners] + [one["marks"] for one in leanings]
    cautions = words.cautions(shown, language, strictness["flags"])
    rows, ends = severity_rows(examiners, names, language)
    charts, days = drift_rows(examiners, names, found["counted"]["first_day"], language)
    drifts = [one["drift"] for one in examiners]
    shown = any(one["estimate"] is not None for one in drifts)
    return rest | {
        "severities": rows,
        "severity_ends": ends,
        "severity_remarks": (*remarks, *cautions),
        "charts": charts,
        "chart_ends": days,
        "chart_cautions": tuple(words.cautions(drifts, language, strictness["drift_flags"] if shown else ())),
    }


def titles_of_tasks(practical: Practical) -> dict[str, str]:
    """What blocks and criteria are called, by id."""
    blocks = {block.id: block.title for part in practical.parts for block in part.blocks}
    return blocks | {one.id: one.title for one in practical.criteria}


def _nobody(examiners: Sequence[Found], language: Language) -> str:
    """One reason for all, where nobody's severity is shown."""
    reasons = [one["severity"]["withheld"] for one in examiners]
    if all(why["code"] == "too-few" for why in reasons):
        least = {key: language.figure(DEFAULT_LIMITS.severity.withhold[key]) for key in ("ratings", "candidates")}
        return language(words.NOBODY, exams=least["candidates"], ratings=least["ratings"])
    return words.held_text(next(why for why in reasons if why["code"] != "too-few"), language)


def _map(practical: Practical, strictness: Found, people: Mapping[str, str], language: Language) -> Map:
    if strictness["map"]["withheld"]:
        return Map(words.held_text(strictness["map"]["withheld"], language))
    rows = sorted(strictness["candidates"], key=lambda row: -(row["raw"] or 0))
    known = [row["even"] for row in rows if row["even"] is not None]
    spots = [task["at"] for task in strictness["tasks"] if task["at"] is not None]
    low = 10 * int(min([*known, *spots, float(practical.cut.at)]) // 10)
    titles = titles_of_tasks(practical)

    def place(marks: float) -> float:
        return (marks - low) / (100 - low)

    def tasks(kind: str) -> tuple[Stretch, ...]:
        own = [task for task in strictness["tasks"] if task["kind"] == kind]
        own.sort(key=lambda task: -1 if task["at"] is None else task["at"], reverse=True)
        return tuple(
            Stretch(
                titles[task["id"]],
                words.task_text(task["at"], language),
                at=None if task["at"] is None else place(task["at"]),
                cells=(titles[task["id"]], "–" if task["at"] is None else words.decimal(task["at"], language)),
            )
            for task in own
        )

    return Map(
        "",
        tuple(place(value) for value in known),
        place(float(practical.cut.at)),
        tasks("block"),
        tasks("criterion"),
        tuple((place(marks), language.figure(marks)) for marks in range(low, 101, 10)),
        tuple(_candidate(row, people, language) for row in rows),
    )


def _candidate(row: Found, people: Mapping[str, str], language: Language) -> tuple[str, ...]:
    figures = [
        "–" if value is None else words.decimal(value, language)
        for value in (row["raw"], row["even"], None if row["error"] is None else 1.96 * row["error"])
    ]
    return (people.get(row["candidate"], row["candidate"]), *figures)


def _sureness(
    practical: Practical, found: Found, plan: tuple[int, int] | None, language: Language
) -> dict[str, object]:
    spread = found["spread"]
    fixed = float(band_squared(practical, None)) ** 0.5
    answer = spread["as_it_is"]
    shown = {
        "sureness": tuple(words.sureness_texts(spread, (found["band"], fixed), language)),
        "sureness_cautions": tuple(words.cautions([answer["phi"], answer["error"]], language)),
    }
    if not spread["plans"]:
        return shown | {"plan_held": words.held_text(spread["withheld"], language)}
    wanted = plan or (practical.examiners, min(round(answer["blocks"]), spread["plans"][-1]["blocks"]))
    return shown | _plans(practical, spread["plans"], wanted, language)


def _plans(
    practical: Practical, plans: Sequence[Found], wanted: tuple[int, int], language: Language
) -> dict[str, object]:
    """Every number of examiners with the blocks asked about; the bar is what a mark at the pass mark may be off by."""
    own = [one for one in plans if one["blocks"] == wanted[1]]
    reaches = [1.96 * one["error"]["estimate"] for one in own if one["error"]["estimate"] is not None]
    if not reaches:
        return {"plan_held": words.plan_text(own[0], language)}
    most = 5.0 * -(-max(reaches) // 5.0)
    cut = float(practical.cut.at)
    rows = []
    for one, reach in zip(own, reaches, strict=True):
        phi = one["phi"]
        low, high = (words.of_100(max(0.0, phi[end] or 0.0), language) for end in ("low", "high"))
        cells = (words.decimal(reach, language), words.of_100(phi["estimate"], language), low, high)
        name = examiners(language, one["examiners"])
        half = reach / most / 2
        chosen = one["examiners"] == wanted[0]
        said = words.plan_text(one, language)
        rows.append(Stretch(name, said, 0.5 - half, 0.5 + half, 0.5, chosen, (name, *cells)))
    ends = tuple(words.decimal(cut + side * most, language, 0) for side in (-1, 1))
    return {"plans": tuple(rows), "plan_ends": ends, "extra": {"examiners": wanted[0], "blocks": wanted[1]}}
