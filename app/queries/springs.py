"""Springs across studios: the closest set on another machine, with its curve."""

from dataclasses import dataclass
from datetime import date

from app.files.machines import machines_from_text
from app.storage.work import Work
from app.wording.dates import day_text
from app.wording.faults import fault_text
from app.wording.languages import Language
from app.wording.springs import match_sentence
from curriculum.faults import N_, Fault, RefusedError
from curriculum.sessions.spring_match import SpringMatch, match_springs, springs_meant, springs_named
from curriculum.sessions.springs import Machine

POINTS = 5


@dataclass(frozen=True, slots=True)
class Curve:
    """One load over the travel: `name`, and newtons at equal steps from the first travel to the last."""

    name: str
    loads: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class CurvePicture:
    """Two loads over a travel in metres; `most` is the highest load drawn, in newtons."""

    travels: tuple[float, ...]
    most: float
    wanted: Curve
    found: Curve


@dataclass(frozen=True, slots=True)
class MatchShown:
    """The answer in words, whether it is close, what was left out, and the picture."""

    sentence: str
    close: bool
    extrapolated: bool
    left_out: tuple[str, ...]
    picture: CurvePicture


@dataclass(frozen=True, slots=True)
class MachineShown:
    """A machine of the school: its springs with pre-tension and stiffness, and until when its readings hold."""

    name: str
    springs: tuple[tuple[str, str, str, str], ...]


def machines_of(work: Work) -> tuple[Machine, ...]:
    """The machines of the newest edition; none if nothing is published."""
    stored = work.editions.newest("machines")
    if stored is None:
        return ()
    ((name, text),) = stored.documents.items()
    return machines_from_text(text, name)


def shown_machines(machines: tuple[Machine, ...], today: date, language: Language) -> tuple[MachineShown, ...]:
    """Every machine with what was measured; stale or worn springs say so."""
    return tuple(
        MachineShown(one.name, tuple(_spring(one, spring, today, language) for spring in one.springs))
        for one in machines
    )


def match_shown(
    machines: tuple[Machine, ...], asked: tuple[str, str, str, str], travel: tuple[float, float], today: date,
    language: Language,
) -> MatchShown:  # fmt: skip
    """The closest set to `asked`: (machine, springs as a number or labels, gear, other machine).

    Raises `RefusedError` with every fault.
    """
    origin, springs, gear, target = asked
    by_name = {one.name: one for one in machines}
    faults = [
        Fault("no-machine", N_("choose a machine"), field=field)
        for field, name in (("origin", origin), ("target", target))
        if name not in by_name
    ]
    if not springs.strip():
        faults.append(Fault("no-springs", N_("how many springs, or their labels"), field="springs"))
    if faults:
        raise RefusedError(faults)
    machine = by_name[origin]
    labels = {one.label for one in machine.springs}
    counted = springs.isascii() and springs.isdecimal() and springs not in labels and len(springs) < 4
    wanted = springs_meant(machine, int(springs)) if counted else springs_named(machine, _labels(springs))
    found = match_springs(machine, wanted, by_name[target], travel, today, gear)
    return MatchShown(
        match_sentence(found, target, language),
        found.close,
        found.extrapolated,
        tuple(fault_text(fault, language) for fault in found.left_out),
        _picture(found, origin, target, travel),
    )


def _labels(text: str) -> list[str]:
    return [word.strip() for word in text.split(",") if word.strip()]


def _picture(found: SpringMatch, origin: str, target: str, travel: tuple[float, float]) -> CurvePicture:
    """Springs pull along straight lines, so the two ends give every point between."""
    shares = [step / (POINTS - 1) for step in range(POINTS)]

    def between(ends: tuple[float, float]) -> tuple[float, ...]:
        return tuple(ends[0] + share * (ends[1] - ends[0]) for share in shares)

    wanted = Curve(f"{origin}: {' + '.join(found.wanted)}", between(found.wanted_loads))
    other = Curve(f"{target}: {' + '.join(found.labels)}", between(found.loads))
    return CurvePicture(between(travel), max((*wanted.loads, *other.loads)), wanted, other)


def _spring(machine: Machine, spring, today: date, language: Language) -> tuple[str, str, str, str]:  # noqa: ANN001
    line = spring.line
    if spring.worn:
        state = language(N_("worn: replace and measure it"))
    elif (today - spring.calibrated).days > machine.valid_days:
        state = language(N_("measured {day}: measure it again"), day=day_text(spring.calibrated, language.locale))
    else:
        state = language(N_("measured {day}"), day=day_text(spring.calibrated, language.locale))
    pretension = language(N_("{newtons} N"), newtons=language.figure(round(line.pretension)))
    stiffness = language(N_("{newtons} N/m"), newtons=language.figure(round(line.stiffness)))
    return spring.label, pretension, stiffness, state
