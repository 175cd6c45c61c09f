"""Finding an exercise by its name, or by what one sees: words in any form, most telling first.

Passages (a name, a fault, a cue …) are ranked by BM25 (Robertson and Zaragoza, The Probabilistic Relevance Framework,
2009, with the usual k₁ = 1.2 and b = 0.75); words are reduced to stems by the Snowball algorithm.
"""

import unicodedata
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from math import log
from re import findall

import snowballstemmer

from curriculum.repertoire.edition import Edition
from curriculum.repertoire.exercise import Exercise

K1, B = 1.2, 0.75
LEAST_SHARE, MOSTLY = 0.45, 0.75
# Words that say nothing by themselves.
COMMON = frozenset(
    "a an and as at be by for from has he her his in is it its of on or she so that the they this to way with".split()
)
# What teachers of this trade say for one another: common practice. The first word stands for all.
ALIKE = (
    ("sink", "drop", "fall", "collapse", "sag"),
    ("lift", "rise", "raise", "climb", "pop"),
    ("snap", "throw", "lock", "slam", "bang", "jerk"),
    ("drift", "wander"),
    ("round", "curl", "tuck", "scoop"),
    ("arch", "hollow", "extend"),
    ("shoulder", "shoulders"),
    ("belly", "stomach", "abdomen", "abdominal", "tummy"),
    ("pelvis", "hip", "hips"),
    ("quick", "fast", "rush", "hurry"),
    ("slow", "drag"),
    ("pain", "hurt", "ache", "sore"),
)
# Where something is seen tells more than what is seen there.
BODY = "ankle arm back belly breath chest chin elbow eye finger foot feet hand head heel jaw knee leg neck pelvis rib "
BODY += "shoulder spine thigh toe waist wrist"
BODY_COUNTS = 1.6
WEIGHTS = {"name": 3.0, "other name": 3.0, "fault": 1.4, "cue": 1.0, "more": 0.8}


@dataclass(frozen=True, slots=True)
class SearchHit:
    """An exercise that was found; `text` is the passage that says it, "" where it is the name."""

    exercise: Exercise
    text: str
    score: float


@dataclass(frozen=True, slots=True)
class _Passage:
    place: int
    kind: str
    text: str
    stems: Counter
    length: int


@dataclass(frozen=True, slots=True)
class _Index:
    passages: tuple[_Passage, ...]
    rarity: dict[str, float]
    usual: float


def search(edition: Edition, asked: str, most: int = 60) -> tuple[SearchHit, ...]:
    """The exercises that answer best, the best first; the last word may be the beginning of one.

    A passage answers if it holds nearly half of what is telling in the question.
    """
    index = _index(edition)
    wanted = _wanted(index, asked)
    if not wanted:
        return ()
    best: dict[int, tuple[float, _Passage]] = {}
    whole = sum(max(index.rarity[stem] for stem in group) for group in wanted)
    for passage in index.passages:
        score, share = _score(index, passage, wanted, whole)
        if share >= LEAST_SHARE and score > best.get(passage.place, (0.0, None))[0]:
            best[passage.place] = (score, passage)
    ranked = sorted(best.values(), key=lambda one: (-one[0], one[1].place))
    return tuple(
        SearchHit(edition.exercises[one.place], "" if one.kind == "name" else one.text, score)
        for score, one in ranked[:most]
    )


def stems(text: str) -> list[str]:
    """The words of a text as stems: small letters, no accents, alike words as one, without words that say nothing."""
    apart = unicodedata.normalize("NFKD", text.casefold())
    bare = "".join(letter for letter in apart if not unicodedata.combining(letter)).replace("-", " ")
    return [_stem(word) for word in findall(r"\w+", bare) if word not in COMMON]


@lru_cache(maxsize=50_000)
def _stem(word: str) -> str:
    stem = _STEMMER.stemWord(word)
    return _ALIKE.get(stem, stem)


_STEMMER = snowballstemmer.stemmer("english")
_ALIKE = {_STEMMER.stemWord(word): _STEMMER.stemWord(group[0]) for group in ALIKE for word in group}
_BODY = frozenset(_ALIKE.get(stem, stem) for stem in map(_STEMMER.stemWord, BODY.split()))


@lru_cache(maxsize=8)
def _index(edition: Edition) -> _Index:
    passages = []
    for place, exercise in enumerate(edition.exercises):
        for kind, text in _texts(edition, exercise):
            found = stems(text)
            if found:
                passages.append(_Passage(place, kind, text, Counter(found), len(found)))
    holding = Counter(stem for passage in passages for stem in passage.stems)
    number = len(passages)
    rarity = {
        stem: log(1 + (number - held + 0.5) / (held + 0.5)) * (BODY_COUNTS if stem in _BODY else 1)
        for stem, held in holding.items()
    }
    return _Index(tuple(passages), rarity, sum(one.length for one in passages) / max(number, 1))


def _texts(edition: Edition, exercise: Exercise) -> Iterator[tuple[str, str]]:
    apparatus = edition.apparatus_named(exercise.apparatus)
    yield "name", f"{exercise.name} {apparatus.name if apparatus else ''}"
    for one in exercise.lineages:
        if one.name:
            yield "other name", one.name
    for fault in exercise.faults:
        yield "fault", fault.sees
        yield "more", f"{fault.cause} {fault.correction}".strip()
    for cue in exercise.cues:
        yield "cue", cue.text
    for text in (exercise.aim, exercise.set_up.body, exercise.spotting):
        if text:
            yield "more", text
    for one in exercise.adaptations:
        yield "more", f"{one.when}: {one.change}"


def _wanted(index: _Index, asked: str) -> list[tuple[str, ...]]:
    """For each word of the question the stems that answer it: its own, or for the last one those that begin so.

    A word that the edition never uses answers nothing, and weighs as the rarest.
    """
    words = stems(asked)
    found = []
    for place, stem in enumerate(words):
        alike = [stem] if stem in index.rarity else []
        if place == len(words) - 1 and len(stem) > 2:
            alike += [other for other in index.rarity if other.startswith(stem) and other != stem]
        if alike:
            found.append(tuple(alike))
    return found


def _score(index: _Index, passage: _Passage, wanted: list[tuple[str, ...]], whole: float) -> tuple[float, float]:
    """BM25 of a passage times the weight of its kind, and the share of the question's rarity that it holds."""
    score = held = 0.0
    for group in wanted:
        times = sum(passage.stems[stem] for stem in group)
        if not times:
            continue
        rarity = max(index.rarity[stem] for stem in group)
        held += rarity
        score += rarity * times * (K1 + 1) / (times + K1 * (1 - B + B * passage.length / index.usual))
    share = held / whole
    # A name counts as one only where it holds most of the question.
    kind = "more" if "name" in passage.kind and share < MOSTLY else passage.kind
    return score * WEIGHTS[kind], share
