"""Competency statements: what a teacher can do with an exercise, in five strands."""

from dataclasses import dataclass
from typing import Literal

from curriculum.faults import N_
from curriculum.repertoire.edition import Edition
from curriculum.repertoire.exercise import Exercise

Strand = Literal["set-up", "cue", "see-and-correct", "adapt", "transition"]
STRANDS: tuple[Strand, ...] = ("set-up", "cue", "see-and-correct", "adapt", "transition")
STRAND_NAMES: dict[Strand, str] = {
    "set-up": N_("Set up"),
    "cue": N_("Cue"),
    "see-and-correct": N_("See and correct"),
    "adapt": N_("Adapt"),
    "transition": N_("Transition"),
}


@dataclass(frozen=True, slots=True)
class CompetencyStatement:
    """One statement: `id` is `EXERCISE.STRAND`; `sentence` is a catalogue text that `values` fill."""

    exercise: str
    strand: Strand
    sentence: str
    values: tuple[tuple[str, object], ...]

    @property
    def id(self) -> str:
        """The name that evidence points at; it stays the same from edition to edition."""
        return f"{self.exercise}.{self.strand}"

    def text(self) -> str:
        """The English sentence, filled in."""
        return self.sentence.format(**dict(self.values))


def competency_statements(edition: Edition) -> tuple[CompetencyStatement, ...]:
    """Five statements for every exercise of an edition, in its order."""
    return tuple(one for exercise in edition.exercises for one in statements_of(exercise, edition))


def statements_of(exercise: Exercise, edition: Edition) -> tuple[CompetencyStatement, ...]:
    """The five statements of one exercise."""
    writers = (_set_up, _cue, _see_and_correct, _adapt, _transition)
    return tuple(
        CompetencyStatement(exercise.id, strand, *write(exercise, edition))
        for strand, write in zip(STRANDS, writers, strict=True)
    )


def _said(sentence: str, **values: object) -> tuple[str, tuple[tuple[str, object], ...]]:
    return sentence, tuple(values.items())


def _set_up(exercise: Exercise, edition: Edition):
    apparatus = edition.apparatus_named(exercise.apparatus)
    named = {"name": exercise.name, "apparatus": apparatus.name if apparatus else exercise.apparatus}
    springs = exercise.set_up.springs
    if springs is None:
        return _said(N_("Prepares {name} ({apparatus}): place, checks, the way on and the way off"), **named)
    if springs.every:
        sentence = N_(
            "Sets up {name} ({apparatus}) with every spring on, the rest of the set-up, checks, and the way on and off"
        )
        return _said(sentence, **named)
    sentence = N_(
        "Sets up {name} ({apparatus}) with {springs} spring(s), says when lighter and when heavier, and sees to the rest "
        "of the set-up, the checks, and the way on and off"
    )
    return _said(sentence, **named, springs=springs.count)


def _cue(exercise: Exercise, edition: Edition):
    repetitions = "; ".join(dict.fromkeys(str(one.repetitions) for one in exercise.positions))
    if len(exercise.positions) > 1:
        sentence = N_(
            "Leads {name} in order through its {number} positions, in rhythm, with short cues and touch only with consent"
        )
        return _said(sentence, name=exercise.name, number=len(exercise.positions))
    sentence = N_("Leads {name} ({repetitions}) in rhythm, with short cues and touch only with consent")
    return _said(sentence, name=exercise.name, repetitions=repetitions)


def _see_and_correct(exercise: Exercise, edition: Edition):
    if not exercise.faults:
        return _said(N_("Sees what goes wrong in {name}, puts safety first, and mends it"), name=exercise.name)
    sentence = N_("Sees the common faults of {name} ({faults}), puts safety first, and mends them")
    return _said(sentence, name=exercise.name, faults=", ".join(one.id for one in exercise.faults))


def _adapt(exercise: Exercise, edition: Edition):
    codes = [kind.name for one in exercise.cautions if (kind := edition.caution_kind(one.code))]
    if not codes:
        sentence = N_("Makes {name} easier and harder; where nothing is listed, asks, and neither diagnoses nor clears")
        return _said(sentence, name=exercise.name)
    sentence = N_(
        "Makes {name} easier and harder, withholds or changes it as the cautions say ({cautions}), and sends the client "
        "to a licensed professional"
    )
    return _said(sentence, name=exercise.name, cautions="; ".join(codes))


def _transition(exercise: Exercise, edition: Edition):
    later = [one for one in edition.on(exercise.apparatus) if one.place == exercise.place + 1]
    if not later:
        return _said(N_("Ends {name} and brings the client off safely"), name=exercise.name)
    sentence = N_("Leads from {name} into {after} in a safe order without losing time")
    return _said(sentence, name=exercise.name, after=later[0].name)
