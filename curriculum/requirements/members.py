"""One mapping of a requirement set taken member by member; every fault is gathered, none stops the reading."""

from fractions import Fraction

from curriculum.document import Node
from curriculum.faults import N_, Fault
from curriculum.requirements.amounts import ID, Amount, Share, duration, share
from curriculum.requirements.requirement_set import COLUMNS, TIMES, Accepts

FIELD = ID
CLOSED_TO_RULES = (*(name for name in COLUMNS if name != "activity"), *TIMES)


class Members:
    """The members of `node`, of which only `allowed` may be there."""

    def __init__(self, node: Node, allowed: tuple[str, ...], faults: list[Fault]):
        self.node, self.faults = node, faults
        if not node.is_mapping:
            self._fault(
                node,
                "no-mapping",
                N_("must be a group of named members: {allowed}"),
                allowed=_list(allowed),
            )
        for key, member in node.items():
            if key not in allowed:
                line = node.key_lines.get(key, member.line)
                faults.append(
                    Fault(
                        "unknown-key",
                        N_("is not known here; allowed: {allowed}"),
                        {"allowed": _list(allowed)},
                        member.path,
                        line,
                    )
                )

    def _fault(self, node: Node, code: str, sentence: str, **values: object) -> None:
        self.faults.append(node.fault(code, sentence, **values))

    def missing(self, key: str, what: str) -> None:
        path = f"{self.node.path}.{key}" if self.node.path else key
        sentence = N_("is missing; {what}")
        self.faults.append(Fault("missing", sentence, {"what": what}, path, self.node.line))

    def text(self, key: str) -> str:
        found = self.node.get(key)
        if found is None or found.value is None:
            return ""
        if found.is_text:
            return found.value.strip()
        self._fault(found, "not-text", N_("must be text"))
        return ""

    def required_text(self, key: str, what: str) -> str:
        written = self.text(key)
        found = self.node.get(key)
        if self.node.is_mapping and not written and (found is None or found.value is None or found.is_text):
            self.missing(key, what)
        return written

    def id(self, key: str = "id") -> str:
        written = self.required_text(key, "an id is a word of letters, digits, dot, hyphen and underscore")
        if written and not ID.fullmatch(written):
            sentence = N_("“{value}” is not an id; allowed: letters, digits, dot, hyphen, underscore, at most 64")
            self._fault(self.node.get(key), "not-an-id", sentence, value=written)
        if written.lower() in ("all", "credited"):
            sentence = N_("“{value}” has a meaning of its own and can't be an id")
            self._fault(self.node.get(key), "reserved-id", sentence, value=written)
        return written

    def list(self, key: str) -> tuple[Node, ...]:
        found = self.node.get(key)
        if found is None or found.value is None:
            return ()
        if not found.is_list:
            self._fault(found, "not-a-list", N_("must be a list"))
        return found.elements()

    def count(self, key: str, least: int = 1) -> int | None:
        found = self.node.get(key)
        if found is None or found.value is None:
            return None
        if found.is_text and found.value.strip().isdecimal() and least <= int(found.value) <= 100_000:
            return int(found.value)
        sentence = N_("{value} is not a whole number from {least} to 100000")
        self._fault(found, "not-a-count", sentence, value=_shown(found), least=least)
        return None

    def required_count(self, key: str) -> int:
        if self.node.is_mapping and _absent(self.node.get(key)):
            self.missing(key, "a whole number from 1 to 100000")
        return self.count(key) or 1

    def duration(self, key: str, unit: int) -> Fraction | None:
        found = self.node.get(key)
        if _absent(found):
            return None
        minutes = duration(found.value, unit) if found.is_text else None
        if minutes is None:
            self._not_a_duration(found, unit)
        return minutes

    def _not_a_duration(self, found: Node, unit: int) -> None:
        if found.is_text and share(found.value):
            sentence = N_("{value} is a percentage; allowed here: a duration such as 100 h or 90 min")
        elif found.is_text and found.value.strip().replace(".", "", 1).isdecimal():
            sentence = N_("{value} is a bare number; allowed: a duration with its unit, such as 100 h or 90 min")
        else:
            sentence = N_(
                "{value} is not a duration in whole minutes; allowed: such as 100 h or 90 min (h = {unit} min)"
            )
        self._fault(found, "not-a-duration", sentence, value=_shown(found), unit=unit)

    def required_duration(self, key: str, unit: int) -> Fraction:
        if self.node.is_mapping and _absent(self.node.get(key)):
            self.missing(key, "a duration such as 100 h or 90 min")
        return self.duration(key, unit) or Fraction(0)

    def floor(self, key: str, unit: int, base: Fraction) -> Fraction | None:
        """A duration, or a plain percentage of `base`, as minutes."""
        found = self.node.get(key)
        if _absent(found):
            return None
        part = share(found.value) if found.is_text else None
        if part is None:
            return self.duration(key, unit)
        if part.of:
            sentence = N_("{value}: “% of …” is for caps only; allowed: a duration or a plain percentage")
            self._fault(found, "share-on-floor", sentence, value=found.value)
        return part.part * base

    def required_floor(self, key: str, unit: int, base: Fraction) -> Fraction:
        if self.node.is_mapping and _absent(self.node.get(key)):
            self.missing(
                key,
                "a duration such as 40 h, or a percentage of the category's at_least",
            )
        return self.floor(key, unit, base) or Fraction(0)

    def cap(self, key: str, unit: int, overall: bool = False) -> Amount | None:
        """A duration or a percentage; an overall cap's percentage must say of what."""
        found = self.node.get(key)
        if _absent(found):
            return None
        part = share(found.value) if found.is_text else None
        if part is None:
            return self.duration(key, unit)
        if overall and not part.of:
            sentence = N_(
                "{value} over all categories must say of what; allowed: “{value} of ID”, ID a category or total"
            )
            self._fault(found, "share-of-nothing", sentence, value=found.value)
        return part

    def required_cap(self, key: str, unit: int, overall: bool = False) -> Amount:
        if self.node.is_mapping and _absent(self.node.get(key)):
            self.missing(key, "a duration such as 4 h, or a percentage")
        found = self.cap(key, unit, overall)
        return Fraction(0) if found is None else found

    def percentage(self, key: str) -> Fraction | None:
        found = self.node.get(key)
        part = share(found.value) if found is not None and found.is_text else None
        if part is None or part.of:
            self._absent_or(found, key, N_("{value} is not a percentage; allowed: such as 50 %"))
            return None
        return part.part

    def _absent_or(self, found: Node | None, key: str, sentence: str) -> None:
        if found is None or found.value is None:
            self.missing(key, "a percentage such as 50 %")
        else:
            self._fault(found, "not-a-percentage", sentence, value=_shown(found))

    def texts(self, key: str) -> tuple[str, ...]:
        found = self.node.get(key)
        return () if _absent(found) else texts(found, self.faults)

    def field(self, key: str, allowed: tuple[str, ...] = TIMES) -> str:
        """The name of a field of entries; `day`, `week` and `session` too."""
        written = self.text(key)
        if written and written not in allowed and not field_name(written):
            sentence = N_("“{value}” is not a field; allowed: day, week, session, activity or a column of the log")
            self._fault(self.node.get(key), "not-a-field", sentence, value=written)
        return written

    def accepts(self, key: str = "accepts") -> Accepts:
        found = self.node.get(key)
        if _absent(found):
            return {}
        if not found.is_mapping:
            self._fault(
                found,
                "no-mapping",
                N_("must name fields, each with a value or a list of values"),
            )
        for name, value in found.items():
            if not field_name(name):
                self._fault(
                    value,
                    "not-a-field",
                    N_("“{value}” can't be asked for here; allowed: activity or a further column"),
                    value=name,
                )
        return {name: texts(value, self.faults) for name, value in found.items()}


def field_name(name: str) -> bool:
    return bool(FIELD.fullmatch(name)) and name not in CLOSED_TO_RULES


def texts(node: Node, faults: list[Fault]) -> tuple[str, ...]:
    """A text, or a list of texts; anything else is a fault."""
    every = node.elements() if node.is_list else (node,)
    if not every:
        faults.append(node.fault("empty-list", N_("is an empty list; at least one value is needed")))
    found = []
    for one in every:
        if not one.is_text or not one.value.strip():
            faults.append(one.fault("not-text", N_("must be a value as text")))
        elif "|" in one.value:
            faults.append(
                one.fault(
                    "bar",
                    N_("“{value}” holds “|”; write several values as a list"),
                    value=one.value,
                )
            )
        else:
            found.append(one.value.strip())
    return tuple(dict.fromkeys(found))


def _absent(node: Node | None) -> bool:
    return node is None or node.value is None


def _shown(node: Node) -> str:
    return f"“{node.value}”" if node.is_text else "this"


def _list(names: tuple[str, ...]) -> str:
    return ", ".join(names)


__all__ = ["Members", "Share", "field_name", "texts"]
