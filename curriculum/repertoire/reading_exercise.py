"""One exercise taken from a document."""

from dataclasses import dataclass, field
from dataclasses import fields as members

from curriculum.document import Node
from curriculum.faults import N_
from curriculum.fields import Fields, read_one
from curriculum.repertoire.exercise import (
    BAR_LOCKS,
    FAMILIES,
    LEVERS,
    WEIGHTS,
    Adaptation,
    Caution,
    Cue,
    Exercise,
    Lineage,
    MovementFault,
    Position,
    Step,
    Transition,
    Way,
)
from curriculum.repertoire.reading_set_up import read_set_up
from curriculum.repertoire.set_up import SetUp
from curriculum.repertoire.tempo import Repetitions, repetitions_from, tempo_from

CUE_KINDS = {
    "say": "verbal",
    "touch": "tactile",
    "image": "imagery",
    "show": "demonstration",
}
ANY_PHASE = ("set-up", "throughout")
CONFIRMED = ("place", "repetitions", "tempo", "set_up", *(one.name for one in members(SetUp)))


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What an exercise's document leaves to its file and its edition."""

    apparatus: str
    series: str
    levels: tuple[str, ...]
    cautions: tuple[str, ...]
    set_up: Node | None = None
    targets: list[Node] = field(default_factory=list)


def read_exercise(fields: Fields, around: Surroundings, place: int) -> Exercise:
    """The exercise; the places that name another exercise are added to `around.targets`."""
    id, faults, steps = fields.id("id"), fields.each("faults", _fault), {}
    for key in ("regressions", "progressions"):
        steps[key] = fields.each(key, _step)
    positions = _positions(fields, id)
    exercise = Exercise(
        id=id,
        name=fields.text("name"),
        apparatus=around.apparatus,
        series=around.series,
        level=fields.one_of("level", around.levels),
        place=place,
        families=fields.some_of("families", FAMILIES),
        set_up=read_set_up(fields, around.set_up),
        positions=positions,
        spot=fields.flag("spot"),
        spotting=fields.text("spotting", ""),
        aim=fields.text("aim", ""),
        worth=fields.whole("worth", 1, 9, 3),
        mount=fields.each("mount", lambda inner: _way(inner, around)),
        dismount=fields.each("dismount", lambda inner: _way(inner, around)),
        cues=fields.each("cues", _cue),
        faults=faults,
        **steps,
        adaptations=fields.each("adaptations", _adaptation),
        cautions=_cautions(fields, around),
        transitions=fields.each("transitions", lambda inner: _transition(inner, around)),
        lineages=fields.each("lineages", _lineage),
        source=fields.text("source", ""),
        confirm=fields.texts("confirm"),
    )
    _check_links(fields, exercise)
    return exercise


def _positions(fields: Fields, id: str) -> tuple[Position, ...]:
    if fields.has("positions"):
        for key in ("repetitions", "tempo", "seconds", "beats"):
            if fields.member(key):
                fields.fault(key, "twice-said", N_("belongs to each of the positions here"))
        return fields.each(
            "positions",
            lambda inner: _position(inner, inner.id("id"), inner.text("name")),
        )
    fields.member("positions")
    return (_position(fields, id, ""),)


def _position(fields: Fields, id: str, name: str) -> Position:
    repetitions, tempo = _repetitions(fields), _tempo(fields)
    seconds = fields.number("seconds", 0, 600) if fields.member("seconds") else None
    if (tempo is None) == (seconds is None) and not (fields.has("tempo") and tempo is None):
        fields.fault(
            "tempo",
            "tempo-or-seconds",
            N_("give either tempo or seconds for each repetition, not both"),
        )
    if tempo and tempo.times not in (None, repetitions.most):
        sentence = N_("the rhythm adds up to {times} repetitions, but repetitions says {said}")
        fields.fault(
            "tempo",
            "rhythm-differs",
            sentence,
            times=tempo.times,
            said=str(repetitions),
        )
    beats = fields.whole("beats", 20, 240, 60)
    body = fields.text("body", "") if name else ""
    return Position(id, name, repetitions, tempo, beats, seconds, body)


def _repetitions(fields: Fields) -> Repetitions:
    found = fields.scalar("repetitions", True)
    read = repetitions_from(found.value) if found else None
    if found and read is None:
        sentence = N_("“{value}” is not repetitions such as 10, 3-5, 5 each side, 3 sets of 5 or 10 breaths")
        fields.add(found, "not-repetitions", sentence, value=found.value)
    return read or Repetitions(1, 1)


def _tempo(fields: Fields):
    found = fields.scalar("tempo")
    read = tempo_from(found.value) if found else None
    if found and read is None:
        sentence = N_("“{value}” is not a tempo such as 3 out, 3 in or 4 × (3 down, 3 up) + 3 × (3 down, 1 up)")
        fields.add(found, "not-a-tempo", sentence, value=found.value)
    return read


def _way(fields: Fields, around: Surroundings) -> Way:
    return Way(fields.text("way"), fields.one_of("level", around.levels, ""))


def _cue(fields: Fields) -> Cue:
    kinds = [key for key in CUE_KINDS if fields.member(key)]
    if len(kinds) != 1:
        fields.faults.append(fields.node.fault("one-cue", N_("needs exactly one of: say, touch, image, show")))
    kind = kinds[0] if kinds else "say"
    text = fields.text(kind) if kinds else ""
    return Cue(CUE_KINDS[kind], text, fields.text("phase", ""), fields.id("answers", ""))


def _fault(fields: Fields) -> MovementFault:
    id, sees, cause = fields.id("id"), fields.text("sees"), fields.text("cause")
    weight = fields.one_of("weight", WEIGHTS, "form")
    return MovementFault(id, sees, cause, fields.text("correct"), weight, fields.id("drill", ""))


def _step(fields: Fields) -> Step:
    return Step(
        fields.id("id"),
        fields.one_of("changes", LEVERS),
        fields.text("does"),
        fields.texts("mends"),
    )


def _adaptation(fields: Fields) -> Adaptation:
    return Adaptation(
        fields.text("when"),
        fields.text("change"),
        fields.text("why", ""),
        fields.flag("confirm"),
    )


def _cautions(fields: Fields, around: Surroundings) -> tuple[Caution, ...]:
    read = []
    for node in fields.elements("cautions"):
        code = node if node.is_text else node.get("code")
        caution = Caution(node.value, "withhold") if node.is_text else read_one(node, fields.faults, _caution)
        if code is not None and code.value not in around.cautions:
            sentence = N_("“{value}” is not a caution of the edition: {allowed}")
            fields.add(
                code,
                "no-such-caution",
                sentence,
                value=code.value,
                allowed=", ".join(around.cautions),
            )
        if any(caution.code == other.code for other in read):
            fields.add(code or node, "twice", N_("“{value}” stands twice"), value=caution.code)
        read.append(caution)
    return tuple(read)


def _caution(fields: Fields) -> Caution:
    code, modify, withhold = (
        fields.id("code"),
        fields.text("modify", ""),
        fields.text("withhold", ""),
    )
    if modify and withhold:
        fields.fault("modify", "one-action", N_("give either modify or withhold, not both"))
    return Caution(
        code,
        "modify" if modify else "withhold",
        modify or withhold,
        fields.text("instead", ""),
    )


def _transition(fields: Fields, around: Surroundings) -> Transition:
    to, target = fields.id("to"), fields.node.get("to")
    if target is not None and target.is_text:
        around.targets.append(target)
    return Transition(
        to,
        fields.whole("seconds", 0, 600),
        fields.texts("steps"),
        fields.one_of("foot_bar", BAR_LOCKS, ""),
        fields.one_of("level", around.levels, ""),
        fields.flag("confirm"),
    )


def _lineage(fields: Fields) -> Lineage:
    lineage, name, differs = (
        fields.text("lineage"),
        fields.text("name", ""),
        fields.text("differs", ""),
    )
    if not name and not differs:
        fields.faults.append(fields.node.fault("no-difference", N_("needs a name, or what differs")))
    return Lineage(lineage, name, differs)


def _check_links(fields: Fields, exercise: Exercise) -> None:
    """Every id that one part of the exercise uses must stand in another part of it."""
    known_faults = tuple(one.id for one in exercise.faults)
    steps = (*exercise.regressions, *exercise.progressions)
    phases = (*exercise.movements, *ANY_PHASE) if exercise.movements else ()
    for key, ids in (
        ("faults", known_faults),
        ("regressions", tuple(one.id for one in steps)),
        ("positions", tuple(one.id for one in exercise.positions)),
    ):
        if len(set(ids)) < len(ids):
            fields.fault(key, "twice", N_("an id stands twice here: {ids}"), ids=", ".join(ids))
    _check(fields, "cues", "answers", known_faults)
    _check(fields, "cues", "phase", phases)
    _check(fields, "faults", "drill", tuple(one.id for one in steps))
    for key in ("regressions", "progressions"):
        _check(fields, key, "mends", known_faults)
    for name in exercise.confirm:
        if name not in CONFIRMED and fields.node.get(name) is None:
            fields.fault(
                "confirm",
                "no-such-field",
                N_("“{value}” is not a field of this exercise"),
                value=name,
            )


def _check(fields: Fields, key: str, link: str, known: tuple[str, ...]) -> None:
    for node in fields.node.get(key).elements() if fields.node.get(key) else ():
        found = node.get(link)
        for one in () if found is None else (found,) if found.is_text else found.elements():
            if one.is_text and one.value not in known and (known or link != "phase"):
                sentence = N_("“{value}” names nothing in this exercise; there is: {known}")
                fields.add(
                    one,
                    "names-nothing",
                    sentence,
                    value=one.value,
                    known=", ".join(known) or "–",
                )
