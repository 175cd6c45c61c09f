"""One exercise as its page shows it: codes in words, ids as names and links."""

from dataclasses import dataclass

from app.queries.repertoire import exercise_href, level_name
from app.wording import repertoire as words
from app.wording.repertoire import Say, plain
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


def exercise_overview(edition: Edition, exercise_id: str, say: Say = plain) -> ExerciseOverview:
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
        words.seconds_text(exercise.seconds, say),
        tuple(one.text for one in edition.notices_for(exercise.id)),
        _facts(edition, exercise, say),
        words.to_confirm_text(exercise.confirm, say),
        words.set_up_rows(exercise.set_up, exercise.confirm, say),
        _ways(edition, exercise.mount, say),
        _ways(edition, exercise.dismount, say),
        tuple(_position(one, say) for one in exercise.positions),
        _cues(exercise, say),
        tuple(_fault(exercise, one, say) for one in exercise.faults),
        _steps(exercise.regressions, say),
        _steps(exercise.progressions, say),
        tuple(_caution(edition.caution_kind(one.code), one, say) for one in exercise.cautions),
        edition.nothing_listed,
        edition.frame,
        edition.stop,
        _transitions(edition, exercise, say),
        _link(order[here - 1]) if here else None,
        _link(order[here + 1]) if here + 1 < len(order) else None,
    )


def _link(exercise: Exercise) -> tuple[str, str]:
    return exercise.name, exercise_href(exercise.id)


def _facts(edition: Edition, exercise: Exercise, say: Say) -> list[tuple[str, str]]:
    families = ", ".join(say(words.FAMILIES[one]) for one in exercise.families)
    spot = say(N_("Required.")) if exercise.spot else say(N_("Not required."))
    other = ", ".join(f"{one.name} ({one.lineage})" for one in exercise.lineages if one.name)
    rows = [
        (N_("Movement"), families),
        (N_("Spot"), f"{spot} {exercise.spotting}".strip()),
        (N_("Other names"), other),
    ]
    return [(say(term), text) for term, text in rows if text]


def _ways(edition: Edition, ways: tuple[Way, ...], say: Say) -> list[tuple[str, str]]:
    return [(level_name(edition, one.level) if one.level else say(N_("Everybody")), one.text) for one in ways]


def _position(position: Position, say: Say) -> PositionShown:
    times = words.repetitions_text(position.repetitions, say)
    if position.tempo is not None:
        beats = say(N_("{beats} counts a minute"), beats=position.beats)
        says = f"{times}: {position.tempo}; {beats}"
    else:
        each = words.seconds_text(position.seconds_each, say)
        says = say(N_("{times}, {seconds} for one"), times=times, seconds=each)
    return PositionShown(position, says, words.seconds_text(position.seconds, say))


def _cues(exercise: Exercise, say: Say) -> tuple[tuple[str, tuple[tuple[str, str], ...]], ...]:
    grouped = ((kind, tuple(one for one in exercise.cues if one.kind == kind)) for kind in words.CUE_KINDS)
    return tuple(
        (say(words.CUE_KINDS[kind]), tuple((one.text, _phase(one, say)) for one in cues))
        for kind, cues in grouped
        if cues
    )


def _phase(cue: Cue, say: Say) -> str:
    known = words.PHASES.get(cue.phase)
    if known is not None:
        return say(known) if known else ""
    return (
        say(N_("on the way {movement}"), movement=cue.phase) if cue.phase in ("in", "out", "up", "down") else cue.phase
    )


def _fault(exercise: Exercise, fault: MovementFault, say: Say) -> FaultShown:
    steps = exercise.steps_for(fault.id)
    every = (*exercise.regressions, *exercise.progressions)
    drill = tuple(one for one in every if one.id == fault.drill and one not in steps)
    return FaultShown(
        fault,
        say(words.WEIGHTS[fault.weight]),
        tuple(one.text for one in sorted((*drill, *steps), key=lambda one: one.id != fault.drill)),
        tuple((say(words.CUE_KINDS[one.kind]), one.text) for one in exercise.cues_for(fault.id)),
    )


def _steps(steps: tuple[Step, ...], say: Say) -> list[tuple[str, str]]:
    return [(say(words.LEVERS[one.lever]), one.text) for one in steps]


def _caution(kind: CautionKind, caution: Caution, say: Say) -> CautionShown:
    what = caution.text or kind.withhold
    if caution.action == "modify":
        act = say(N_("Change it until licensed advice says otherwise: {what}"), what=what)
    elif what:
        act = say(N_("Leave it out until licensed advice says otherwise. {what}"), what=what)
    else:
        act = say(N_("Leave it out until licensed advice says otherwise."))
    return CautionShown(kind.name, act, caution.instead or kind.instead, kind.ask, kind.stop)


def _transitions(
    edition: Edition, exercise: Exercise, say: Say
) -> tuple[tuple[str, str, tuple[TransitionShown, ...]], ...]:
    targets = dict.fromkeys(one.to for one in exercise.transitions)
    return tuple(
        (
            *_link(edition.exercise(to)),
            tuple(_variant(edition, one, say) for one in exercise.transitions if one.to == to),
        )
        for to in targets
    )


def _variant(edition: Edition, one: Transition, say: Say) -> TransitionShown:
    bar = say(words.BAR_LOCKS[one.foot_bar]) if one.foot_bar else ""
    level = level_name(edition, one.level) if one.level else ""
    when = "; ".join(text for text in (bar, level) if text)
    return TransitionShown(when, words.seconds_text(one.seconds, say), one.steps, one.confirm)
