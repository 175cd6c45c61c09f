"""A small edition that the tests of repertoire, sessions and competencies share."""

from curriculum.document import node_of
from curriculum.repertoire.edition import Edition
from curriculum.repertoire.reading import read_edition

SECONDS = {
    "same": 4, "at_rest": 2, "spring": 4, "all_springs": 8, "attachment": 8, "foot_bar": 4, "headrest": 3, "straps_hands": 5,
    "straps_feet": 12, "box_on": 14, "box_turn": 5, "box_off": 14, "board": 15, "stopper": 10, "gear": 12,
    "barrel_gap": 12, "hang": 9, "safety_strap": 8, "posture": 5, "mount": 8, "dismount": 8,
}  # fmt: skip


def shared(**more: object) -> dict:
    """The document of `edition.yaml`."""
    return {
        "edition": "small.1",
        "title": "Small",
        "owner": "Halden Row",
        "levels": [{"id": one, "name": one} for one in ("basic", "intermediate", "advanced")],
        "apparatus": [
            {"id": "reformer", "name": "Reformer", "at_rest": "Carriage home"},
            {"id": "mat", "name": "Mat"},
            {"id": "trapeze-table", "name": "Trapeze table"},
        ],
        "cautions": [
            {"code": "pregnancy", "name": "Pregnancy", "ask": "Ask."},
            {"code": "knee", "name": "Knee", "ask": "Ask."},
        ],
        "change_seconds": SECONDS,
        "frame": "Guidance only.",
        "stop": "Stop.",
        "nothing_listed": "Nothing on this school's list; ask.",
        "series": ["all.yaml"],
        **more,
    }


def exercise(id: str, **more: object) -> dict:
    """One exercise of ten repetitions of 3 counts out and 3 in."""
    rhythm = {} if "positions" in more else {"repetitions": "10", "tempo": "3 out, 3 in"}
    if "seconds" in more:
        rhythm.pop("tempo")
    return {"id": id, "name": id.title(), "level": "basic", "families": ["hinge"], **rhythm, **more}


def series(*exercises: dict, **more: object) -> dict:
    """One series file."""
    return {"apparatus": "reformer", "series": "all", "name": "All", "exercises": list(exercises), **more}


def edition(*exercises: dict, **more: object) -> Edition:
    """The edition with these exercises in one series."""
    return read_edition(node_of(shared()), {"all.yaml": node_of(series(*exercises, **more))})
