"""Feedback of the supervising teacher on a taught lesson: one strand, how far, two sentences and the next step.

How far is one of three levels (`LEVELS`), common practice of teacher training: with help throughout, with a word now and
then, alone. It is shown, and grounds a strand no higher or lower: whatever the level, a teacher who answers for it saw it
tried (see `evidence`).
"""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from datetime import date
from typing import Literal

from curriculum.competencies.evidence import Evidence
from curriculum.competencies.statements import STRANDS, Strand
from curriculum.faults import N_, Fault
from curriculum.repertoire.edition import Edition

Level = Literal["with-help", "with-a-word", "alone"]
LEVELS: tuple[Level, ...] = Level.__args__
TAUGHT = ("supervised_teaching", "practice_teaching")
LONGEST = 400


@dataclass(frozen=True, slots=True)
class Said:
    """What a supervising teacher says; `exercise` is "" for the whole lesson."""

    strand: Strand
    level: Level
    exercise: str
    worked: str
    better: str
    next_step: str


def feedback_faults(said: Said, edition: Edition) -> list[Fault]:
    """Everything that is missing or can't be kept, in the order of the form."""
    faults = []
    if said.strand not in STRANDS:
        faults.append(Fault("no-strand", N_("choose what the feedback is about"), field="strand"))
    if said.level not in LEVELS:
        faults.append(Fault("no-level", N_("choose how far it went"), field="level"))
    if said.exercise and said.exercise not in {one.id for one in edition.exercises}:
        faults.append(
            Fault("no-exercise", N_("choose an exercise from the list, or the whole lesson"), field="exercise")
        )
    missing = {
        "worked": N_("say in a sentence what worked"),
        "better": N_("say in a sentence what could be better"),
        "next_step": N_("say what to do next"),
    }
    for name, sentence in missing.items():
        words = getattr(said, name)
        if not words:
            faults.append(Fault("no-words", sentence, field=name))
        elif len(words) > LONGEST:
            faults.append(Fault("too-long", N_("keep this under {most} letters"), {"most": LONGEST}, name))
    return faults


def evidence_of_feedback(
    exercise: str, strand: Strand, day: date, teacher: str, taught: Collection[str]
) -> Iterator[Evidence]:
    """What feedback speaks for: its exercise, or for the whole lesson each one that is noted as `taught` in it."""
    for one in (exercise,) if exercise else dict.fromkeys(taught):
        yield Evidence(one, None, day, True, teacher, True, (strand,))
