"""What somebody notes of a session: exercises seen or taught, cues heard, faults seen and how they were mended."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from curriculum.faults import N_, Fault
from curriculum.repertoire.edition import Edition
from curriculum.repertoire.exercise import Exercise, MovementFault

MOST_NOTED = 60
LONGEST_WORDS = 240
CORRECTION = "correction"


@dataclass(frozen=True, slots=True)
class NotedFault:
    """A fault that was seen; `mended` holds codes of what mended it (see `mends_of`), none if nothing did."""

    fault: str
    mended: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class NotedExercise:
    """One exercise in one activity of a session; `cues` count the exercise's cues from 1; `words` is free text."""

    activity: str
    exercise: str
    cues: tuple[int, ...] = ()
    faults: tuple[NotedFault, ...] = ()
    words: str = ""


def mends_of(exercise: Exercise, fault: MovementFault) -> tuple[tuple[str, str], ...]:
    """What an edition has to mend a fault with: (code, text); the correction, then drills and steps, then cues.

    Codes are `correction`, `step-ID` and `cue-NUMBER`.
    """
    every = (*exercise.regressions, *exercise.progressions)
    steps = [one for one in every if one.id == fault.drill or fault.id in one.mends]
    steps.sort(key=lambda one: one.id != fault.drill)
    return (
        (CORRECTION, fault.correction),
        *((f"step-{one.id}", one.text) for one in steps),
        *((f"cue-{place}", one.text) for place, one in enumerate(exercise.cues, start=1) if one.answers == fault.id),
    )


def note_faults(noted: Iterable[NotedExercise], edition: Edition, activities: Iterable[str]) -> tuple[Fault, ...]:
    """Everything that is wrong with notes: too many, unknown exercises, activities, cues, faults or mends."""
    noted, activities = tuple(noted), frozenset(activities)
    rules = (_too_many, _of_the_session, _of_the_edition, _short)
    return tuple(fault for rule in rules for fault in rule(noted, edition, activities))


def carried(noted: NotedExercise, before: Edition, now: Edition) -> NotedExercise:
    """The same note in another edition: cues are found again by their text; what is gone is left out."""
    old, new = before.exercise(noted.exercise), now.exercise(noted.exercise)
    if before.id == now.id or old is None or new is None:
        return noted
    texts = {one.text: place for place, one in enumerate(new.cues, start=1)}
    moved = {place: texts[one.text] for place, one in enumerate(old.cues, start=1) if one.text in texts}
    return NotedExercise(
        noted.activity,
        noted.exercise,
        tuple(moved[cue] for cue in noted.cues if cue in moved),
        tuple(_carried_fault(new, one, moved) for one in noted.faults if one.fault in {some.id for some in new.faults}),
        noted.words,
    )


def _carried_fault(exercise: Exercise, noted: NotedFault, moved: dict[int, int]) -> NotedFault:
    fault = next(one for one in exercise.faults if one.id == noted.fault)
    known = {code for code, _ in mends_of(exercise, fault)}
    codes = (_carried_code(code, moved) for code in noted.mended)
    return NotedFault(noted.fault, tuple(code for code in codes if code in known))


def _carried_code(code: str, moved: dict[int, int]) -> str:
    kind, _, number = code.partition("-")
    return f"cue-{moved.get(int(number), 0)}" if kind == "cue" else code


def _too_many(noted: tuple[NotedExercise, ...], edition: Edition, activities: frozenset[str]) -> Iterator[Fault]:
    if len(noted) > MOST_NOTED:
        yield Fault(
            "too-many", N_("note at most {most} exercises of one session"), {"most": MOST_NOTED}, field="chosen"
        )
    if len({(one.activity, one.exercise) for one in noted}) < len(noted):
        yield Fault("twice", N_("an exercise is noted twice; once is enough"), field="chosen")


def _of_the_session(noted: tuple[NotedExercise, ...], edition: Edition, activities: frozenset[str]) -> Iterator[Fault]:
    if any(one.activity not in activities for one in noted):
        yield Fault("no-activity", N_("choose exercises of what you did in this session"), field="chosen")


def _of_the_edition(noted: tuple[NotedExercise, ...], edition: Edition, activities: frozenset[str]) -> Iterator[Fault]:
    if not all(_is_known(one, edition.exercise(one.exercise)) for one in noted):
        sentence = N_("choose exercises, cues and faults from the lists of your edition")
        yield Fault("not-of-edition", sentence, field="chosen")


def _is_known(noted: NotedExercise, exercise: Exercise | None) -> bool:
    if exercise is None or not all(1 <= cue <= len(exercise.cues) for cue in noted.cues):
        return False
    faults = {one.id: one for one in exercise.faults}
    return all(
        one.fault in faults and set(one.mended) <= {code for code, _ in mends_of(exercise, faults[one.fault])}
        for one in noted.faults
    )


def _short(noted: tuple[NotedExercise, ...], edition: Edition, activities: frozenset[str]) -> Iterator[Fault]:
    for one in noted:
        if len(one.words) > LONGEST_WORDS:
            sentence = N_("keep the words under {most} letters")
            yield Fault("too-long", sentence, {"most": LONGEST_WORDS}, field=f"words:{one.activity}:{one.exercise}")
