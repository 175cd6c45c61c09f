"""Problems as values, and the one family of errors that carry them."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace


def N_(text: str) -> str:
    """Mark a sentence for the translation catalogue; it is translated where it is shown."""
    return text


@dataclass(frozen=True, slots=True)
class Fault:
    """One problem, where it is, and the sentence that says what is wrong and what is allowed.

    `sentence` is a catalogue text with named places, such as ``"{value} is not a duration"``;
    `values` fills them. `field` is a path such as ``categories[0].at_least`` or a form field's name.
    """

    code: str
    sentence: str
    values: Mapping[str, object] = field(default_factory=dict)
    field: str = ""
    line: int | None = None
    source: str = ""

    def text(self) -> str:
        """The English sentence, filled in."""
        return self.sentence.format(**self.values)

    def within(self, source: str) -> "Fault":
        """The same fault with the name of the file it was found in."""
        return replace(self, source=source)

    def __str__(self) -> str:
        place = ":".join(str(part) for part in (self.source, self.line) if part not in ("", None))
        return ": ".join(part for part in (place, self.field, self.text()) if part)


class ThroughlineError(Exception):
    """The root of every error that Throughline raises on purpose."""


class RefusedError(ThroughlineError):
    """A request or a file that can't be taken as it is; holds every fault at once."""

    def __init__(self, faults: Iterable[Fault]):
        self.faults = tuple(faults)
        super().__init__("\n".join(str(fault) for fault in self.faults))


class NotFoundError(ThroughlineError):
    """What was asked for is not there, or is not for this person to know of."""


class NotAllowedError(ThroughlineError):
    """The person may see this, but not change it; the message says why."""


class ConflictError(ThroughlineError):
    """Somebody else changed it meanwhile; the message says what to do."""
