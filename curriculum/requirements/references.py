"""Checks across a whole requirement set: ids that stand twice, ids that name nothing, values that can't occur."""

from collections.abc import Iterable, Iterator

from curriculum.document import Node
from curriculum.faults import N_, Fault
from curriculum.requirements.amounts import CREDITED, Share
from curriculum.requirements.requirement_set import TIMES, RequirementSet


def reference_faults(requirements: RequirementSet, node: Node) -> Iterator[Fault]:
    """Every fault that only shows when the set is seen as a whole."""
    categories = {one.id for one in requirements.categories}
    totals = {one.id for one in requirements.totals}
    yield from _doubles(node)
    for _, place in _placed(node, "totals"):
        yield from _unknown(
            place.get("of"),
            categories | {"all"},
            N_("“{value}” is not a category; allowed: {allowed}"),
        )
        yield from _all_among_others(place.get("of"))
    for _, place in _placed(node, "gates"):
        yield from _unknown(
            place.get("category"),
            categories,
            N_("“{value}” is not a category; allowed: {allowed}"),
        )
        for condition in _elements(place.get("when")):
            yield from _unknown(
                condition.get("category"),
                categories,
                N_("“{value}” is not a category; allowed: {allowed}"),
            )
    members = set(categories | totals)
    for one in requirements.categories:
        members |= {rule.id for rule in (*one.of_which, *one.variety)}
    for _, place in _placed(node, "choose"):
        yield from _unknown(
            place.get("among"),
            members,
            N_("“{value}” is not a category or a rule with a floor; allowed: {allowed}"),
        )
    yield from _shares(requirements, node, categories | totals | {CREDITED})
    yield from _outside_closed_lists(requirements, node)
    yield from _closed_times(requirements, node)


def _elements(node: Node | None) -> tuple[Node, ...]:
    return node.elements() if node is not None else ()


def _placed(node: Node, key: str) -> Iterator[tuple[int, Node]]:
    yield from enumerate(_elements(node.get(key)))


def _walk(node: Node) -> Iterator[Node]:
    yield node
    inner: Iterable[Node] = node.value.values() if node.is_mapping else node.elements()
    for one in inner:
        yield from _walk(one)


def _doubles(node: Node) -> Iterator[Fault]:
    seen: dict[str, int | None] = {}
    for place in _walk(node):
        found = place.get("id")
        if found is None or not found.is_text or ".accepts" in place.path:
            continue
        if found.value in seen:
            sentence = N_("“{value}” stands twice (first on line {first}); every id must be its own")
            yield found.fault("double-id", sentence, value=found.value, first=seen[found.value])
        else:
            seen[found.value] = found.line


def _unknown(node: Node | None, allowed: set[str], sentence: str) -> Iterator[Fault]:
    if node is None:
        return
    for one in node.elements() if node.is_list else (node,):
        if one.is_text and one.value.strip() and one.value.strip() not in allowed:
            yield one.fault(
                "unknown-id",
                sentence,
                value=one.value,
                allowed=", ".join(sorted(allowed)),
            )


def _all_among_others(node: Node | None) -> Iterator[Fault]:
    if node is not None and len(node.elements()) > 1 and any(one.value == "all" for one in node.elements()):
        yield node.fault("all-and-more", N_("“all” can't stand among others"))


def _shares(requirements: RequirementSet, node: Node, allowed: set[str]) -> Iterator[Fault]:
    sentence = N_("“{value}” is neither a category nor a total; allowed: {allowed}")
    for index, category in enumerate(requirements.categories):
        place = _elements(node.get("categories"))[index]
        caps = [(category.at_most, place.get("at_most"))]
        caps += [
            (cap.at_most, inner.get("at_most"))
            for cap, inner in zip(category.limits, _elements(place.get("limits")), strict=False)
        ]
        yield from _unknown_shares(caps, allowed, sentence)
    overall = [
        (cap.at_most, inner.get("at_most"))
        for cap, inner in zip(requirements.limits, _elements(node.get("limits")), strict=False)
    ]
    yield from _unknown_shares(overall, allowed, sentence)


def _unknown_shares(caps: list, allowed: set[str], sentence: str) -> Iterator[Fault]:
    for amount, place in caps:
        if isinstance(amount, Share) and amount.of and amount.of not in allowed and place is not None:
            yield place.fault(
                "unknown-id",
                sentence,
                value=amount.of,
                allowed=", ".join(sorted(allowed)),
            )


def _outside_closed_lists(requirements: RequirementSet, node: Node) -> Iterator[Fault]:
    for place in _walk(node):
        found = place.get("accepts")
        if found is None:
            continue
        for name, value in found.items():
            allowed = set(requirements.fields.get(name, ()))
            if allowed:
                yield from _unknown(
                    value,
                    allowed,
                    N_("“{value}” can never occur; allowed by fields: {allowed}"),
                )


def _closed_times(requirements: RequirementSet, node: Node) -> Iterator[Fault]:
    """A variety of more values than can occur; not where a choice may leave it or its category out."""
    optional = {member for choice in requirements.choose for member in choice.among}
    for category, read in zip(_elements(node.get("categories")), requirements.categories, strict=True):
        rules = zip(_elements(category.get("variety")), read.variety, strict=True)
        for variety in (place for place, rule in rules if not {read.id, rule.id} & optional):
            of, least = variety.get("of"), variety.get("at_least")
            allowed = requirements.fields.get(of.value, ()) if of is not None and of.is_text else ()
            if (allowed and of.value not in TIMES and least is not None and str(least.value).isdecimal()) and int(
                least.value
            ) > len(allowed):
                sentence = N_("asks for {value} of {most} values that can occur: {allowed}")
                yield least.fault(
                    "too-many",
                    sentence,
                    value=least.value,
                    most=len(allowed),
                    allowed=", ".join(allowed),
                )
