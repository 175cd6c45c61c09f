"""A session plan as its page shows it: the row, the line, what to look at; and the rehearsal."""

from dataclasses import dataclass
from fractions import Fraction

from app.files.plans import plan_from
from app.queries.repertoire import all_repetitions_text, exercise_href
from app.storage.plans import KeptPlan
from app.storage.work import Work
from app.wording.dates import day_text
from app.wording.languages import Language
from app.wording.repertoire import FAMILIES, repetitions_text, seconds_text, set_up_rows
from curriculum.faults import N_, Fault
from curriculum.repertoire.edition import Edition
from curriculum.repertoire.exercise import Position
from curriculum.sessions.plan import Plan
from curriculum.sessions.plan_check import PlanCheck, PlannedExercise, check_plan
from curriculum.sessions.transition import Passage

DIFFERS = "transition-differs"


@dataclass(frozen=True, slots=True)
class PlanLine:
    """One of somebody's plans in the list."""

    id: str
    title: str
    changed: str
    number: int


@dataclass(frozen=True, slots=True)
class Step:
    """One stretch of the line: an exercise or a gap; seconds are those of the clock, the teaching factor in them."""

    kind: str
    name: str
    seconds: int
    start_text: str
    length_text: str
    note: str


@dataclass(frozen=True, slots=True)
class Drawn:
    """The plan as its line is drawn."""

    title: str
    seconds: int
    asked_seconds: int
    length_text: str
    asked_text: str
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Row:
    """One exercise of the plan, and the steps on the way into the next."""

    id: str
    name: str
    href: str
    apparatus: str
    level: str
    repetitions: str
    length: str
    steps: tuple[str, ...]
    transition: str
    out_of_order: bool


@dataclass(frozen=True, slots=True)
class PlanOverview:
    """A plan looked through; `warnings` are sentences, `differing` those about transitions whose written seconds differ
    from the derived ones, `lost` ids that the edition does not have."""

    rows: tuple[Row, ...]
    drawn: Drawn
    facts: tuple[tuple[str, str], ...]
    warnings: tuple[str, ...]
    differing: tuple[str, ...]
    lost: tuple[str, ...]
    can_take_back: bool


@dataclass(frozen=True, slots=True)
class Beat:
    """One position to rehearse; `bouts` are (times, ((counts, movement), …)), empty without a tempo."""

    name: str
    says: str
    beats: int
    seconds: str
    bouts: tuple[tuple[int, tuple[tuple[int, str], ...]], ...]


@dataclass(frozen=True, slots=True)
class Rehearsed:
    """One exercise of a rehearsal: set-up, positions with their beat, and the way into the next."""

    name: str
    href: str
    set_up: tuple[tuple[str, str], ...]
    spot: str
    positions: tuple[Beat, ...]
    next_name: str
    transition: str
    steps: tuple[str, ...]


def plan_lines(work: Work, person_id: str, edition: Edition, language: Language) -> tuple[PlanLine, ...]:
    """Somebody's plans, the last changed first."""
    lines = []
    for kept in work.plans.of_person(person_id):
        plan, _ = plan_from(kept.document, edition)
        title = plan.title or language(N_("Without a title"))
        lines.append(PlanLine(kept.id, title, day_text(kept.changed_at.date(), language.locale), len(plan.exercises)))
    return tuple(lines)


def plan_overview(kept: KeptPlan, edition: Edition, notices: tuple[str, ...], language: Language) -> PlanOverview:
    """The plan with its times, its line and everything to look at."""
    plan, lost = plan_from(kept.document, edition)
    checked = check_plan(plan, edition)
    breaking = set(checked.out_of_order)
    rows = tuple(_row(edition, item, breaking, language) for item in checked.items)
    said = [(one.code, _sentence(one, edition, language)) for one in checked.warnings] if rows else []
    return PlanOverview(
        rows,
        drawn_plan(plan, checked, language),
        _facts(plan, checked, language),
        (*notices, *(words for code, words in said if code != DIFFERS)),
        tuple(words for code, words in said if code == DIFFERS),
        lost,
        bool(kept.before),
    )


def rehearsal(plan: Plan, edition: Edition, language: Language) -> tuple[Rehearsed, ...]:
    """Every exercise of a plan in order, as one stands and teaches it."""
    items = check_plan(plan, edition).items
    names = [item.exercise.name for item in items[1:]] + [""]
    return tuple(_rehearsed(item, name, language) for item, name in zip(items, names, strict=True))


def drawn_plan(plan: Plan, checked: PlanCheck, language: Language) -> Drawn:
    """The line of a plan: intake, exercises and gaps by the clock, and what is asked for."""
    stretches = [("gap", language(N_("Intake")), plan.intake, "")] if plan.intake else []
    for item in checked.items:
        stretches.append(("exercise", item.exercise.name, plan.factor * item.seconds, ""))
        if item.passage:
            note = "; ".join(_steps(item.passage, language))
            stretches.append(("gap", language(N_("On to the next")), plan.factor * item.transition_seconds, note))
    stretches += [("gap", language(N_("Close")), plan.close, "")] if plan.close else []
    steps, at = [], Fraction(0)
    for kind, name, seconds, note in stretches:
        steps.append(Step(kind, name, round(seconds), clock(at), clock(seconds), note))
        at += seconds
    asked = (plan.minutes or 0) * 60 or round(checked.seconds)
    title = plan.title or language(N_("The plan"))
    return Drawn(title, round(checked.seconds), asked, clock(checked.seconds), clock(asked), tuple(steps))


def clock(seconds: Fraction | int) -> str:
    """Seconds as minutes and seconds: 3:48."""
    whole = round(seconds)
    return f"{whole // 60}:{whole % 60:02d}"


def _row(edition: Edition, item: PlannedExercise, breaking: set[str], language: Language) -> Row:
    one = item.exercise
    level = next(level.name for level in edition.levels if level.id == one.level)
    steps = _steps(item.passage, language) if item.passage else ()
    length = seconds_text(one.seconds, language)
    way = seconds_text(Fraction(item.transition_seconds), language) if item.passage else ""
    apparatus = edition.apparatus_named(one.apparatus).name
    repetitions = all_repetitions_text(one, language)
    return Row(
        one.id, one.name, exercise_href(one.id), apparatus, level, repetitions, length, steps, way, one.id in breaking
    )


def _steps(passage: Passage, language: Language) -> tuple[str, ...]:
    """Without their full stops: they stand in a row."""
    if passage.authored is not None and passage.authored.steps:
        steps = passage.authored.steps
    else:
        steps = tuple(language(one.sentence, **dict(one.values)) for one in passage.derived)
    return tuple(one.rstrip(".") for one in steps)


def _facts(plan: Plan, checked: PlanCheck, language: Language) -> tuple[tuple[str, str], ...]:
    share = language.figure(round(100 * float(checked.transition_share)))
    families = [
        f"{language(FAMILIES[name])} {language.figure(count)}" for name, count in checked.families.items() if count
    ]
    order = language(N_("{kept} of {all}"), kept=checked.order_kept, all=len(checked.items))
    return (
        (language(N_("Moving")), clock(checked.moving_seconds)),
        (language(N_("Between exercises")), f"{clock(checked.transition_seconds)} ({share} %)"),
        (language(N_("By the clock")), clock(checked.seconds)),
        (language(N_("In the order of the edition")), order),
        (language(N_("Movement families")), language.listed(families)),
    )


def _sentence(fault: Fault, edition: Edition, language: Language) -> str:
    """A warning with exercises and families by name in place of their ids."""
    names = {one.id: one.name for one in edition.exercises} | {id: language(words) for id, words in FAMILIES.items()}
    names |= {one.code: one.name for one in edition.cautions}

    def named(value: object) -> object:
        if not isinstance(value, str):
            return value
        parts = value.split(", ")
        return language.listed([names[one] for one in parts]) if all(one in names for one in parts) else value

    return language(fault.sentence, **{key: named(value) for key, value in fault.values.items()})


def _rehearsed(item: PlannedExercise, next_name: str, language: Language) -> Rehearsed:
    one = item.exercise
    steps = _steps(item.passage, language) if item.passage else ()
    return Rehearsed(
        one.name,
        exercise_href(one.id),
        tuple(set_up_rows(one.set_up, one.confirm, language)),
        one.spotting or language(N_("A spot is required.")) if one.spot else "",
        tuple(_beat(position, one.name, language) for position in one.positions),
        next_name,
        seconds_text(Fraction(item.transition_seconds), language) if item.passage else "",
        steps,
    )


def _beat(position: Position, name: str, language: Language) -> Beat:
    bouts = ()
    if position.tempo is not None:
        most = position.repetitions.most
        bouts = tuple(
            (bout.times or most, tuple((phase.counts, phase.movement) for phase in bout.phases))
            for bout in position.tempo.bouts
        )
    return Beat(
        position.name or name, repetitions_text(position.repetitions, language), position.beats,
        seconds_text(position.seconds, language), bouts,
    )  # fmt: skip
