"""Whether an exam can be set: who examines whom, when and where, one rule a function that yields faults."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date

from assessments.incidents.report import withdrawn_in
from assessments.practicals.deciding import Outcome, Tie, Waiver, tie_faults
from assessments.practicals.exam_rooms import machines_in, same_room, shared_machines
from assessments.practicals.specification import Practical
from curriculum.faults import N_, Fault

# Common practice: who taught somebody does not examine them; having examined them before is no bar.
BARS_EXAMINING = ("taught", "hosted", "related")
DAY_MINUTES = 24 * 60


@dataclass(frozen=True, slots=True)
class Booking:
    """An exam as it is asked for or as it stands; minutes are since midnight at the school.

    `again_from` is the first day of a further attempt, as the decision of this one named it.
    """

    candidate: str
    practical: str
    day: date
    starts: int
    minutes: int
    room: str
    examiners: tuple[str, ...]
    outcome: Outcome | None = None
    again_from: date | None = None

    def overlaps(self, other: "Booking") -> bool:
        return self.day == other.day and self.starts < other.ends and other.starts < self.ends

    @property
    def ends(self) -> int:
        return self.starts + self.minutes


@dataclass(frozen=True, slots=True)
class Setting:
    """What a wanted exam is held against.

    `others` are the exams that stand, `staff` the ids of those who may examine, `uncalibrated` of those among them
    without a calibration that holds on the day, `withdrawn` the machines that are out of use.
    """

    practical: Practical
    wanted: Booking
    enrolled: date
    staff: frozenset[str]
    others: tuple[Booking, ...] = ()
    ties: tuple[Tie, ...] = ()
    waivers: Mapping[str, Waiver] = field(default_factory=dict)
    uncalibrated: frozenset[str] = frozenset()
    withdrawn: tuple[str, ...] = ()

    @property
    def earlier(self) -> tuple[Booking, ...]:
        """The candidate's other exams of this practical."""
        own = (self.wanted.candidate, self.wanted.practical)
        return tuple(one for one in self.others if (one.candidate, one.practical) == own)


def setting_faults(setting: Setting) -> tuple[Fault, ...]:
    """Everything that keeps the exam from being set; empty when it can be."""
    return tuple(fault for rule in RULES for fault in rule(setting))


def seat_faults(setting: Setting) -> tuple[Fault, ...]:
    """What keeps the one wanted examiner from a place of an exam that stands; its fields are `examiner` and `waiver`."""
    (who,) = setting.wanted.examiners
    if who not in setting.staff:
        return (Fault("no-examiner", N_("choose an examiner"), field="examiner"),)
    rules = (examiners_are_free_of_ties, examiners_are_calibrated, nobody_and_no_room_is_taken)
    found = (fault for rule in rules for fault in rule(setting))
    return tuple(replace(one, field=one.field.removesuffix("-0")) for one in found if one.field.endswith("-0"))


def panel_is_whole(setting: Setting) -> Iterator[Fault]:
    """As many different examiners as the practical asks for, each of them on the school's staff."""
    chosen, needed = setting.wanted.examiners, setting.practical.examiners
    for place, examiner in enumerate(chosen):
        if examiner not in setting.staff:
            yield Fault("no-examiner", N_("choose an examiner"), field=f"examiner-{place}")
        elif examiner in chosen[:place]:
            yield Fault("same-examiner", N_("is on this panel already; choose another"), field=f"examiner-{place}")
    if len(chosen) != needed:
        sentence = N_("this practical needs {needed} examiners")
        code = "too-few" if len(chosen) < needed else "too-many"
        yield Fault(code, sentence, {"needed": needed}, f"examiner-{min(len(chosen), needed)}")


def examiners_are_free_of_ties(setting: Setting) -> Iterator[Fault]:
    """Nobody examines whom they taught or hosted or are related to, but by a reasoned, visible waiver."""
    wanted, months = setting.wanted, setting.practical.months_apart
    for place, examiner in enumerate(wanted.examiners):
        waiver = setting.waivers.get(examiner)
        for fault in examining_faults(examiner, wanted.candidate, setting.ties, wanted.day, months, waiver):
            where = "waiver" if fault.field == "waiver" else "examiner"
            yield replace(fault, field=f"{where}-{place}")


def examining_faults(  # noqa: PLR0913 - as `tie_faults`
    examiner: str, candidate: str, ties: tuple[Tie, ...], on: date, months: int, waiver: Waiver | None = None
) -> tuple[Fault, ...]:
    """Why this person may not examine this candidate: `tie_faults`, but having examined them before is no bar."""
    bars = tuple(tie for tie in ties if tie.kind in BARS_EXAMINING)
    faults = tie_faults(examiner, candidate, bars, on, months, waiver)
    return tuple(replace(fault, sentence=EXAMINES.get(fault.code, fault.sentence)) for fault in faults)


EXAMINES = {
    "own-exam": N_("nobody examines themself"),
    "tied-taught": N_("taught this candidate within {months} months; choose another, or say why it can't be avoided"),
    "tied-hosted": N_("hosted this candidate within {months} months; choose another, or say why it can't be avoided"),
    "tied-related": N_("is related to this candidate; choose another, or say why it can't be avoided"),
}


def examiners_are_calibrated(setting: Setting) -> Iterator[Fault]:
    """Without a calibration that holds on the day there is no place, but by a reasoned, visible waiver."""
    for place, examiner in enumerate(setting.wanted.examiners):
        waiver = setting.waivers.get(examiner)
        if examiner in setting.uncalibrated & setting.staff and not (waiver and waiver.reason.strip()):
            yield Fault("uncalibrated", UNCALIBRATED, field=f"examiner-{place}")


UNCALIBRATED = N_("has no calibration that holds on that day; choose another, or say why it can't be avoided")


def day_is_possible(setting: Setting) -> Iterator[Fault]:
    """On a day of the enrolment, and over before midnight."""
    if setting.wanted.day < setting.enrolled:
        yield Fault("before-enrolment", N_("this is before the trainee enrolled"), field="day")
    if setting.wanted.ends > DAY_MINUTES:
        sentence = N_("with {minutes} minutes it would end after midnight")
        yield Fault("past-midnight", sentence, {"minutes": setting.wanted.minutes}, "starts")


def nobody_and_no_room_is_taken(setting: Setting) -> Iterator[Fault]:
    """Candidate, examiners and room have no other exam at that time."""
    wanted = setting.wanted
    for other in setting.others:
        if not wanted.overlaps(other):
            continue
        if wanted.candidate == other.candidate:
            yield Fault("candidate-taken", N_("has another exam at that time"), field="enrolment")
        if same_room(wanted.room, other.room):
            yield Fault("room-taken", N_("has another exam at that time"), field="room")
        elif shared := shared_machines(wanted.room, other.room):
            sentence = N_("{machines} is used in another exam at that time")
            yield Fault("machine-taken", sentence, {"machines": ", ".join(shared)}, "room")
        for place, examiner in enumerate(wanted.examiners):
            if examiner in other.examiners:
                yield Fault("examiner-taken", N_("has another exam at that time"), field=f"examiner-{place}")


def no_machine_is_withdrawn(setting: Setting) -> Iterator[Fault]:
    """No exam is set on a machine that a report keeps out of use."""
    found = withdrawn_in(machines_in(setting.wanted.room), setting.withdrawn)
    if found:
        sentence = N_("out of use since a report: {machines}; take another, or let it back first")
        yield Fault("machine-withdrawn", sentence, {"machines": ", ".join(found)}, "room")


def an_attempt_is_left(setting: Setting) -> Iterator[Fault]:
    """Not while an earlier exam is undecided, not after a pass, and within the attempts and waiting times."""
    rules, used = setting.practical.resits, [one for one in setting.earlier if one.outcome in USES_ATTEMPT]
    if any(one.outcome is None for one in setting.earlier):
        yield Fault("undecided", N_("an exam of this practical is set already and not decided"), field="practical")
    if any(one.outcome is Outcome.PASS for one in setting.earlier):
        yield Fault("passed", N_("this practical is passed already"), field="practical")
    elif len(used) >= rules.attempts:
        sentence = N_("all {attempts} attempts are used")
        yield Fault("no-attempt", sentence, {"attempts": rules.attempts}, "practical")
    elif used:
        yield from _waiting_times(setting, max(used, key=lambda one: one.day))


def _waiting_times(setting: Setting, last: Booking) -> Iterator[Fault]:
    rules, days = setting.practical.resits, (setting.wanted.day - last.day).days
    if last.again_from and setting.wanted.day < last.again_from:
        sentence = N_("comes on {day} or later: the last decision says so")
        yield Fault("before-from", sentence, {"day": last.again_from}, "day")
    if days < rules.after_days:
        sentence = N_("comes at the earliest {days} days after the last attempt")
        yield Fault("too-soon", sentence, {"days": rules.after_days}, "day")
    if rules.within_days is not None and days > rules.within_days:
        sentence = N_("comes at the latest {days} days after the last attempt")
        yield Fault("too-late", sentence, {"days": rules.within_days}, "day")


USES_ATTEMPT = (Outcome.PASS, Outcome.REFER, Outcome.FAIL)

RULES = (
    panel_is_whole,
    examiners_are_free_of_ties,
    examiners_are_calibrated,
    day_is_possible,
    nobody_and_no_room_is_taken,
    no_machine_is_withdrawn,
    an_attempt_is_left,
)
