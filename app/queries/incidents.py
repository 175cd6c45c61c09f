"""Incidents and near misses for directors and for whoever reported one, and the machines out of use."""

import json
from dataclasses import dataclass

from app.storage.incidents import Incident, IncidentStep
from app.storage.work import Work
from app.wording import incidents as words
from app.wording.dates import day_text, moment_text
from app.wording.languages import Language
from assessments.incidents.report import out_of_use, withdrawn_in
from assessments.practicals.exam_rooms import machines_in
from curriculum.faults import N_

ERASED = N_("(The words were erased.)")


@dataclass(frozen=True, slots=True)
class IncidentStepShown:
    """What came after: a machine back in use, or the end."""

    step: str
    machine: str
    words: str
    by: str
    at: str


@dataclass(frozen=True, slots=True)
class IncidentShown:
    """One of them; texts are for people. `still_out` are machines that this one keeps out of use."""

    id: str
    degree: str
    during: str
    day: str
    place: str
    exam_id: str
    words: str
    told: str
    changed: str
    machines: str
    still_out: tuple[str, ...]
    by: str
    at: str
    state: str
    state_kind: str
    open: bool
    steps: tuple[IncidentStepShown, ...]


def incidents_for(
    work: Work, viewer_id: str, directs: bool, zone: str, language: Language
) -> tuple[IncidentShown, ...]:
    """All of them for a director, for anybody else their own; open ones first, each newest first."""
    shown = _Shown(work, zone, language)
    found = [shown.one(kept) for kept in work.incidents.all() if directs or kept.told_by == viewer_id]
    return tuple(sorted(found, key=lambda one: not one.open))


def one_incident(work: Work, kept: Incident, zone: str, language: Language) -> IncidentShown:
    return _Shown(work, zone, language).one(kept)


def machines_out(work: Work) -> tuple[str, ...]:
    """The machines that are out of use, by name."""
    return tuple(sorted(out_of_use(work.incidents.moves())))


def withdrawn_text(work: Work, room: str, language: Language) -> str:
    """That machines of a room are out of use; "" where none is."""
    machines = machines_in(room)
    found = withdrawn_in(machines, machines_out(work)) if machines else ()
    return language(words.WITHDRAWN, machines=language.listed(list(found))) if found else ""


def is_open(steps: list[IncidentStep]) -> bool:
    return all(step.step != "closed" for step in steps)


class _Shown:
    """Names, steps and machines are read once."""

    def __init__(self, work: Work, zone: str, language: Language) -> None:
        self.work, self.zone, self.language = work, zone, language
        self.names, self.steps = work.people.names(), work.incidents.steps()
        self.out = out_of_use(work.incidents.moves())

    def one(self, kept: Incident) -> IncidentShown:
        language, steps = self.language, self.steps.get(kept.id, [])
        state, kind = words.OPEN if is_open(steps) else words.CLOSED
        return IncidentShown(
            kept.id, language(words.SHORT_DEGREES[kept.degree]), language(words.DURING[kept.during]),
            day_text(kept.day, language.locale), kept.place, kept.exam_id, self._words(kept.words_id),
            self._words(kept.told_id), self._words(kept.changed_id), language.listed(json.loads(kept.machines)),
            tuple(name for name, ids in self.out.items() if kept.id in ids), self.names[kept.told_by],
            self._moment(kept.told_at), language(state), kind, is_open(steps),
            tuple(self._step(one) for one in steps),
        )  # fmt: skip

    def _step(self, one: IncidentStep) -> IncidentStepShown:
        said = self._words(one.words_id)
        return IncidentStepShown(one.step, one.machine, said, self.names[one.made_by], self._moment(one.made_at))

    def _words(self, words_id: str) -> str:
        if not words_id:
            return ""
        return self.work.record.words(words_id) or self.language(ERASED)

    def _moment(self, at) -> str:  # noqa: ANN001
        return moment_text(at, self.zone, self.language.locale)
