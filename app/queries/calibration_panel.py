"""Calibration as the director sees it: every examiner by practical, and references that a founding panel can set."""

from dataclasses import dataclass
from datetime import date

from app.queries.calibration_facts import Gathered, InUse, in_use
from app.storage.people import Person
from app.storage.work import Work
from app.wording.calibration import direction_text, figure, rules_text, state_words, where_texts
from app.wording.faults import fault_text
from app.wording.languages import Language
from assessments.calibration.comparing import misfits
from curriculum.faults import N_

NEAR = N_("{levels} from the reference on average (in levels), {same} of {marks} marks the same")


@dataclass(frozen=True, slots=True)
class ExaminerCalibrated:
    """One examiner: how they stand, and how near, in which direction and where over what counts."""

    name: str
    state: str
    state_kind: str
    near: str
    direction: str
    where: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Founding:
    """A performance without a published reference; `may_set` once enough have scored it, `done` when it was set."""

    id: str
    title: str
    scored: tuple[str, ...]
    wanted: int
    may_set: bool
    done: bool


@dataclass(frozen=True, slots=True)
class PracticalCalibrated:
    practical: str
    title: str
    rules: str
    performances: int
    examiners: tuple[ExaminerCalibrated, ...]
    foundings: tuple[Founding, ...]
    misfits: tuple[str, ...]
    too_few: bool


def calibration_panel(work: Work, today: date, zone: str, language: Language) -> tuple[PracticalCalibrated, ...]:
    """Every practical on offer."""
    gathered = Gathered(work, zone)
    people = [one for one in work.people.with_role("examiner") if one.left_at is None]
    return tuple(_practical(gathered, use, people, today, language) for use in in_use(work))


def _practical(
    gathered: Gathered, use: InUse, people: list[Person], today: date, language: Language
) -> PracticalCalibrated:
    rules, made = use.practical.calibration, use.made.performances if use.made else ()
    return PracticalCalibrated(
        use.practical.id,
        use.practical.title,
        rules_text(rules, language) if rules.performances else "",
        len(use.fitting),
        tuple(_examiner(gathered, use, one, today, language) for one in people),
        tuple(_founding(gathered, use, one, people) for one in use.fitting if one.reference is None),
        tuple(fault_text(fault, language) for one in made for fault in misfits(use.practical, one)),
        len(use.fitting) < rules.performances,
    )


def _examiner(gathered: Gathered, use: InUse, one: Person, today: date, language: Language) -> ExaminerCalibrated:
    now = gathered.standing(one.id, use.practical, today)
    own = (one.name, *state_words(now, use.practical.calibration, language))
    if now.distance is None:
        return ExaminerCalibrated(*own, "", "", ())
    found = now.distance
    near = language(NEAR, levels=figure(found.levels, language), same=found.same, marks=len(found.marks))
    where = tuple(where_texts(found, use.practical, language))
    return ExaminerCalibrated(*own, near, direction_text(found, language), where)


def _founding(gathered: Gathered, use: InUse, one, people: list[Person]) -> Founding:  # noqa: ANN001 - a Performance
    scored = tuple(person.name for person in people if gathered.of(person.id, one.id))
    wanted, done = use.practical.calibration.founders, one.id in gathered.foundings
    return Founding(one.id, one.title, scored, wanted, not done and len(scored) >= wanted, done)
