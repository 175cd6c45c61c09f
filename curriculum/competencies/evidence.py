"""What evidence shows of an exercise: a rule over notes, practical scores and feedback, never a tick set by hand.

**Which activity.** The activity word of the part of the session that was noted says it (`ACTIVITY_OF`): observation is
*observed*, self-practice *practised*, assisting *assisted*, practice teaching and supervised teaching *taught*. A word that
isn't there (workshops, a school's own) counts nowhere. *Assessed* comes from practicals alone.

**What counts.** A note counts while its session, as it stands, has a part of that activity and is signed off, accepted by
the school or registered by it; own practice counts on the trainee's own word too (attested). Not sent or waiting for a
signature: it is shown as *waiting*. Sent back or withdrawn: nothing. A practical counts once it is decided and neither void
nor broken off, and a feedback from when it is given, unless its session is withdrawn or sent back since.

**Coverage.** For each exercise and activity: *covered* if at least one piece counts, else *waiting* if one waits, else
*open*; with how many pieces count and the newest day among those of the state shown.

**Strands.** A piece speaks for these strands of its exercise:

- a note of teaching: *set up*; *cue* if a cue is ticked; *see and correct* if a fault is ticked with what mended it;
  *adapt* if one of those mends is a step (easier or harder); *transition* if the exercise that follows on the apparatus is
  noted as taught in the same session;
- a note of any other activity: *cue* if a cue is ticked, *see and correct* if a fault is;
- a practical: the strands that its edition gives to its criteria, for every exercise set in the part that was scored;
- feedback: the strand it names.

A strand stands at the highest of five grounds that a counting piece gives (`GROUNDS`): nothing yet, noticed (any activity
but teaching), tried (practice teaching), tried under supervision (a supervising teacher signed for it), assessed. Feedback
by a supervising teacher is of the fourth ground. For assessed the newest practical speaks, not the best: its share of the
marks, and whether that share reached the mark to reach. Each strand is shown with the day and the assessor of the newest
piece on its ground, and how many pieces there are on it.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Literal

from curriculum.competencies.notes import NotedExercise
from curriculum.competencies.statements import STRANDS, Strand

Covered = Literal["observed", "practised", "assisted", "taught", "assessed"]
COVERED: tuple[Covered, ...] = ("observed", "practised", "assisted", "taught", "assessed")
ACTIVITY_OF: Mapping[str, Covered] = {
    "observation": "observed",
    "self_practice": "practised",
    "assisting": "assisted",
    "practice_teaching": "taught",
    "supervised_teaching": "taught",
}
SUPERVISED = ("supervised_teaching",)
PROVEN = ("signed_off", "accepted", "registered")
ON_OWN_WORD = ("attested",)
WAITING = ("not_sent", "waiting")

Standing = Literal["covered", "waiting", "open"]
Ground = Literal["none", "noticed", "tried", "supervised", "assessed"]
GROUNDS: tuple[Ground, ...] = ("none", "noticed", "tried", "supervised", "assessed")


@dataclass(frozen=True, slots=True)
class Evidence:
    """One piece of evidence about one exercise.

    `covers` is None for feedback. `assessor` is a name for people ("" for one's own word); `supervised` says that a
    supervising teacher answers for it. `share` (0 to 1) and `reached` are of practicals, None elsewhere; one piece is then
    of one strand, and `strands` is empty where only that the exercise was assessed is known.
    """

    exercise: str
    covers: Covered | None
    day: date
    counts: bool
    assessor: str = ""
    supervised: bool = False
    strands: tuple[Strand, ...] = ()
    share: Fraction | None = None
    reached: bool | None = None


@dataclass(frozen=True, slots=True)
class NotedSession:
    """A session as it stands with what is noted of it; `activities` are those of its parts, `host` a name or ""."""

    day: date
    state: str
    activities: tuple[str, ...]
    lines: tuple[NotedExercise, ...]
    host: str = ""


@dataclass(frozen=True, slots=True)
class ScoredStrand:
    """What a decided practical says of a strand: the share of the marks (0 to 1), and whether it reached its mark."""

    strand: Strand
    share: Fraction
    reached: bool


@dataclass(frozen=True, slots=True)
class ScoredPart:
    """One part of a decided practical: the exercises set in it, and its strands; `examiners` are names in a row."""

    day: date
    examiners: str
    exercises: tuple[str, ...]
    strands: tuple[ScoredStrand, ...]


@dataclass(frozen=True, slots=True)
class ShownActivity:
    """What is shown of one activity of one exercise; `last` is None where it is open."""

    state: Standing = "open"
    times: int = 0
    last: date | None = None
    assessor: str = ""


@dataclass(frozen=True, slots=True)
class ShownStrand:
    """What is shown of one strand: its ground, how many pieces are on it, and the newest of them."""

    strand: Strand
    ground: Ground = "none"
    times: int = 0
    last: date | None = None
    assessor: str = ""
    share: Fraction | None = None
    reached: bool | None = None


@dataclass(frozen=True, slots=True)
class Coverage:
    """All that evidence shows of one exercise; activities in the order of `COVERED`, strands in that of `STRANDS`."""

    exercise: str
    activities: tuple[tuple[Covered, ShownActivity], ...]
    strands: tuple[ShownStrand, ...]

    def of(self, covered: Covered) -> ShownActivity:
        """What is shown of one activity."""
        return dict(self.activities)[covered]

    @property
    def is_open(self) -> bool:
        """Whether nothing counts yet."""
        return all(one.state != "covered" for _, one in self.activities)


def counting(activity: str, state: str) -> Standing:
    """Whether a note of an activity in a session of that state covers, waits, or does neither (`open`)."""
    covers = ACTIVITY_OF.get(activity)
    if covers is None:
        return "open"
    if state in PROVEN or (covers == "practised" and state in ON_OWN_WORD):
        return "covered"
    return "waiting" if state in WAITING else "open"


def evidence_of_session(noted: NotedSession, after: Callable[[str], str]) -> Iterator[Evidence]:
    """The evidence of a session's notes; `after` gives the exercise that follows another on its apparatus, or ""."""
    taught = {one.exercise for one in noted.lines if ACTIVITY_OF.get(one.activity) == "taught"}
    for line in noted.lines:
        standing = counting(line.activity, noted.state) if line.activity in noted.activities else "open"
        if standing == "open":
            continue
        covers = ACTIVITY_OF[line.activity]
        strands = _taught(line, after(line.exercise) in taught) if covers == "taught" else _watched(line)
        supervised = line.activity in SUPERVISED and bool(noted.host)
        yield Evidence(line.exercise, covers, noted.day, standing == "covered", noted.host, supervised, tuple(strands))


def evidence_of_practical(parts: Iterable[ScoredPart]) -> Iterator[Evidence]:
    """The evidence of a decided practical."""
    for part in parts:
        for exercise in dict.fromkeys(part.exercises):
            yield Evidence(exercise, "assessed", part.day, True, part.examiners)
            for one in part.strands:
                yield Evidence(
                    exercise, None, part.day, True, part.examiners, False, (one.strand,), one.share, one.reached
                )


def coverage_of(exercise: str, evidence: Iterable[Evidence]) -> Coverage:
    """What is shown of an exercise, from all evidence about it (that of other exercises is passed over)."""
    own = [one for one in evidence if one.exercise == exercise]
    activities = tuple((covered, _activity([one for one in own if one.covers == covered])) for covered in COVERED)
    return Coverage(exercise, activities, tuple(_strand(strand, own) for strand in STRANDS))


def _taught(line: NotedExercise, goes_on: bool) -> Iterator[Strand]:
    yield "set-up"
    if line.cues:
        yield "cue"
    mends = [code for one in line.faults for code in one.mended]
    if mends:
        yield "see-and-correct"
    if any(code.startswith("step-") for code in mends):
        yield "adapt"
    if goes_on:
        yield "transition"


def _watched(line: NotedExercise) -> Iterator[Strand]:
    if line.cues:
        yield "cue"
    if line.faults:
        yield "see-and-correct"


def _activity(pieces: list[Evidence]) -> ShownActivity:
    counted = [one for one in pieces if one.counts]
    shown = counted or pieces
    if not shown:
        return ShownActivity()
    newest = max(shown, key=lambda one: one.day)
    return ShownActivity("covered" if counted else "waiting", len(counted), newest.day, newest.assessor)


def _strand(strand: Strand, own: list[Evidence]) -> ShownStrand:
    pieces = [one for one in own if one.counts and strand in one.strands]
    if not pieces:
        return ShownStrand(strand)
    highest = max((_ground(one) for one in pieces), key=GROUNDS.index)
    on_it = [one for one in pieces if _ground(one) == highest]
    newest = max(on_it, key=lambda one: one.day)
    return ShownStrand(strand, highest, len(on_it), newest.day, newest.assessor, newest.share, newest.reached)


def _ground(one: Evidence) -> Ground:
    if one.share is not None:
        return "assessed"
    if one.supervised:
        return "supervised"
    return "tried" if one.covers == "taught" else "noticed"
