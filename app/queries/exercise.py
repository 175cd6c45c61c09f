"""One exercise as its page shows it: codes in words, ids as names and links."""

from dataclasses import dataclass

from app.queries.repertoire import exercise_href, level_name
from app.wording import repertoire as words
from app.wording.languages import ENGLISH, Language
from curriculum.faults import N_, NotFoundError
from curriculum.repertoire.edition import CautionKind, Edition
from curriculum.repertoire.exercise import Caution, Cue, Exercise, MovementFault, Position, Step, Transition, Way


@dataclass(frozen=True, slots=True)
class PositionShown:
    """A position; `position.tempo` may be None, then `says` has the seconds of one repetition."""

    position: Position
    says: str
    seconds: str


@dataclass(frozen=True, slots=True)
class FaultShown:
    """A fault with what mends it: its drill, other steps, and cues."""

    fault: MovementFault
    weight: str
    steps: tuple[str, ...]
    cues: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class CautionShown:
    """A caution; `act` says what is done until licensed advice says otherwise, `ask` sends the client on."""

    name: str
    act: str
    instead: str
    ask: str
    stop: str


@dataclass(frozen=True, slots=True)
class TransitionShown:
    """One variant of the way into another exercise; `when` is empty where it always holds."""

    when: str
    seconds: str
    steps: tuple[str, ...]
    confirm: bool


@dataclass(frozen=True, slots=True)
class ExerciseOverview:
    """An exercise whole; (term, text) pairs wherever something is named and told."""

    exercise: Exercise
    apparatus: str
    apparatus_href: str
    series: str
    of: int
    level: str
    seconds: str
    notices: tuple[str, ...]
    facts: list[tuple[str, str]]
    to_confirm: str
    set_up: list[tuple[str, str]]
    mount: list[tuple[str, str]]
    dismount: list[tuple[str, str]]
    positions: tuple[PositionShown, ...]
    cues: tuple[tuple[str, tuple[tuple[str, str], ...]], ...]
    faults: tuple[FaultShown, ...]
    regressions: list[tuple[str, str]]
    progressions: list[tuple[str, str]]
    cautions: tuple[CautionShown, ...]
    nothing_listed: str
    frame: str
    stop: str
    transitions: tuple[tuple[str, str, tuple[TransitionShown, ...]], ...]
    before: tuple[str, str] | None
    after: tuple[str, str] | None


def exercise_overview(edition: Edition, exercise_id: str, language: Language = ENGLISH) -> ExerciseOverview:
    """The page of one exercise; raises `NotFoundError` for an id the edition doesn't have."""
    exercise = edition.exercise(exercise_id)
    if exercise is None:
        raise NotFoundError
    order = edition.on(exercise.apparatus)
    here = order.index(exercise)
    return ExerciseOverview(
        exercise,
        edition.apparatus_named(exercise.apparatus).name,
        f"/repertoire/{exercise.apparatus}",
        next(one.name for one in edition.series if one.id == exercise.series),
        len(order),
        level_name(edition, exercise.level),
        words.seconds_text(exercise.seconds, language),
        tuple(one.text for one in edition.notices_for(exercise.id)),
        _facts(edition, exercise, language),
        words.to_confirm_text(exercise.confirm, language),
        words.set_up_rows(exercise.set_up, exercise.confirm, language),
        _ways(edition, exercise.mount, language),
        _ways(edition, exercise.dismount, language),
        tuple(_position(one, language) for one in exercise.positions),
        _cues(exercise, language),
        tuple(_fault(exercise, one, language) for one in exercise.faults),
        _steps(exercise.regressions, language),
        _steps(exercise.progressions, language),
        tuple(_caution(edition.caution_kind(one.code), one, language) for one in exercise.cautions),
        edition.nothing_listed,
        edition.frame,
        edition.stop,
        _transitions(edition, exercise, language),
        _link(order[here - 1]) if here else None,
        _link(order[here + 1]) if here + 1 < len(order) else None,
    )


def _link(exercise: Exercise) -> tuple[str, str]:
    return exercise.name, exercise_href(exercise.id)


def _facts(edition: Edition, exercise: Exercise, language: Language) -> list[tuple[str, str]]:
    families = language.listed([language(words.FAMILIES[one]) for one in exercise.families])
    spot = language(N_("Required.")) if exercise.spot else language(N_("Not required."))
    other = ", ".join(f"{one.name} ({one.lineage})" for one in exercise.lineages if one.name)
    rows = [
        (N_("Movement"), families),
        (N_("Spot"), f"{spot} {exercise.spotting}".strip()),
        (N_("Other names"), other),
    ]
    return [(language(term), text) for term, text in rows if text]


def _ways(edition: Edition, ways: tuple[Way, ...], language: Language) -> list[tuple[str, str]]:
    return [(level_name(edition, one.level) if one.level else language(N_("Everybody")), one.text) for one in ways]


def _position(position: Position, language: Language) -> PositionShown:
    return PositionShown(
        position, words.position_text(position, language), words.seconds_text(position.seconds, language)
    )


def _cues(exercise: Exercise, language: Language) -> tuple[tuple[str, tuple[tuple[str, str], ...]], ...]:
    grouped = ((kind, tuple(one for one in exercise.cues if one.kind == kind)) for kind in words.CUE_KINDS)
    return tuple(
        (language(words.CUE_KINDS[kind]), tuple((one.text, _phase(one, language)) for one in cues))
        for kind, cues in grouped
        if cues
    )


def _phase(cue: Cue, language: Language) -> str:
    known = words.PHASES.get(cue.phase)
    if known is not None:
        return language(known) if known else ""
    return (
        language(N_("on the way {movement}"), movement=cue.phase)
        if cue.phase in ("in", "out", "up", "down")
        else cue.phase
    )


def _fault(exercise: Exercise, fault: MovementFault, language: Language) -> FaultShown:
    steps = exercise.steps_for(fault.id)
    every = (*exercise.regressions, *exercise.progressions)
    drill = tuple(one for one in every if one.id == fault.drill and one not in steps)
    return FaultShown(
        fault,
        language(words.WEIGHTS[fault.weight]),
        tuple(one.text for one in sorted((*drill, *steps), key=lambda one: one.id != fault.drill)),
        tuple((language(words.CUE_KINDS[one.kind]), one.text) for one in exercise.cues_for(fault.id)),
    )


def _steps(steps: tuple[Step, ...], language: Language) -> list[tuple[str, str]]:
    return [(language(words.LEVERS[one.lever]), one.text) for one in steps]


def _caution(kind: CautionKind, caution: Caution, language: Language) -> CautionShown:
    what = caution.text or kind.withhold
    if caution.action == "modify":
        act = language(N_("Change it until licensed advice says otherwise: {what}"), what=what)
    elif what:
        act = language(N_("Leave it out until licensed advice says otherwise. {what}"), what=what)
    else:
        act = language(N_("Leave it out until licensed advice says otherwise."))
    instead = caution.instead or ("" if caution.action == "modify" else kind.instead)
    return CautionShown(kind.name, act, instead, kind.ask, kind.stop)


def _transitions(
    edition: Edition, exercise: Exercise, language: Language
) -> tuple[tuple[str, str, tuple[TransitionShown, ...]], ...]:
    targets = dict.fromkeys(one.to for one in exercise.transitions)
    return tuple(
        (
            *_link(edition.exercise(to)),
            tuple(_variant(edition, one, language) for one in exercise.transitions if one.to == to),
        )
        for to in targets
    )


def _variant(edition: Edition, one: Transition, language: Language) -> TransitionShown:
    bar = language(words.BAR_LOCKS[one.foot_bar]) if one.foot_bar else ""
    level = level_name(edition, one.level) if one.level else ""
    when = "; ".join(text for text in (bar, level) if text)
    return TransitionShown(when, words.seconds_text(one.seconds, language), one.steps, one.confirm)
