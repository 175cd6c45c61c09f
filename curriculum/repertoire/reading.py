"""An edition taken from its documents: `edition.yaml` and one document for each series."""

import re
from collections.abc import Mapping
from dataclasses import fields as members

from curriculum.document import Node
from curriculum.faults import N_, Fault, RefusedError
from curriculum.fields import Fields, read_one
from curriculum.repertoire.edition import (
    Apparatus,
    CautionKind,
    ChangeSeconds,
    Edition,
    Level,
    SafetyNotice,
    Series,
)
from curriculum.repertoire.exercise import Exercise
from curriculum.repertoire.reading_exercise import Surroundings, read_exercise

EDITION_FILE = "edition.yaml"
FILE_NAME = re.compile(r"[A-Za-z0-9_][A-Za-z0-9 _.-]{0,80}\.yaml")


def read_edition(edition: Node, series: Mapping[str, Node], name: str = EDITION_FILE) -> Edition:
    """The edition whose documents these are; `series` maps file names, as `edition.yaml` lists them, to documents.

    Raises `RefusedError` with every fault of every document; each fault's `source` is `name` or the file's name.
    """
    faults: list[Fault] = []
    fields = Fields(edition, faults)
    shared = _shared(fields)
    listed = fields.elements("series", True)
    reader = _SeriesReader(shared, [])
    for node in listed:
        if not node.is_text:
            fields.add(node, "not-a-text", N_("must be the name of a file"))
        elif not FILE_NAME.fullmatch(node.value):
            sentence = N_("“{value}” is not a file name: letters, digits, dot, hyphen and underscore, ending in .yaml")
            fields.add(node, "not-a-file-name", sentence, value=node.value)
        elif node.value not in series:
            fields.add(
                node,
                "no-such-file",
                N_("there is no file “{value}” in this folder"),
                value=node.value,
            )
        elif node.value in reader.files:
            fields.add(node, "twice", N_("“{value}” stands twice"), value=node.value)
        else:
            reader.read(node.value, series[node.value])
    for file in sorted(set(series) - {node.value for node in listed if node.is_text}):
        sentence = N_("the file “{value}” is in the folder but not listed here")
        fields.fault("series", "not-listed", sentence, value=file)
    notices = fields.each("safety_notices", lambda inner: _notice(inner, reader.ids))
    fields.close()
    faults = [fault.within(name) for fault in faults] + reader.faults + reader.dangling()
    if faults:
        raise RefusedError(faults)
    return Edition(
        **shared,
        series=tuple(reader.series),
        exercises=tuple(reader.exercises),
        notices=notices,
    )


def _shared(fields: Fields) -> dict:
    apparatus = fields.each("apparatus", _apparatus, True)
    levels, cautions = (
        fields.each("levels", _level, True),
        fields.each("cautions", _caution_kind, True),
    )
    for key, ids in (
        ("apparatus", [one.id for one in apparatus]),
        ("levels", [one.id for one in levels]),
        ("cautions", [one.code for one in cautions]),
    ):
        if len(set(ids)) < len(ids):
            fields.fault(key, "twice", N_("an id stands twice here: {ids}"), ids=", ".join(ids))
    return {
        "id": fields.id("edition"),
        "title": fields.text("title"),
        "owner": fields.text("owner"),
        "published": fields.day("published"),
        "sources": fields.texts("sources"),
        "levels": levels,
        "apparatus": apparatus,
        "cautions": cautions,
        "change_seconds": fields.inner("change_seconds", _change_seconds, True),
        "frame": fields.text("frame"),
        "stop": fields.text("stop"),
        "nothing_listed": fields.text("nothing_listed"),
    }


def _level(fields: Fields) -> Level:
    return Level(fields.id("id"), fields.text("name"), fields.number("difficulty", -10, 10, 0))


def _apparatus(fields: Fields) -> Apparatus:
    return Apparatus(
        fields.id("id"),
        fields.text("name"),
        fields.text("load", ""),
        fields.text("at_rest", ""),
    )


def _caution_kind(fields: Fields) -> CautionKind:
    return CautionKind(
        fields.id("code"),
        fields.text("name"),
        fields.text("ask"),
        fields.text("withhold", ""),
        fields.text("instead", ""),
        fields.text("stop", ""),
    )


def _change_seconds(fields: Fields) -> ChangeSeconds:
    return ChangeSeconds(**{one.name: fields.whole(one.name, 0, 600) for one in members(ChangeSeconds)})


def _notice(fields: Fields, ids: Mapping[str, str]) -> SafetyNotice:
    id, issued, text = fields.id("id"), fields.day("issued", True), fields.text("text")
    exercise = fields.id("exercise", "")
    if exercise and exercise not in ids:
        fields.fault(
            "exercise",
            "no-such-exercise",
            N_("there is no exercise “{value}” in this edition"),
            value=exercise,
        )
    return SafetyNotice(id, issued, text, exercise)


class _SeriesReader:
    """Gathers the series of an edition, one document after another."""

    def __init__(self, shared: dict, faults: list[Fault]):
        self.shared, self.faults = shared, faults
        self.files: set[str] = set()
        self.series: list[Series] = []
        self.exercises: list[Exercise] = []
        self.ids: dict[str, str] = {}
        self._targets: list[tuple[str, Node]] = []

    def read(self, file: str, node: Node) -> None:
        """Add the series that `node`, read from `file`, describes."""
        self.files.add(file)
        found: list[Fault] = []
        read_one(node, found, lambda fields: self._one(fields, file))
        # What a series sets for all of its exercises is read once for each: the same fault is told once.
        self.faults.extend({str(fault): fault.within(file) for fault in found}.values())

    def dangling(self) -> list[Fault]:
        """A fault for every transition into an exercise that the edition doesn't have."""
        sentence = N_("there is no exercise “{value}” in this edition")
        return [
            node.fault("no-such-exercise", sentence, value=node.value).within(file)
            for file, node in self._targets
            if node.value not in self.ids
        ]

    def _one(self, fields: Fields, file: str) -> None:
        apparatus = fields.one_of("apparatus", [one.id for one in self.shared["apparatus"]])
        series = Series(fields.id("series"), fields.text("name"), apparatus, file)
        if any(series.id == other.id for other in self.series):
            fields.fault(
                "series",
                "twice",
                N_("“{value}” is the id of another series too"),
                value=series.id,
            )
        self.series.append(series)
        levels = tuple(one.id for one in self.shared["levels"])
        codes = tuple(one.code for one in self.shared["cautions"])
        around = Surroundings(apparatus, series.id, levels, codes, fields.member("set_up"))
        for node in fields.elements("exercises", True):
            self._exercise(node, fields.faults, around, file)
        self._targets.extend((file, node) for node in around.targets)

    def _exercise(self, node: Node, faults: list[Fault], around: Surroundings, file: str) -> None:
        place = 1 + sum(one.apparatus == around.apparatus for one in self.exercises)
        exercise = read_one(node, faults, lambda fields: read_exercise(fields, around, place))
        if exercise.id and exercise.id in self.ids:
            sentence = N_("“{value}” is the id of an exercise in {file} too")
            faults.append(
                (node.get("id") or node).fault("twice", sentence, value=exercise.id, file=self.ids[exercise.id])
            )
        self.ids.setdefault(exercise.id, file)
        self.exercises.append(exercise)
