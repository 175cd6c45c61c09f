"""A plan looked through: its time, its transitions, its order, its balance and its cautions."""

from bisect import bisect_left
from collections import Counter
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby, pairwise

from curriculum.faults import N_, Fault
from curriculum.repertoire.edition import Edition
from curriculum.repertoire.exercise import FAMILIES, Exercise
from curriculum.sessions.plan import Plan
from curriculum.sessions.transition import Passage, passage

MOST_SHARE = Fraction(1, 5)


@dataclass(frozen=True, slots=True)
class PlannedExercise:
    """One exercise of a plan: its seconds of movement and the passage into the next one (None for the last)."""

    exercise: Exercise
    seconds: Fraction
    passage: Passage | None

    @property
    def transition_seconds(self) -> int:
        return 0 if self.passage is None else self.passage.seconds


@dataclass(frozen=True, slots=True)
class PlanCheck:
    """What a plan comes to. `seconds` = factor × (moving + transitions) + intake + close.

    `order_kept` is how many exercises stand in the longest part that keeps the edition's order on each apparatus,
    `out_of_order` the ids that break it; `families` counts exercises by movement family, 0 for a missing one.
    """

    seconds: Fraction
    moving_seconds: Fraction
    transition_seconds: int
    items: tuple[PlannedExercise, ...]
    order_kept: int
    out_of_order: tuple[str, ...]
    families: dict[str, int]
    warnings: tuple[Fault, ...]

    @property
    def transition_share(self) -> Fraction:
        """The part of movement and transitions together that goes to transitions."""
        whole = self.moving_seconds + self.transition_seconds
        return Fraction(0) if not whole else self.transition_seconds / whole


def check_plan(plan: Plan, edition: Edition) -> PlanCheck:
    """Look through a plan whose exercises all stand in the edition (`read_plan` sees to that)."""
    by_id = {one.id: one for one in edition.exercises}
    exercises = [by_id[id] for id in plan.exercises]
    passages = [passage(edition, a, b, plan.foot_bar, plan.level) for a, b in pairwise(exercises)]
    ways = [*passages, None] if exercises else []
    items = tuple(PlannedExercise(one, one.seconds, way) for one, way in zip(exercises, ways, strict=True))
    moving = sum((item.seconds for item in items), Fraction(0))
    between = sum(item.transition_seconds for item in items)
    seconds = plan.factor * (moving + between) + plan.intake + plan.close
    breaking = out_of_order(exercises)
    families = Counter(family for one in exercises for family in one.families)
    counted = {family: families[family] for family in FAMILIES}
    outcome = PlanCheck(
        seconds,
        moving,
        between,
        items,
        len(exercises) - len(breaking),
        tuple(exercises[place].id for place in breaking),
        counted,
        (),
    )
    return PlanCheck(
        seconds,
        moving,
        between,
        items,
        outcome.order_kept,
        outcome.out_of_order,
        counted,
        tuple(fault for rule in RULES for fault in rule(plan, edition, outcome)),
    )


def out_of_order(exercises: list[Exercise]) -> list[int]:
    """Places in the plan outside the longest part that keeps the edition's order, apparatus by apparatus."""
    breaking: list[int] = []
    for apparatus in dict.fromkeys(one.apparatus for one in exercises):
        places = [place for place, one in enumerate(exercises) if one.apparatus == apparatus]
        kept = longest_rising([exercises[place].place for place in places])
        breaking.extend(place for index, place in enumerate(places) if index not in kept)
    return sorted(breaking)


def longest_rising(numbers: list[int]) -> set[int]:
    """The indices of a longest strictly rising part of `numbers` (patience sorting)."""
    ends: list[int] = []
    last: list[int] = []
    before: list[int | None] = []
    for index, number in enumerate(numbers):
        pile = bisect_left(ends, number)
        before.append(last[pile - 1] if pile else None)
        if pile == len(ends):
            ends.append(number)
            last.append(index)
        else:
            ends[pile], last[pile] = number, index
    kept: set[int] = set()
    index = last[-1] if last else None
    while index is not None:
        kept.add(index)
        index = before[index]
    return kept


def too_long(plan: Plan, edition: Edition, check: PlanCheck):
    """The plan takes more than its minutes."""
    if plan.minutes is not None and check.seconds > plan.minutes * 60:
        over = float(check.seconds - plan.minutes * 60)
        yield Fault(
            "too-long",
            N_("takes {over:g} s more than {minutes} minutes"),
            {"over": over, "minutes": plan.minutes},
        )


def much_lost(plan: Plan, edition: Edition, check: PlanCheck):
    """More than a fifth of movement and transitions goes to transitions."""
    if check.transition_share > MOST_SHARE:
        share = round(100 * float(check.transition_share))
        yield Fault(
            "much-lost",
            N_("{share} % of the time goes to transitions"),
            {"share": share},
        )


def avoidable_changes(plan: Plan, edition: Edition, check: PlanCheck):
    """Trips with spring, box and bar beyond those that the same exercises in the edition's order would need."""
    by_id = {one.id: one for one in edition.exercises}
    rank = {one.id: place for place, one in enumerate(edition.exercises)}
    ordered = [by_id[id] for id in sorted(plan.exercises, key=rank.__getitem__)]
    least = trips([passage(edition, a, b) for a, b in pairwise(ordered)])
    made = trips([item.passage for item in check.items if item.passage])
    for kind, sentence in (
        ("spring", N_("{more} spring changes more than in the order of the edition")),
        ("box", N_("{more} box trips more than in the order of the edition")),
        ("bar", N_("{more} changes of a bar more than in the order of the edition")),
    ):
        if made[kind] > least[kind]:
            yield Fault(f"avoidable-{kind}", sentence, {"more": made[kind] - least[kind]})


def trips(passages: list[Passage]) -> Counter:
    """How many changes of each kind the passages hold."""
    return Counter(change.kind for one in passages for change in one.derived)


def families_missing(plan: Plan, edition: Edition, check: PlanCheck):
    """A movement family that no exercise holds, or one that fills three exercises in a row or more."""
    missing = [family for family, count in check.families.items() if not count]
    if missing:
        yield Fault(
            "families-missing",
            N_("no exercise with: {families}"),
            {"families": ", ".join(missing)},
        )
    for family, run in family_runs([item.exercise for item in check.items]):
        sentence = N_("{number} in a row with {family}: {names}")
        names = ", ".join(one.id for one in run)
        yield Fault("family-repeated", sentence, {"number": len(run), "family": family, "names": names})


def family_runs(exercises: list[Exercise], least: int = 3) -> list[tuple[str, list[Exercise]]]:
    """The longest stretches of at least so many exercises that share a movement family, in order of their start."""
    found = []
    for family in FAMILIES:
        for shared, run in groupby(enumerate(exercises), key=lambda one: family in one[1].families):
            stretch = list(run)
            if shared and len(stretch) >= least:
                found.append((stretch[0][0], family, [one for _, one in stretch]))
    return [(family, run) for _, family, run in sorted(found, key=lambda one: (one[0], one[1]))]


def level_jumps(plan: Plan, edition: Edition, check: PlanCheck):
    """An exercise above the plan's level, or a step of two levels at once."""
    exercises = [item.exercise for item in check.items]
    for one in exercises:
        if plan.level and edition.level_rank(one.level) > edition.level_rank(plan.level):
            values = {"exercise": one.id, "level": one.level, "plan": plan.level}
            yield Fault("above-level", N_("{exercise} is {level}, above {plan}"), values)
    for before, after in pairwise(exercises):
        if edition.level_rank(after.level) - edition.level_rank(before.level) > 1:
            values = {"before": before.id, "after": after.id}
            yield Fault(
                "level-jump",
                N_("from {before} to {after} is a jump of more than one level"),
                values,
            )


def cautions_for_client(plan: Plan, edition: Edition, check: PlanCheck):
    """What the stated client's cautions ask of each exercise, and the sentence that sends on."""
    found = False
    for item in check.items:
        for code in plan.client:
            caution, kind = item.exercise.caution(code), edition.caution_kind(code)
            if caution is None or kind is None:
                continue
            found = True
            values = {
                "exercise": item.exercise.id,
                "code": code,
                "text": caution.text or kind.withhold or kind.name,
                "instead": caution.instead or kind.instead or "–",
                "ask": kind.ask,
            }
            sentence = N_("{exercise}, {code}: withhold ({text}) Instead: {instead} {ask}")
            if caution.action == "modify":
                sentence = N_("{exercise}, {code}: modify: {text} Instead: {instead} {ask}")
            yield Fault(f"caution-{caution.action}", sentence, values)
    if plan.client:
        yield Fault(
            "frame",
            "{frame}",
            {"frame": edition.frame if found else f"{edition.nothing_listed} {edition.frame}"},
        )


def spots(plan: Plan, edition: Edition, check: PlanCheck):
    """Exercises on which a spot is required."""
    for item in check.items:
        if item.exercise.spot:
            values = {"exercise": item.exercise.id, "how": item.exercise.spotting}
            yield Fault("spot", N_("{exercise} needs a spot. {how}"), values)


def disagreements(plan: Plan, edition: Edition, check: PlanCheck):
    """Transitions where the author's seconds differ from those derived from the set-ups."""
    for item, after in pairwise(check.items):
        way = item.passage
        if way and way.disagree:
            values = {
                "before": item.exercise.id,
                "after": after.exercise.id,
                "authored": way.seconds,
                "derived": way.derived_seconds,
            }
            yield Fault(
                "transition-differs",
                N_("{before} to {after}: {authored} s as written, {derived} s from the set-ups"),
                values,
            )


def notices(plan: Plan, edition: Edition, check: PlanCheck):
    """Safety notices on the exercises of the plan."""
    told = {notice for id in plan.exercises for notice in edition.notices_for(id)}
    for notice in sorted(told, key=lambda one: (one.issued, one.id)):
        yield Fault(
            "safety-notice",
            N_("Safety notice {id}: {text}"),
            {"id": notice.id, "text": notice.text},
        )


RULES = (
    notices,
    too_long,
    much_lost,
    avoidable_changes,
    families_missing,
    level_jumps,
    cautions_for_client,
    spots,
    disagreements,
)
