"""An edition as a CASE 1.1 package (1EdTech Competencies and Academic Standards Exchange) and back.

Apparatus, series, exercises, and under each exercise its set-up, cues, faults, transitions and competency statements
are CFItems; the tree is `isChildOf`, the order `sequenceNumber` and `precedes`. What CASE has no field for stands in
`extensions.throughline` as this edition's own document, so that a package of ours reads back without loss.
"""

import json
import re
import uuid
from collections.abc import Iterator
from dataclasses import dataclass, field

from app.files.case_checks import checked_package
from curriculum.competencies.statements import STRAND_NAMES, statements_of
from curriculum.document import node_of
from curriculum.faults import N_, Fault, RefusedError
from curriculum.repertoire.edition import Edition
from curriculum.repertoire.exercise import Exercise
from curriculum.repertoire.reading import EDITION_FILE, read_edition
from curriculum.repertoire.writing import edition_documents, exercise_document

OWN = "throughline"
NAMESPACE = uuid.uuid5(uuid.NAMESPACE_URL, "urn:throughline:case")
TYPES = ("Apparatus", "Series", "Exercise", "Set-up", "Cue", "Fault", "Transition", "Competency")
NOT_IN_1_0 = {"caseVersion", "frameworkType", "targetType", "extensions", "subject", "subjectURI"}
MOST_BYTES = 20 * 1024 * 1024


@dataclass(slots=True)
class _Package:
    """What is gathered while an edition is written; every identifier follows from the edition's id and a path."""

    edition: Edition
    changed: str
    items: list[dict] = field(default_factory=list)
    associations: list[dict] = field(default_factory=list)

    def id(self, *path: str) -> str:
        return str(uuid.uuid5(NAMESPACE, "/".join((self.edition.id, *path))))

    def link(self, title: str, *path: str) -> dict:
        id = self.id(*path)
        return {"title": _line(title), "identifier": id, "uri": _uri(id), "targetType": "CASE"}

    def item(self, kind: str, statement: str, path: tuple[str, ...], **more: object) -> None:
        id = self.id(*path)
        kind_id = self.id("type", kind)
        self.items.append(
            {
                "identifier": id,
                "uri": _uri(id),
                "fullStatement": statement,
                "CFItemType": kind,
                "CFItemTypeURI": {"title": kind, "identifier": kind_id, "uri": _uri(kind_id)},
                "lastChangeDateTime": self.changed,
                **{name: value for name, value in more.items() if value},
            }
        )

    def associate(
        self, kind: str, origin: dict, destination: dict, sequence: int | None = None, notes: str = ""
    ) -> None:
        id = self.id("association", kind, origin["identifier"], destination["identifier"])
        made = {
            "identifier": id,
            "uri": _uri(id),
            "associationType": kind,
            "originNodeURI": origin,
            "destinationNodeURI": destination,
            "lastChangeDateTime": self.changed,
        }
        self.associations.append(
            made | ({"sequenceNumber": sequence} if sequence else {}) | ({"notes": notes} if notes else {})
        )


def case_package(edition: Edition, creator: str, changed_at: str, language: str = "en", version: str = "1.1") -> dict:
    """The edition as a CFPackage; `changed_at` is an RFC 3339 time. Version "1.0" leaves out what 1.0 does not know."""
    made = _Package(edition, changed_at)
    document = made.link(edition.title, "document")
    for place, apparatus in enumerate((one for one in edition.apparatus if edition.on(one.id)), start=1):
        path = ("apparatus", apparatus.id)
        made.item("Apparatus", apparatus.name, path, humanCodingScheme=apparatus.id)
        made.associate("isChildOf", made.link(apparatus.name, *path), document, place)
        for number, series in enumerate(edition.series_of(apparatus.id), start=1):
            own = ("series", series.id)
            made.item("Series", series.name, own, humanCodingScheme=series.id, listEnumeration=str(number))
            made.associate("isChildOf", made.link(series.name, *own), made.link(apparatus.name, *path), number)
    for exercise in edition.exercises:
        _add_exercise(made, exercise, language)
    package = {"CFDocument": _document(made, creator, language), "CFItems": made.items, "CFAssociations": made.associations,
               "CFDefinitions": {"CFItemTypes": [_item_type(made, kind, n) for n, kind in enumerate(TYPES, start=1)]}}  # fmt: skip
    return package if version == "1.1" else _for_1_0(package)


def write_case(package: dict) -> str:
    """The package as JSON text."""
    return json.dumps(package, ensure_ascii=False, separators=(",", ":"))


def edition_from_case(text: str | bytes) -> Edition:
    """The edition that a CASE 1.1 package of ours holds, whole.

    Raises `RefusedError` for what is no package, and for a package of others: see `outline_of_case`.
    """
    package = checked_package(text, MOST_BYTES)
    own = package["CFDocument"].get("extensions", {}).get(OWN)
    if not isinstance(own, dict):
        sentence = N_("this package was not written by Throughline; it holds no repetitions, springs or cautions")
        raise RefusedError([Fault("not-ours", sentence, field="CFDocument.extensions")])
    series: dict[str, list] = {file: [] for file in own.get("series", ())}
    heads: dict[str, dict] = {}
    for item in package.get("CFItems", ()):
        kept = item.get("extensions", {}).get(OWN)
        if isinstance(kept, dict) and kept.get("file") in series:
            heads.setdefault(kept["file"], kept["series"])
            series[kept["file"]].append(kept["exercise"])
    documents = {file: node_of({**heads.get(file, {}), "exercises": found}) for file, found in series.items()}
    return read_edition(node_of(own), documents)


def outline_of_case(text: str | bytes) -> Iterator[tuple[int, str, str]]:
    """What any CASE package holds, as (depth, type, statement) in the order of its tree."""
    package = checked_package(text, MOST_BYTES)
    items = {one["identifier"]: one for one in package.get("CFItems", ())}
    children: dict[str, list[tuple[int, str]]] = {}
    for one in package.get("CFAssociations", ()):
        if one["associationType"] == "isChildOf":
            child = (one.get("sequenceNumber", 0), one["originNodeURI"]["identifier"])
            children.setdefault(one["destinationNodeURI"]["identifier"], []).append(child)
    stack = [(0, id) for _, id in sorted(children.get(package["CFDocument"]["identifier"], ()), reverse=True)]
    while stack:
        depth, id = stack.pop()
        if id in items:
            yield depth, items[id].get("CFItemType", ""), items[id]["fullStatement"]
            stack += [(depth + 1, child) for _, child in sorted(children.get(id, ()), reverse=True)]


def _add_exercise(made: _Package, exercise: Exercise, language: str) -> None:
    edition, path = made.edition, ("exercise", exercise.id)
    series = next(one for one in edition.series if one.id == exercise.series)
    level = next(one.name for one in edition.levels if one.id == exercise.level)
    head = {"apparatus": series.apparatus, "series": series.id, "name": series.name}
    own = {"file": series.file, "series": head, "exercise": exercise_document(exercise)}
    made.item(
        "Exercise", exercise.name, path, humanCodingScheme=exercise.id, educationLevel=[level],
        conceptKeywords=list(exercise.families), notes=exercise.aim, listEnumeration=str(exercise.place),
        language=language, extensions={OWN: own},
    )  # fmt: skip
    here = made.link(exercise.name, *path)
    made.associate("isChildOf", here, made.link(series.name, "series", series.id), exercise.place)
    order = edition.on(exercise.apparatus)
    if exercise.place < len(order):
        after = order[exercise.place]
        made.associate("precedes", here, made.link(after.name, "exercise", after.id))
    for number, (kind, title, part, statement) in enumerate(_parts(edition, exercise), start=1):
        made.item(kind, statement, (*path, *part))
        made.associate("isChildOf", made.link(title, *path, *part), here, number)
    _relate(made, exercise, path)


def _parts(edition: Edition, exercise: Exercise) -> Iterator[tuple[str, str, tuple[str, ...], str]]:
    """(type, title, path, statement) of everything under an exercise."""
    set_up = "\n".join(filter(None, (exercise.set_up.body, *exercise.set_up.checks)))
    if set_up:
        yield "Set-up", "Set-up", ("set-up",), set_up
    for place, cue in enumerate(exercise.cues):
        yield "Cue", cue.text, ("cue", str(place)), cue.text
    for fault in exercise.faults:
        yield (
            "Fault",
            fault.sees,
            ("fault", fault.id),
            "\n".join(filter(None, (fault.sees, fault.cause, fault.correction))),
        )
    for place, way in enumerate(exercise.transitions):
        yield "Transition", way.to, ("transition", str(place)), "\n".join(way.steps) or way.to
    for one in statements_of(exercise, edition):
        yield "Competency", STRAND_NAMES[one.strand], ("competency", one.strand), one.text()


def _relate(made: _Package, exercise: Exercise, path: tuple[str, ...]) -> None:
    for place, cue in enumerate(exercise.cues):
        fault = next((one for one in exercise.faults if one.id == cue.answers), None)
        if fault:
            here, there = made.link(fault.sees, *path, "fault", fault.id), made.link(cue.text, *path, "cue", str(place))
            made.associate("isRelatedTo", here, there, notes="corrected by")
    for place, way in enumerate(exercise.transitions):
        target = made.edition.exercise(way.to)
        here = made.link(way.to, *path, "transition", str(place))
        made.associate("isRelatedTo", here, made.link(target.name, "exercise", target.id), notes="leads to")


def _document(made: _Package, creator: str, language: str) -> dict:
    edition, id = made.edition, made.id("document")
    own = edition_documents(edition)[EDITION_FILE]
    started = {"statusStartDate": edition.published.isoformat()} if edition.published else {}
    return {
        "identifier": id, "uri": _uri(id), "caseVersion": "1.1", "frameworkType": "Curriculum",
        "creator": _line(creator), "title": _line(edition.title), "lastChangeDateTime": made.changed,
        "language": language, "version": edition.id, "adoptionStatus": "Implemented", "notes": edition.frame,
        "extensions": {OWN: own}, **started,
    }  # fmt: skip


def _item_type(made: _Package, kind: str, number: int) -> dict:
    id = made.id("type", kind)
    return {
        "identifier": id, "uri": _uri(id), "title": kind, "description": kind, "hierarchyCode": str(number),
        "lastChangeDateTime": made.changed,
    }  # fmt: skip


def _for_1_0(value: object, inside: str = "") -> object:
    """Without the fields that CASE 1.0 does not know; associations had no notes then."""
    if isinstance(value, dict):
        left_out = NOT_IN_1_0 | ({"notes"} if inside == "CFAssociations" else set())
        return {name: _for_1_0(one, name) for name, one in value.items() if name not in left_out}
    if isinstance(value, list):
        return [_for_1_0(one, inside) for one in value]
    return value


def _uri(id: str) -> str:
    return f"urn:uuid:{id}"


def _line(text: str) -> str:
    """A NormalizedString: one line."""
    return re.sub(r"\s+", " ", text).strip()
