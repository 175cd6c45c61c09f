"""The repertoire as it is printed: an exercise's leaf, the handbook, and a level's poster, as plain data."""

from app.queries.exercise import CautionShown, ExerciseOverview, exercise_overview
from app.queries.repertoire import all_repetitions_text, level_name
from app.wording.languages import Language
from app.wording.repertoire import springs_text
from curriculum.faults import N_, NotFoundError
from curriculum.repertoire.edition import CautionKind, Edition
from curriculum.repertoire.exercise import Exercise

LABELS = {
    "set_up": N_("Set-up"),
    "lighter": N_("Reasons to go lighter"),
    "heavier": N_("Reasons to go heavier"),
    "checks": N_("Check before the client is on"),
    "mount": N_("Getting on"),
    "dismount": N_("Getting off"),
    "movement": N_("Movement"),
    "cues": N_("Cues"),
    "faults": N_("Faults"),
    "easier": N_("Made easier"),
    "harder": N_("Made harder"),
    "adaptations": N_("Adapting"),
    "cautions": N_("Cautions"),
    "transitions": N_("Transitions"),
    "lineages": N_("In other lineages"),
    "notice": N_("Safety notice"),
    "contents": N_("Contents"),
    "index": N_("Index"),
    "before": N_("Before any change"),
    "load": N_("Under load"),
}


def leaf(edition: Edition, exercise_id: str, notices: tuple[str, ...], school: str, language: Language) -> dict:
    """One exercise on its leaf; raises `NotFoundError` for an id the edition doesn't have."""
    found = exercise_overview(edition, exercise_id, language)
    ask = [language(N_("To say: “{ask}”"), ask=text) for text in dict.fromkeys(one.ask for one in found.cautions)]
    exercise = _printed(found, notices, language) | {"ask": ask}
    return {**_frame(edition, found.exercise.name, school, language), "exercise": exercise}


def handbook(edition: Edition, notices: dict[str, tuple[str, ...]], school: str, language: Language) -> dict:
    """The whole edition; `notices` are safety notices by what they are about ("" for everything)."""
    parts = []
    for apparatus in edition.apparatus:
        exercises = edition.on(apparatus.id)
        if not exercises:
            continue
        series = [
            {
                "name": one.name,
                "exercises": [_in_book(edition, exercise, notices, language) for exercise in edition.in_series(one.id)],
            }
            for one in edition.series_of(apparatus.id)
        ]
        about = list(notices.get(apparatus.id, ()))
        parts.append(
            {
                "name": apparatus.name,
                "load": apparatus.load,
                "at_rest": apparatus.at_rest,
                "notices": about,
                "series": series,
            }
        )
    return {
        **_frame(edition, edition.title, school, language),
        "owner": edition.owner,
        "sources": list(edition.sources),
        "notices": list(notices.get("", ())),
        "kinds": [_caution_kind(one, language) for one in edition.cautions],
        "parts": parts,
        "index": _index(edition),
    }


def poster(edition: Edition, level: str, school: str, language: Language) -> dict:
    """The order of every apparatus up to a level, on one sheet; raises `NotFoundError` for a level that is none."""
    if level not in {one.id for one in edition.levels}:
        raise NotFoundError
    highest = edition.level_rank(level)
    columns = []
    for apparatus in edition.apparatus:
        rows = [
            {
                "number": str(place),
                "name": one.name,
                "text": ", ".join(
                    text
                    for text in (springs_text(one.set_up.springs, language), all_repetitions_text(one, language))
                    if text
                ),
                "spot": one.spot,
            }
            for place, one in enumerate(
                (one for one in edition.on(apparatus.id) if edition.level_rank(one.level) <= highest), start=1
            )
        ]
        if rows:
            columns.append({"name": apparatus.name, "rows": rows})
    name = level_name(edition, level)
    title = language(N_("{edition}: up to {level}"), edition=edition.title, level=name)
    return {**_frame(edition, title, school, language), "columns": columns, "spot": language(N_("spot required"))}


def _frame(edition: Edition, title: str, school: str, language: Language) -> dict:
    return {
        **language.printed(),
        "title": title,
        "school": school,
        "edition": edition.id,
        "frame": edition.frame,
        "stop": edition.stop,
        "labels": {key: language(text) for key, text in LABELS.items()},
    }


def _in_book(edition: Edition, one: Exercise, notices: dict[str, tuple[str, ...]], language: Language) -> dict:
    return _printed(exercise_overview(edition, one.id, language), notices.get(one.id, ()), language)


def _printed(found: ExerciseOverview, notices: tuple[str, ...], language: Language) -> dict:
    exercise = found.exercise
    springs = exercise.set_up.springs
    set_up = [list(row) for row in found.set_up]
    if springs and springs.resist:
        set_up.append([language(N_("Springs resist")), springs.resist])
    if springs and springs.assist:
        set_up.append([language(N_("Springs assist")), springs.assist])
    return {
        "name": exercise.name,
        "aim": exercise.aim,
        "line": " · ".join((found.apparatus, found.series, found.level, found.seconds)),
        "notices": [*notices, *found.notices],
        "facts": [list(row) for row in found.facts],
        "confirm": found.to_confirm,
        "set_up": set_up,
        "body": exercise.set_up.body,
        "lighter": list(springs.lighter) if springs else [],
        "heavier": list(springs.heavier) if springs else [],
        "checks": list(exercise.set_up.checks),
        "mount": [list(row) for row in found.mount],
        "dismount": [list(row) for row in found.dismount],
        "positions": [
            {"name": one.position.name or exercise.name, "body": one.position.body, "says": f"{one.says}; {one.seconds}"}
            for one in found.positions
        ],
        "cues": [{"kind": kind, "texts": [_cue(*one) for one in texts]} for kind, texts in found.cues],
        "faults": [
            {
                "sees": one.fault.sees,
                "weight": one.weight,
                "text": " ".join(text for text in (one.fault.cause, one.fault.correction) if text),
                "mends": [f"{kind}: {text}" for kind, text in one.cues] + list(one.steps),
            }
            for one in found.faults
        ],
        "easier": [list(row) for row in found.regressions],
        "harder": [list(row) for row in found.progressions],
        "adaptations": [
            [one.when, " ".join(text for text in (one.change, one.why, _confirm(one.confirm, language)) if text)]
            for one in exercise.adaptations
        ],
        "cautions": [_caution(one, language) for one in found.cautions],
        "nothing": found.nothing_listed,
        "transitions": [
            {"to": name, "ways": [{"when": ": ".join(filter(None, (one.when, one.seconds))), "steps": list(one.steps)} for one in ways]}
            for name, _, ways in found.transitions
        ],
        "lineages": [
            [one.lineage, ". ".join(text for text in (one.name, one.differs) if text)] for one in exercise.lineages
        ],
    }  # fmt: skip


def _cue(text: str, phase: str) -> str:
    return f"{text} ({phase})" if phase else text


def _confirm(confirm: bool, language: Language) -> str:
    return f"({language(N_('school to confirm'))})" if confirm else ""


def _caution(one: CautionShown, language: Language) -> list[str]:
    instead = language(N_("Instead: {what}"), what=one.instead) if one.instead else ""
    return [one.name, " ".join(text for text in (one.act, instead) if text)]


def _caution_kind(one: CautionKind, language: Language) -> list[str]:
    ask = language(N_("To say: “{ask}”"), ask=one.ask)
    stop = language(N_("Stop on: {signs}"), signs=one.stop) if one.stop else ""
    return [one.name, " ".join(text for text in (one.withhold, ask, stop) if text)]


def _index(edition: Edition) -> list[list[str]]:
    """Every name and other name, with the exercise that it leads to, by alphabet."""
    apparatus = {one.id: one.name for one in edition.apparatus}
    rows = []
    for place, one in enumerate(edition.exercises):
        names = [one.name, *(other.name for other in one.lineages if other.name)]
        rows += [[f"{name} ({apparatus[one.apparatus]})", str(place)] for name in dict.fromkeys(names)]
    return sorted(rows, key=lambda row: row[0].casefold())
