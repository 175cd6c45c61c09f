"""A described lesson: moments that are sound, and moments with a planted fault."""

from dataclasses import dataclass

# What becomes of examiners' answers: shown all together without names, or each examiner's to the director as well.
SHOWN = ("panel", "each")


@dataclass(frozen=True, slots=True)
class PlantedFault:
    """What is wrong, why it is, how much it weighs (safety, form, rhythm), and what one would say."""

    what: str
    why: str
    weight: str
    say: str


@dataclass(frozen=True, slots=True)
class Moment:
    """What the client and the teacher do; either a planted fault, or in `sound` why nothing is wrong."""

    id: str
    client: str
    teacher: str
    fault: PlantedFault | None = None
    sound: str = ""

    @property
    def is_faulty(self) -> bool:
        return self.fault is not None


@dataclass(frozen=True, slots=True)
class SpottingLesson:
    """Moments of one lesson; `setting` says who is in the room."""

    id: str
    title: str
    setting: str
    moments: tuple[Moment, ...]

    @property
    def planted(self) -> int:
        return sum(moment.is_faulty for moment in self.moments)

    def moment(self, moment_id: str) -> Moment:
        return next(moment for moment in self.moments if moment.id == moment_id)


@dataclass(frozen=True, slots=True)
class SpottingLessons:
    """One edition of lessons; `frame` says what they are not, `examiners` who sees an examiner's answers (`SHOWN`)."""

    title: str
    frame: str
    lessons: tuple[SpottingLesson, ...]
    examiners: str = "panel"

    def lesson(self, lesson_id: str) -> SpottingLesson | None:
        return next((lesson for lesson in self.lessons if lesson.id == lesson_id), None)
