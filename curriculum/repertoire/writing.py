"""An edition written as plain documents again: one mapping for `edition.yaml`, one for each series."""

from dataclasses import fields
from fractions import Fraction

from curriculum.repertoire.edition import Edition, Series
from curriculum.repertoire.exercise import Caution, Cue, Exercise, Position
from curriculum.repertoire.reading import EDITION_FILE
from curriculum.repertoire.reading_exercise import CUE_KINDS
from curriculum.repertoire.set_up import SetUp, Springs

_CUE_KEYS = {kind: key for key, kind in CUE_KINDS.items()}


def edition_documents(edition: Edition) -> dict[str, dict]:
    """Plain data by file name (texts, lists and mappings); `read_edition` makes the same edition of it again."""
    shared = {
        "edition": edition.id,
        "title": edition.title,
        "owner": edition.owner,
        "published": edition.published.isoformat() if edition.published else "",
        "sources": list(edition.sources),
        "levels": [_filled(one) for one in edition.levels],
        "apparatus": [_filled(one) for one in edition.apparatus],
        "change_seconds": {
            one.name: getattr(edition.change_seconds, one.name) for one in fields(edition.change_seconds)
        },
        "frame": edition.frame,
        "stop": edition.stop,
        "nothing_listed": edition.nothing_listed,
        "cautions": [_filled(one) for one in edition.cautions],
        "safety_notices": [{**_filled(one), "issued": one.issued.isoformat()} for one in edition.notices],
        "series": [one.file for one in edition.series],
    }
    series = {one.file: _series(one, edition.in_series(one.id)) for one in edition.series}
    return {EDITION_FILE: _without_blanks(shared), **series}


def _series(series: Series, exercises: tuple[Exercise, ...]) -> dict:
    return {
        "apparatus": series.apparatus,
        "series": series.id,
        "name": series.name,
        "exercises": [exercise_document(one) for one in exercises],
    }


def exercise_document(exercise: Exercise) -> dict:
    """One exercise as plain data, with the field names of a series file."""
    return _without_blanks(
        {
            "id": exercise.id,
            "name": exercise.name,
            "level": exercise.level,
            "families": list(exercise.families),
            "worth": exercise.worth,
            "spot": "yes" if exercise.spot else "",
            "spotting": exercise.spotting,
            "aim": exercise.aim,
            "source": exercise.source,
            "confirm": list(exercise.confirm),
            "set_up": _set_up(exercise.set_up),
            **_positions(exercise),
            "mount": [_renamed(one, text="way") for one in exercise.mount],
            "dismount": [_renamed(one, text="way") for one in exercise.dismount],
            "cues": [_cue(one) for one in exercise.cues],
            "faults": [_renamed(one, correction="correct") for one in exercise.faults],
            "regressions": [_renamed(one, lever="changes", text="does") for one in exercise.regressions],
            "progressions": [_renamed(one, lever="changes", text="does") for one in exercise.progressions],
            "adaptations": [_filled(one) for one in exercise.adaptations],
            "cautions": [_caution(one) for one in exercise.cautions],
            "transitions": [{**_filled(one), "seconds": one.seconds} for one in exercise.transitions],
            "lineages": [_filled(one) for one in exercise.lineages],
        }
    )


def _set_up(set_up: SetUp) -> dict:
    found = {one.name: _plain(getattr(set_up, one.name)) for one in fields(set_up) if one.name != "springs"}
    return _without_blanks({"springs": _springs(set_up.springs) if set_up.springs else "", **found})


def _springs(springs: Springs) -> dict:
    usual = "" if springs.every or springs.fewest == springs.most else springs.usual
    said = {one.name: _plain(getattr(springs, one.name)) for one in fields(springs)[4:]}
    return {"count": springs.count} | _without_blanks({"usual": usual, **said})


def _positions(exercise: Exercise) -> dict:
    only = exercise.positions[0]
    if len(exercise.positions) == 1 and only.id == exercise.id and not only.name:
        return _rhythm(only)
    return {
        "positions": [
            {"id": one.id, "name": one.name, **_without_blanks({**_rhythm(one), "body": one.body})}
            for one in exercise.positions
        ]
    }


def _rhythm(position: Position) -> dict:
    found = {"repetitions": str(position.repetitions), "beats": position.beats if position.beats != 60 else ""}
    if position.tempo is not None:
        return found | {"tempo": str(position.tempo)}
    return found | {"seconds": _decimal(position.seconds_each or Fraction(0))}


def _cue(cue: Cue) -> dict:
    return _without_blanks({_CUE_KEYS[cue.kind]: cue.text, "phase": cue.phase, "answers": cue.answers})


def _caution(caution: Caution) -> dict | str:
    if not caution.text and not caution.instead:
        return caution.code
    return _without_blanks({"code": caution.code, caution.action: caution.text, "instead": caution.instead})


def _renamed(value: object, **names: str) -> dict:
    return {names.get(name, name): plain for name, plain in _filled(value).items()}


def _filled(value: object) -> dict:
    return _without_blanks({one.name: _plain(getattr(value, one.name)) for one in fields(value)})


def _plain(value: object) -> object:
    if isinstance(value, bool):
        return "yes" if value else ""
    if isinstance(value, tuple):
        return [_plain(one) for one in value]
    return _decimal(value) if isinstance(value, Fraction) else value


def _decimal(value: Fraction) -> str:
    return f"{float(value):.9f}".rstrip("0").rstrip(".")


def _without_blanks(found: dict) -> dict:
    return {key: value for key, value in found.items() if value not in ("", None, [], {})}
