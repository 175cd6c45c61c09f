"""Building a plan and searching, over the seed edition: seconds, against a limit and a bare pass in the same run."""

from pathlib import Path
from time import perf_counter

from app.files.repertoire import edition_from_folder
from curriculum.repertoire.searching import search
from curriculum.sessions.plan_builder import Wish, build_plan, candidates

FOLDER = Path(__file__).resolve().parents[2] / "seed_data" / "repertoire" / "classical-2026.1"
BUILDER_LIMIT_SECONDS = 1.0
ASKED = ("heels drop on the way out", "footwork", "shoulders creep up to the ears", "knees snap straight", "hundr")
ROUNDS = 20


def measure() -> dict[str, object]:
    """A plan of 50 minutes over the reformer's exercises, and over all; a search beside one pass over the same texts."""
    edition = edition_from_folder(FOLDER)
    reformer = Wish(50, "advanced", apparatus=("reformer",))
    one, gap = _built(edition, reformer)
    whole, whole_gap = _built(edition, Wish(50, "advanced"))
    search(edition, ASKED[0])
    searching = _each(lambda asked: search(edition, asked))
    texts = [text.casefold() for exercise in edition.exercises for text in _texts(exercise)]
    bare = _each(lambda asked: [asked in text for text in texts])
    return {
        "exercises on the reformer": len(candidates(edition, reformer)),
        "builder seconds": one,
        "gap": gap,
        "limit seconds": BUILDER_LIMIT_SECONDS,
        "ratio to the limit": one / BUILDER_LIMIT_SECONDS,
        "exercises in all": len(edition.exercises),
        "builder seconds over all": whole,
        "gap over all": whole_gap,
        "search seconds": searching,
        "bare pass over the texts": bare,
        "search ratio": searching / bare,
    }


def _built(edition, wish: Wish) -> tuple[float, float]:  # noqa: ANN001 - Edition
    start = perf_counter()
    built = build_plan(edition, wish)
    return perf_counter() - start, built.gap


def _each(act) -> float:  # noqa: ANN001 - a function of the question
    start = perf_counter()
    for _ in range(ROUNDS):
        for asked in ASKED:
            act(asked)
    return (perf_counter() - start) / (ROUNDS * len(ASKED))


def _texts(exercise):  # noqa: ANN001, ANN202 - Exercise
    yield exercise.name
    for fault in exercise.faults:
        yield from (fault.sees, fault.cause, fault.correction)
    yield from (cue.text for cue in exercise.cues)
