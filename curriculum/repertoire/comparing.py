"""Two editions compared, exercise by exercise."""

from dataclasses import dataclass, fields, is_dataclass

from curriculum.repertoire.edition import Edition
from curriculum.repertoire.exercise import Exercise

NOT_COMPARED = {"place"}


@dataclass(frozen=True, slots=True)
class Difference:
    """One value that differs: its path in the exercise, and its text before and after ("" is absent)."""

    path: str
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class ExerciseChange:
    """What happened to one exercise from one edition to the other."""

    exercise: str
    differences: tuple[Difference, ...]


@dataclass(frozen=True, slots=True)
class Comparison:
    """`added` and `removed` are ids in the order of their edition; `moved` are those outside the longest part that
    keeps the order of both; `changed` holds differing values; `shared` compares what the edition sets for all."""

    added: tuple[str, ...]
    removed: tuple[str, ...]
    moved: tuple[str, ...]
    changed: tuple[ExerciseChange, ...]
    shared: tuple[Difference, ...]

    @property
    def same(self) -> bool:
        """Whether the two teach the same."""
        return not (self.added or self.removed or self.moved or self.changed or self.shared)


def compare_editions(old: Edition, new: Edition) -> Comparison:
    """The differences from `old` to `new`; the editions' own ids, titles and days don't count."""
    before, after = {one.id: one for one in old.exercises}, {one.id: one for one in new.exercises}
    both = [id for id in before if id in after]
    changes = [ExerciseChange(id, tuple(exercise_differences(before[id], after[id]))) for id in both]
    shared = [
        difference
        for name in (
            "levels",
            "apparatus",
            "series",
            "cautions",
            "change_seconds",
            "frame",
            "stop",
            "nothing_listed",
            "notices",
        )
        for difference in _differences(name, getattr(old, name), getattr(new, name))
    ]
    return Comparison(
        tuple(id for id in after if id not in before),
        tuple(id for id in before if id not in after),
        _moved(both, [id for id in after if id in before]),
        tuple(change for change in changes if change.differences),
        tuple(shared),
    )


def exercise_differences(before: Exercise, after: Exercise) -> list[Difference]:
    """Every value of an exercise that differs, but for its place."""
    return [
        difference
        for one in fields(Exercise)
        if one.name not in NOT_COMPARED
        for difference in _differences(one.name, getattr(before, one.name), getattr(after, one.name))
    ]


def _differences(path: str, before: object, after: object) -> list[Difference]:
    if before == after:
        return []
    if is_dataclass(before) and type(before) is type(after) and type(before).__str__ is object.__str__:
        return [
            found
            for one in fields(before)
            for found in _differences(f"{path}.{one.name}", getattr(before, one.name), getattr(after, one.name))
        ]
    if isinstance(before, tuple) and isinstance(after, tuple):
        return _listed(path, before, after)
    return [Difference(path, _text(before), _text(after))]


def _listed(path: str, before: tuple, after: tuple) -> list[Difference]:
    old, new = _keyed(before), _keyed(after)
    found = [
        difference
        for key in dict.fromkeys((*old, *new))
        for difference in _differences(f"{path}[{key}]", old.get(key), new.get(key))
    ]
    return found or [Difference(f"{path} (order)", ", ".join(old), ", ".join(new))]


def _keyed(values: tuple) -> dict[str, object]:
    """Elements by their id, code or label, or else by number."""
    named = [str(getattr(one, "id", None) or getattr(one, "code", None) or "") for one in values]
    if values and all(named) and len(set(named)) == len(named):
        return dict(zip(named, values, strict=True))
    return {str(number): one for number, one in enumerate(values)}


def _text(value: object) -> str:
    if value is None or value == "":
        return ""
    if isinstance(value, tuple):
        return "; ".join(_text(one) for one in value)
    if is_dataclass(value) and type(value).__str__ is object.__str__:
        return ", ".join(f"{one.name} {text}" for one in fields(value) if (text := _text(getattr(value, one.name))))
    return str(value)


def _moved(before: list[str], after: list[str]) -> tuple[str, ...]:
    """Ids outside a longest part that both orders share."""
    place = {id: number for number, id in enumerate(after)}
    kept: list[tuple[int, int]] = []
    for index, id in enumerate(before):
        longest = max((kept[other][0] for other in range(index) if place[before[other]] < place[id]), default=0)
        previous = next((o for o in range(index) if kept[o][0] == longest and place[before[o]] < place[id]), -1)
        kept.append((longest + 1, previous if longest else -1))
    index = max(range(len(kept)), key=lambda one: kept[one][0], default=-1)
    stay = set()
    while index >= 0:
        stay.add(before[index])
        index = kept[index][1]
    return tuple(id for id in before if id not in stay)
